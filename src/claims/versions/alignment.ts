import { compare, isBefore, midiOf, staffStepOf, subtract } from '../../score/index.js';
import type { Bar, Note, Score } from '../../score/index.js';
import { endOf } from '../place/beats.js';
import { soundingIn } from '../subjects/sounding.js';
import type { IntervalName } from '../terms/interval-name.js';

/** Bars of one version put beside bars of the other; `undefined` where one of them has no partner. */
export interface Aligned {
  readonly here: Bar | undefined;
  readonly there: Bar | undefined;
}

/** What it costs to leave a bar without a partner. */
const alone = 2;

/** Bars with nothing in common but their place are put beside each other all the same: they cost a little less than two that stand alone. */
const nothingInCommon = 3.9;

/** How much of the likeness of two bars is in the pitches; the rest is in their rhythm. */
const pitchShare = 0.75;

/** How often each thing occurs. */
type Counts = ReadonlyMap<string, number>;

/** A bar as it is compared: its notes with their pitches, and the same without them. */
interface Content {
  readonly notes: Counts;
  readonly rhythm: Counts;
}

function counted(names: readonly string[]): Counts {
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  return counts;
}

const total = (counts: Counts): number => [...counts.values()].reduce((sum, each) => sum + each, 0);

/** The share that two rows of things have in common, 1 where both are empty. */
function share(a: Counts, b: Counts): number {
  const all = total(a) + total(b);
  if (all === 0) return 1;
  let common = 0;
  for (const [name, number] of a) common += Math.min(number, b.get(name) ?? 0);
  return (2 * common) / all;
}

const unison: IntervalName = { steps: 0, semitones: 0 };

function contentOf(score: Score, bar: Bar, moved: IntervalName): Content {
  const starting = soundingIn(score, { start: bar.start, end: endOf(bar) }).filter(
    note => compare(bar.start, note.onset) <= 0 && isBefore(note.onset, endOf(bar)),
  );
  const places = starting.map(({ onset, duration, tiedFrom }) => {
    const offset = subtract(onset, bar.start);
    const held = tiedFrom === undefined ? '' : ' held';
    return `${String(offset.n)}/${String(offset.d)} ${String(duration.n)}/${String(duration.d)}${held}`;
  });
  const pitches = starting.map(
    ({ pitch }) => `${String(staffStepOf(pitch) + moved.steps)} ${String(midiOf(pitch) + moved.semitones)}`,
  );
  return {
    rhythm: counted(places),
    notes: counted(places.map((place, at) => `${place} ${pitches[at] ?? ''}`)),
  };
}

/** The outer notes of the first and the last bar that sound: where they have gone a version is transposed to. */
function landmarks({ bars, notes }: Score): readonly (Note | undefined)[] {
  const outer = (bar: Bar | undefined): readonly (Note | undefined)[] => {
    const within =
      bar === undefined
        ? []
        : notes.filter(({ onset }) => compare(bar.start, onset) <= 0 && isBefore(onset, endOf(bar)));
    const sorted = [...within].sort((a, b) => midiOf(a.pitch) - midiOf(b.pitch));
    return [sorted[0], sorted.at(-1)];
  };
  const last = bars.findLast(bar => notes.some(({ onset }) => compare(bar.start, onset) <= 0));
  return [...outer(bars.find(({ number }) => number > 0)), ...outer(last)];
}

/** By how much the notes of a version must be moved to lie on those of the other: an interval only where more bars are the same for it. */
function transpositionOf(score: Score, other: Score): IntervalName {
  const [from, to] = [landmarks(score), landmarks(other)];
  const candidates = from.flatMap((note, at) => {
    const goal = to[at];
    return note === undefined || goal === undefined
      ? []
      : [
          {
            steps: staffStepOf(goal.pitch) - staffStepOf(note.pitch),
            semitones: midiOf(goal.pitch) - midiOf(note.pitch),
          },
        ];
  });
  const printed = ({ notes }: Content): string => [...notes.keys()].sort().join(';');
  const theirs = new Set(other.bars.map(bar => printed(contentOf(other, bar, unison))));
  const matches = (moved: IntervalName): number =>
    score.bars.filter(bar => theirs.has(printed(contentOf(score, bar, moved)))).length;
  return candidates.reduce(
    (best, moved) => {
      const number = matches(moved);
      return number > best.number ? { moved, number } : best;
    },
    { moved: unison, number: matches(unison) },
  ).moved;
}

const known = new WeakMap<Score, WeakMap<Score, readonly Aligned[]>>();

/**
 * Puts the bars of two versions beside each other so that as few bars as possible are left alone and what stands side by side is as alike as
 * possible (Wagner and Fischer 1974, the string-to-string correction problem): a bar that is put in moves the numbers of all that follow. Of two
 * equal bars the second is the new one. A version that is transposed as a whole is compared as if it were not. Worked out once for two scores.
 */
export function alignBars(score: Score, other: Score): readonly Aligned[] {
  const before = known.get(score)?.get(other);
  if (before !== undefined) return before;
  const aligned = align(score, other);
  const all = known.get(score) ?? new WeakMap<Score, readonly Aligned[]>();
  known.set(score, all.set(other, aligned));
  return aligned;
}

function align(score: Score, other: Score): readonly Aligned[] {
  const moved = transpositionOf(score, other);
  const a = score.bars.map(bar => contentOf(score, bar, moved));
  const b = other.bars.map(bar => contentOf(other, bar, unison));
  const unlike = (one: Content, two: Content): number =>
    nothingInCommon *
    (1 - pitchShare * share(one.notes, two.notes) - (1 - pitchShare) * share(one.rhythm, two.rhythm));
  const width = b.length + 1;
  const cost = new Float64Array((a.length + 1) * width);
  // Which of the two bars ends what is aligned so far: both, one that only this version has, or one that only the other has.
  const ends = new Uint8Array(cost.length);
  const [both, here, there] = [0, 1, 2];
  for (let i = 0; i <= a.length; i++)
    for (let j = 0; j <= b.length; j++) {
      const at = i * width + j;
      const [one, two] = [a[i - 1], b[j - 1]];
      const paired =
        one === undefined || two === undefined ? Infinity : (cost[at - width - 1] ?? 0) + unlike(one, two);
      const onlyHere = i === 0 ? Infinity : (cost[at - width] ?? 0) + alone;
      const onlyThere = j === 0 ? Infinity : (cost[at - 1] ?? 0) + alone;
      cost[at] = i + j === 0 ? 0 : Math.min(paired, onlyHere, onlyThere);
      ends[at] = cost[at] === onlyThere ? there : cost[at] === onlyHere ? here : both;
    }
  const aligned: Aligned[] = [];
  let [i, j] = [a.length, b.length];
  while (i > 0 || j > 0) {
    const end = ends[i * width + j];
    aligned.push({
      here: end === there ? undefined : score.bars[i - 1],
      there: end === here ? undefined : other.bars[j - 1],
    });
    if (end !== there) i -= 1;
    if (end !== here) j -= 1;
  }
  return aligned.reverse();
}
