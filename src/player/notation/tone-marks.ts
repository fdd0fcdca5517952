import type { NonChordToneKind } from '../../harmony/index.js';
import type { PageScore } from '../../timeline/index.js';
import { svg } from '../dom.js';
import type { LabelRequest } from './label-layer.js';
import { lanesFor } from './lanes.js';
import type { Placement } from './place-score.js';

/** What is written at a note that does not belong to its chord (common practice: the initials of the kind). */
const letters: Readonly<Record<NonChordToneKind, string>> = {
  'passing tone': 'p',
  'neighbour tone': 'n',
  suspension: 'sus',
  retardation: 'ret',
  appoggiatura: 'app',
  'escape tone': 'esc',
  anticipation: 'ant',
  pedal: 'ped',
  cambiata: 'cam',
  'double neighbour': 'dn',
  ornament: 'orn',
};

const size = 14;
/** Room between the middle of a note head and the foot of its letters. */
const rise = 9;
const lane = 13;

/** Writes the kind of every non-chord tone of one system above its note; letters that would touch are raised over one another. */
export function drawToneMarks(
  parent: SVGGElement,
  score: PageScore,
  placement: Placement,
  system: number,
  request: LabelRequest,
): void {
  if (!request.layers.has('non-chord tones')) return;
  const marks = score.segments
    .filter((_, index) => !request.covered.has(index))
    .flatMap(segment => segment.nonChordTones)
    .flatMap(({ note, kind, figure }) => {
      const onset = score.notes[note]?.onset ?? -1;
      const place = placement.notes[note];
      if (place?.system !== system || onset < request.start || onset >= request.end) return [];
      const text = figure === undefined ? letters[kind] : `${letters[kind]} ${figure.replace('-', '–')}`;
      const shown = svg('text', { class: 'tone-mark', 'font-size': size }, text);
      parent.append(shown);
      return [{ shown, head: place.head, width: shown.getComputedTextLength() }];
    })
    .sort((a, b) => a.head.x - b.head.x);
  // Only marks at about the same height can touch.
  for (const { shown, head, width } of marks) {
    const level = marks.filter(other => Math.abs(other.head.y - head.y) < 2 * lane);
    const lanes = lanesFor(
      level.map(other => ({ x: other.head.x - other.width / 2, width: other.width })),
      8,
    );
    const highest = Math.min(...level.map(other => other.head.y));
    const raised = lanes[level.findIndex(other => other.shown === shown)] ?? 0;
    shown.setAttribute('x', String(head.x - width / 2));
    shown.setAttribute('y', String((raised === 0 ? head.y : highest) - rise - raised * lane));
  }
}
