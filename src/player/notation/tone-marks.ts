import type { NonChordToneKind } from '../../harmony/index.js';
import type { PageScore } from '../../timeline/index.js';
import { svg } from '../dom.js';
import type { LabelRequest } from './label-layer.js';
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

/** Room between the middle of a note head and the foot of its letters, past a stem's beginning. */
const rise = 9;

/** Writes the kind of every non-chord tone of one system above its note. */
export function drawToneMarks(
  parent: SVGGElement,
  score: PageScore,
  placement: Placement,
  system: number,
  request: LabelRequest,
): void {
  if (!request.layers.has('non-chord tones')) return;
  for (const { note, kind, figure } of score.segments.flatMap(segment => segment.nonChordTones)) {
    const onset = score.notes[note]?.onset ?? -1;
    const place = placement.notes[note];
    if (place?.system !== system || onset < request.start || onset >= request.end) continue;
    const text = figure === undefined ? letters[kind] : `${letters[kind]} ${figure.replace('-', '–')}`;
    parent.append(
      svg(
        'text',
        {
          class: 'tone-mark',
          x: place.head.x,
          y: place.head.y - rise,
          'font-size': 14,
          'text-anchor': 'middle',
        },
        text,
      ),
    );
  }
}
