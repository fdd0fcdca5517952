import { add, compare, isBefore, toNumber } from '../score/index.js';
import type { Fraction, Note, Score } from '../score/index.js';
import { cadenceTraits } from './cadence-traits.js';
import type { CadenceTraits } from './cadence-traits.js';
import { momentAt } from './hearing.js';
import { degreeTone } from './key.js';
import type { CadenceKind, Key, Segment } from './model.js';
import { firstEndingAfter } from './segment-at.js';
import type { Heard } from './segments.js';
import { ticksOf } from './sound.js';
import type { Tone } from './sound.js';
import type { Units } from './units.js';

/**
 * The notes that may count as the soprano of an arrival: the highest tone and the tone of the first voice, and what either moves to
 * within the beat (an appoggiatura or suspension at the arrival resolves first).
 */
export function sopranoNotes(
  { score, sound, lattice }: Heard,
  onset: Fraction,
  beat: Fraction,
): readonly Note[] {
  const start = ticksOf(onset, sound.ticksPerWhole);
  const end = ticksOf(add(onset, beat), sound.ticksPerWhole);
  const moment = lattice.moments[momentAt(lattice.moments, start)];
  const sounding = (moment?.sounding ?? [])
    .map(index => sound.tones[index])
    .filter(tone => tone !== undefined);
  const highest = sounding[sounding.length - 1];
  const firstVoice = sounding.findLast(tone => tone.voice === 0);
  const withResolution = (tone: Tone | undefined): Tone[] => {
    if (tone === undefined) return [];
    const next = tone.next === undefined ? undefined : sound.tones[tone.next];
    const byStep = tone.departure === 'step up' || tone.departure === 'step down';
    return next !== undefined && byStep && next.on <= end ? [tone, next] : [tone];
  };
  return [...withResolution(highest), ...withResolution(firstVoice)]
    .map(tone => score.notes[tone.notes[0] ?? -1])
    .filter(note => note !== undefined);
}

/** What each sign of a phrase end adds. Common practice; no single sign is needed. */
const signs = {
  downbeat: 0.2,
  beat: 0.1,
  /** Per beat of the upper line's tone, and at most: a long tone comes to rest. */
  longTone: 0.12,
  longTones: 0.3,
  /** Per beat of the harmony. */
  stay: 0.1,
  stays: 0.3,
  rest: 0.25,
  /** A cadence is prepared: predominant or six-four, dominant, goal (Open Music Theory, cadential progressions). */
  prepared: 0.2,
  /** The seventh of V wants to move on, so a phrase rarely stops on it (Open Music Theory, Cadence types: half cadence). */
  seventhOfDominant: -0.3,
  /** A fermata or a breath mark says it outright. */
  fermata: 0.4,
  /** A unit of form ends with the bar of the arrival or with its harmony: what comes next takes up what stood earlier. */
  unitEnds: 0.2,
  /** A unit begins with the bar in which a tonic arrives: then it opens rather than closes, though it may do both. */
  unitBegins: -0.1,
  /** The fourth or the eighth bar of a unit (common practice: phrases of four and eight bars). */
  fourthBar: 0.15,
} as const;

const isDominant = (segment: Segment | undefined, key: Key): boolean =>
  segment !== undefined &&
  segment.roman !== 'cad64' &&
  (segment.chord.root === degreeTone(key, 5) || segment.chord.quality.startsWith('diminished'));

/** Whether a predominant or a six-four comes before the dominant that leads to a segment, or that the segment is. */
function isPrepared(
  segments: readonly Segment[],
  arrival: number,
  goal: CadenceTraits['goal'],
  key: Key,
): boolean {
  let at = arrival - 1;
  while (goal === 'tonic' && isDominant(segments[at], key)) at--;
  const before = segments[at];
  return (
    before !== undefined &&
    (before.roman === 'cad64' ||
      before.function === 'predominant' ||
      (before.chord.root === key.tonic && before.chord.inversion === 2))
  );
}

/** Whether the way to an onset made a close due: a predominant or a six-four before the dominant. */
export const isDue = (segments: readonly Segment[], onset: Fraction, key: Key): boolean =>
  isPrepared(segments, firstEndingAfter(segments, onset), 'tonic', key);

/** The first bars of a unit, in which a cadence comes early, and the longest phrase that is counted. */
const earlyBars = 3;
const longestPhrase = 8;

/** Whether an arrival in a bar begins a unit of form. An introduction mostly closes with the very bar in which the voice enters, which is its last then. */
const isFirstOfUnit = ({ begins, opens }: Units, bar: number): boolean =>
  begins[bar] === true && bar !== opens;

