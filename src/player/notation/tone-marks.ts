import type { NonChordToneKind } from '../../harmony/index.js';
import type { PageScore, PageSegment } from '../../timeline/index.js';
import { svg } from '../dom.js';
import type { LabelRequest } from './label-layer.js';
import { obstaclesIn, overlap, type Box } from './obstacles.js';
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
/** How far letters of this size reach over and under their base line. */
const ascent = 10;
const descent = 3;
/** Room between the middle of a note head and the base line of its letters. */
const rise = 9;

/** Where letters may stand: from the head away, and a little to either side. */
const furthest = 45;
const step = 3;
const sideways = [0, 7, -7, 14, -14];
/** What it costs in units of way to touch something. */
const costOfTouch = 30;
/** Room between two marks. */
const gap = 4;
/** Heads that are not further apart stand on one staff and at one moment. */
const sameStaff = 50;
const sameMoment = 18;

interface Place {
  readonly x: number;
  readonly y: number;
  readonly onset: number;
  readonly system: number;
  /** The lower one of two voices on a staff has its letters under it. */
  readonly below: boolean;
}

/** Whether another voice stands over this head on its staff, and none under it. */
function isLowerVoice(
  score: PageScore,
  placement: Placement,
  voice: number,
  { system, x, y }: Place,
): boolean {
  const away = placement.notes.flatMap((other, id) => {
    const here = other?.system === system && Math.abs(other.head.x - x) < sameMoment;
    return here && score.notes[id]?.voice !== voice ? [other.head.y - y] : [];
  });
  return away.some(by => -sameStaff < by && by < 0) && !away.some(by => 0 < by && by < sameStaff);
}

/**
 * Where a tone is heard against the chord: at the head that is struck or tied over there, and where it is held through, at that moment
 * of the score.
 */
function placeOf(
  score: PageScore,
  placement: Placement,
  id: number,
  { start }: PageSegment,
): Place | undefined {
  const note = score.notes[id];
  if (note === undefined) return undefined;
  const onset = Math.max(note.onset, start);
  const sounding = score.notes.findIndex(
    one =>
      one.voice === note.voice &&
      one.pitch === note.pitch &&
      one.onset <= onset + 1e-9 &&
      onset + 1e-9 < one.onset + one.duration,
  );
  const at = placement.notes[sounding] ?? placement.notes[id];
  if (at === undefined) return undefined;
  const held = (score.notes[sounding]?.onset ?? onset) < onset - 1e-9;
  const moment = held ? placement.momentAt(onset) : undefined;
  // The moment is the left edge of the heads that are struck there.
  const x = moment?.system === at.system ? moment.x + 5 : at.head.x;
  const place = { x, y: at.head.y, onset, system: at.system, below: false };
  return { ...place, below: isLowerVoice(score, placement, note.voice, place) };
}

/** The best place for letters of this width at a head: near it, and clear of what stands there. */
function freePlace({ x, y, below }: Place, width: number, obstacles: readonly Box[]): Box {
  let best: { readonly box: Box; readonly cost: number } | undefined;
  for (let way = 0; way <= furthest; way += step)
    for (const aside of sideways) {
      const base = below ? y + rise + ascent + way : y - rise - way;
      const left = x + aside - width / 2;
      const box = { left, top: base - ascent, right: left + width, bottom: base + descent };
      const touched = obstacles.filter(other => overlap(box, other)).length;
      const cost = way + Math.abs(aside) + costOfTouch * touched;
      if (cost < (best?.cost ?? Infinity)) best = { box, cost };
    }
  return best?.box ?? { left: x, top: y, right: x, bottom: y };
}

/** Writes the kind of every non-chord tone of one system beside the head where it is heard. `drawing` is what the engraver drew there. */
export function drawToneMarks(
  parent: SVGGElement,
  score: PageScore,
  placement: Placement,
  system: number,
  request: LabelRequest,
  drawing: SVGGraphicsElement,
): void {
  if (!request.layers.has('non-chord tones')) return;
  const marks = score.segments
    .filter((_, index) => !request.covered.has(index))
    .flatMap(segment => segment.nonChordTones.map(tone => ({ segment, ...tone })))
    .flatMap(({ segment, note, kind, figure }) => {
      const place = placeOf(score, placement, note, segment);
      if (place?.system !== system || place.onset < request.start || place.onset >= request.end) return [];
      const text = figure === undefined ? letters[kind] : `${letters[kind]} ${figure.replace('-', '–')}`;
      const shown = svg('text', { class: 'tone-mark', 'font-size': size }, text);
      parent.append(shown);
      return [{ shown, place, width: shown.getComputedTextLength() }];
    })
    // From the left; in a chord the lowest tone has the place next to the heads.
    .sort((a, b) => a.place.x - b.place.x || b.place.y - a.place.y);
  if (marks.length === 0) return;
  const taken = [...obstaclesIn(drawing)];
  for (const { shown, place, width } of marks) {
    const box = freePlace(place, width, taken);
    taken.push({ ...box, left: box.left - gap, right: box.right + gap });
    shown.setAttribute('x', String(box.left));
    shown.setAttribute('y', String(box.bottom - descent));
  }
}
