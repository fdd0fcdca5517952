import { compare, fraction, printPitchClass } from '../score/index.js';
import type { PitchClass } from '../score/index.js';
import { heardIn } from './analyse.js';
import { foreignTones } from './foreign-tones.js';
import { momentAt } from './hearing.js';
import type { ChordQuestion, Witness } from './judgement.js';
import type { Analysis, Key } from './model.js';
import { segmentAt } from './segment-at.js';
import { ticksOf } from './sound.js';
import type { Weighed } from './weigh-chord.js';

const partNames = ['root', 'third', 'fifth', 'seventh', 'ninth'] as const;
export const partName = (part: number): string => partNames[part] ?? 'tone';

/** What is said of tones that are not there: a claim about a beat speaks of one moment, later in the beat they may well sound. */
export const unheard = ({ start, end }: ChordQuestion, several: boolean): string =>
  compare(start, end) === 0
    ? `${several ? 'do' : 'does'} not sound at this moment`
    : `never ${several ? 'sound' : 'sounds'}`;

/** What every tone of the span says of the claimed chord, and the names of those set aside and of those that speak against it. */
export function witnessesOf(
  analysis: Analysis,
  weighed: Weighed,
  key: Key,
): {
  readonly all: readonly Witness[];
  readonly setAside: readonly string[];
  readonly against: readonly string[];
} {
  const { sound, lattice } = heardIn(analysis);
  const { question, hearing, price } = weighed;
  const start = ticksOf(question.start, sound.ticksPerWhole);
  const end = Math.max(start + 1, ticksOf(question.end, sound.ticksPerWhole));
  const from = momentAt(lattice.moments, start);
  const to = momentAt(lattice.moments, end - 1) + 1;
  const chordAt = (ticks: number): { readonly tones: readonly PitchClass[] } | undefined => {
    if (ticks >= start && ticks < end) return question;
    return segmentAt(analysis, fraction(ticks, sound.ticksPerWhole))?.chord;
  };
  const foreign = new Map(
    foreignTones(sound, lattice, { from, to, tones: question.tones, key }, chordAt).map(({ tone, named }) => [
      tone,
      named,
    ]),
  );
  const all: Witness[] = [];
  const setAside: string[] = [];
  const against: string[] = [];
  for (const tone of hearing.tones) {
    const [note] = tone.notes;
    if (note === undefined) continue;
    const part = question.tones.indexOf(tone.pitchClass);
    const name = printPitchClass(tone.pitchClass);
    const named = foreign.get(tone);
    if (part >= 0) all.push({ role: 'supports', note, why: `${partName(part)} of the chord` });
    else if (named !== undefined) {
      all.push({
        role: 'set aside',
        note,
        why: named.kind + (named.figure === undefined ? '' : ` ${named.figure}`),
      });
      setAside.push(`${name} (${named.kind})`);
    } else {
      all.push({
        role: 'contradicts',
        note,
        why: 'foreign to the chord, neither prepared nor resolved by step',
      });
      against.push(name);
    }
  }
  for (const part of price.missing) {
    const tone = question.tones[part];
    if (tone !== undefined)
      all.push({ role: 'missing', tone, why: `${partName(part)} of the chord, ${unheard(question, false)}` });
  }
  return { all, setAside: [...new Set(setAside)], against: [...new Set(against)] };
}
