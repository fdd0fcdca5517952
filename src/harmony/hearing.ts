import type { PitchClass } from '../score/index.js';
import { shareOf } from './foreign-cost.js';
import { cost } from './chord-cost.js';
import type { Lattice } from './lattice.js';
import type { Moment } from './moments.js';
import type { Sound, Tone } from './sound.js';

/** Everything that sounds between two times, weighed once so that any chord can be tried against it. */
export interface Hearing {
  /** Cost of hearing a pitch class as foreign. */
  readonly foreign: ReadonlyMap<PitchClass, number>;
  /** Beats of presence. */
  readonly present: ReadonlyMap<PitchClass, number>;
  readonly tones: readonly Tone[];
  /** Lowest tone at the beginning, lowest of all, the bass that rings for the longest time, and the one that rings from before. */
  readonly basses:
    | { readonly first: Tone; readonly lowest: Tone; readonly longest: Tone; readonly ground: Tone }
    | undefined;
  readonly beats: number;
  /** Number of tones at the fullest moment; 1 for a single line. */
  readonly mostAtOnce: number;
  /**
   * Tones of the next harmony or of the end of this one that a tone here, held or struck again from before, moves to by step, within a beat after
   * the end (Hutchinson, Non-Chord Tones: a suspension is prepared).
   */
  readonly resolutions: readonly {
    readonly from: PitchClass;
    readonly to: PitchClass;
    /** When it gets there, in ticks. */
    readonly at: number;
    /** Whether the tone is the bass. */
    readonly inBass: boolean;
  }[];
}

/** Index of the moment that holds a time, by binary search. */
export function momentAt(moments: readonly Moment[], ticks: number): number {
  let low = 0;
  let high = moments.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((moments[middle]?.start ?? 0) <= ticks) low = middle;
    else high = middle - 1;
  }
  return low;
}

const isStepFrom = (a: Tone, b: Tone): boolean =>
  Math.abs(a.step - b.step) === 1 && Math.abs(a.midi - b.midi) <= 2;

/** What is heard from `start` to `end` (ticks, end exclusive). */
export function hear(
  sound: Sound,
  { moments, ground, staying }: Pick<Lattice, 'moments' | 'ground' | 'staying'>,
  start: number,
  end: number,
): Hearing {
  const foreign = new Map<PitchClass, number>();
  const present = new Map<PitchClass, number>();
  const tones = new Set<Tone>();
  const lowestFor = new Map<Tone, number>();
  let first: Tone | undefined;
  let lowest: Tone | undefined;
  let beats = 0;
  let mostAtOnce = 0;
  for (let at = momentAt(moments, start); at < moments.length; at++) {
    const moment = moments[at];
    if (moment === undefined || moment.start >= end) break;
    const from = Math.max(start, moment.start);
    const length = (Math.min(end, moment.end) - from) / moment.beat;
    if (length <= 0) continue;
    beats += length;
    mostAtOnce = Math.max(mostAtOnce, moment.sounding.length);
    const here = new Map<PitchClass, number>();
    moment.sounding.forEach((id, rank) => {
      const tone = sound.tones[id];
      if (tone === undefined) return;
      tones.add(tone);
      const struck = tone.on === moment.start && from === moment.start;
      const weight =
        (length + (struck ? cost.attack : 0)) *
        (rank === 0 ? cost.bassFactor : 1) *
        shareOf(tone, moment, { sound, moments, staying });
      here.set(tone.pitchClass, Math.max(here.get(tone.pitchClass) ?? 0, weight));
      if (rank === 0) {
        const ringing = ground[at] ?? tone;
        lowestFor.set(ringing, (lowestFor.get(ringing) ?? 0) + length);
        first ??= tone;
        if (lowest === undefined || tone.midi < lowest.midi) lowest = tone;
      }
    });
    for (const [tone, weight] of here) {
      foreign.set(tone, (foreign.get(tone) ?? 0) + weight);
      present.set(tone, (present.get(tone) ?? 0) + length);
    }
  }
  const isPrepared = (tone: Tone): boolean =>
    tone.on < start || (tone.previous !== undefined && sound.tones[tone.previous]?.midi === tone.midi);
  const last = moments[momentAt(moments, Math.max(start, end - 1))];
  const horizon = end + (last?.beat ?? 0);
  // A decorated suspension touches another tone before it resolves, so the tone after the next counts too.
  const resolutions = [...tones].filter(isPrepared).flatMap(tone => {
    const next = tone.next === undefined ? undefined : sound.tones[tone.next];
    const second = next?.next === undefined ? undefined : sound.tones[next.next];
    return [next, second]
      .filter(
        other => other !== undefined && other.on >= end && other.on < horizon && isStepFrom(tone, other),
      )
      .flatMap(other =>
        other === undefined
          ? []
          : [
              {
                from: tone.pitchClass,
                to: other.pitchClass,
                at: other.on,
                inBass: tone.midi === lowest?.midi,
              },
            ],
      );
  });
  const longest = [...lowestFor].sort((a, b) => b[1] - a[1])[0]?.[0];
  return {
    foreign,
    present,
    tones: [...tones],
    basses:
      first === undefined || lowest === undefined || longest === undefined
        ? undefined
        : { first, lowest, longest, ground: ground[momentAt(moments, start)] ?? first },
    beats,
    mostAtOnce,
    resolutions,
  };
}