/** Which bar of its unit of form the bar of an arrival is, 1 for the first; no more than `longestPhrase` and one. */
function barOfUnit({ bars }: Score, units: Units, bar: number): number {
  const isFirst = (at: number): boolean =>
    (bars[at]?.number ?? 0) <= 1 || (at === bar ? isFirstOfUnit(units, at) : units.begins[at] === true);
  let count = 1;
  for (let at = bar; count <= longestPhrase && !isFirst(at); at--) count++;
  return count;
}

/**
 * How strongly a phrase closes on an onset, 0 to 1: metre, length, a rest after it, a harmony that stays, the way that leads there, the place in the
 * unit of form, and what the notation says.
 */
export function closureOf(
  { score, sound, lattice, units }: Heard,
  segments: readonly Segment[],
  onset: Fraction,
  kind: CadenceKind,
  key: Key,
): number {
  const { goal, early, isPrepared: canBePrepared } = cadenceTraits[kind];
  const start = ticksOf(onset, sound.ticksPerWhole);
  const first = momentAt(lattice.moments, start);
  const moment = lattice.moments[first];
  if (moment === undefined) return 0;
  const sounding = moment.sounding.map(id => sound.tones[id]).filter(tone => tone !== undefined);
  const top = sounding.findLast(tone => tone.voice === 0) ?? sounding[sounding.length - 1];
  const beats = top === undefined ? 0 : (top.off - start) / moment.beat;
  const next = top?.next === undefined ? undefined : sound.tones[top.next];
  const rests = top !== undefined && (next === undefined || next.on > top.off);
  const at = firstEndingAfter(segments, onset);
  const segment = segments[at];
  const stays =
    segment === undefined
      ? 0
      : ((toNumber(segment.end) - toNumber(onset)) * sound.ticksPerWhole) / moment.beat;
  let seventh = false;
  for (let m = first; goal === 'dominant'; m++) {
    const within = lattice.moments[m];
    if (within === undefined || within.start >= start + moment.beat) break;
    seventh ||= within.sounding.some(id => sound.tones[id]?.pitchClass === degreeTone(key, 4));
  }
  const held = score.marks.some(
    mark =>
      (mark.kind === 'fermata' || mark.kind === 'breath') &&
      compare(mark.onset, onset) >= 0 &&
      (segment === undefined ? compare(mark.onset, onset) === 0 : isBefore(mark.onset, segment.end)),
  );
  const last =
    segment === undefined ? first : momentAt(lattice.moments, ticksOf(segment.end, sound.ticksPerWhole) - 1);
  const unitEnds =
    units.ends[moment.bar] === true || units.ends[lattice.moments[last]?.bar ?? moment.bar] === true;
  const unitBegins =
    goal === 'tonic' && isFirstOfUnit(units, moment.bar) && lattice.moments[first - 1]?.bar !== moment.bar;
  const count = barOfUnit(score, units, moment.bar);
  const closure =
    (moment.level <= 1 ? signs.downbeat : moment.level === 2 ? signs.beat : 0) +
    Math.min(signs.longTones, beats * signs.longTone) +
    Math.min(signs.stays, stays * signs.stay) +
    (rests ? signs.rest : 0) +
    (canBePrepared && isPrepared(segments, at, goal, key) ? signs.prepared : 0) +
    (seventh ? signs.seventhOfDominant : 0) +
    (held ? signs.fermata : 0) +
    (unitEnds ? signs.unitEnds : 0) +
    (unitBegins ? signs.unitBegins : 0) +
    (count === 4 || count === longestPhrase ? signs.fourthBar : 0) +
    (count <= earlyBars ? early : 0);
  return Math.max(0, Math.min(1, closure));
}

/**
 * Whether an onset opens a phrase by the notation: only an upbeat comes before it, a fermata or breath stands on what comes before it, or a
 * slur that leads into it begins after another has ended on the harmony before (common practice: the upbeat belongs to what follows).
 */
export function opensPhrase(
  { score }: Pick<Heard, 'score'>,
  segments: readonly Segment[],
  onset: Fraction,
): boolean {
  const bar = score.bars.find(candidate => candidate.number > 0);
  if (bar !== undefined && compare(onset, bar.start) <= 0) return true;
  const before = segments[firstEndingAfter(segments, onset) - 1];
  if (before === undefined) return true;
  const within = score.marks.filter(
    mark => compare(mark.onset, before.start) >= 0 && isBefore(mark.onset, onset),
  );
  if (within.some(mark => mark.kind === 'fermata' || mark.kind === 'breath')) return true;
  return within.some(
    ended =>
      ended.kind === 'slur end' &&
      within.some(begun => {
        if (begun.kind !== 'slur start' || begun.voice !== ended.voice || !isBefore(ended.onset, begun.onset))
          return false;
        const end = score.marks.find(
          mark => mark.kind === 'slur end' && mark.voice === begun.voice && isBefore(begun.onset, mark.onset),
        );
        return end !== undefined && isBefore(onset, end.onset);
      }),
  );
}
