import { printPitchClass } from '../score/index.js';
import type { PitchClass } from '../score/index.js';
import { askBass } from './bass-fit.js';
import type { BassAnswer } from './bass-fit.js';
import { printChord } from './chord.js';
import { partName, unheard, witnessesOf } from './chord-witnesses.js';
import { fullerChord } from './fuller-chord.js';
import type { FullerChord } from './fuller-chord.js';
import type { Outcome, Witness } from './judgement.js';
import { key as makeKey } from './key.js';
import type { Analysis, Key } from './model.js';
import type { Tone } from './sound.js';
import type { Weighed } from './weigh-chord.js';

/**
 * Borders of the verdicts, in beats of unexplained tone per two beats of music (the unit of `lattice.ts`). A reading that is dearer
 * than the best by less than `near` explains the notes as well as any listener could ask; from `far` on, an accented tone of a beat
 * or the defining tone of another chord speaks against it.
 */
export const verdictBorders = { near: 0.6, far: 1.35 } as const;

/** Price of foreign tones (in the unit of `lattice.ts`) below which only what is missing speaks against a chord. */
export const fewForeign = 0.3;

/** A chord that is asked about, with all that its verdict is worded from. */
export interface AskedChord extends Weighed {
  readonly analysis: Analysis;
  readonly key: Key;
  readonly name: string;
  readonly bass: BassAnswer;
  readonly fuller: FullerChord | undefined;
  readonly witnesses: readonly Witness[];
  /** Foreign tones that their voices explain, with the kind each is. */
  readonly setAside: readonly string[];
  /** Foreign tones that nothing explains. */
  readonly against: readonly string[];
}

/** What a question about a chord comes to. */
export interface Answer {
  readonly outcome: Outcome;
  /** As in a `Judgement`. */
  readonly reason: string;
  /** The bass that refuses the chord, where it is what does. */
  readonly refusedBy?: Tone;
}

/** Names joined as English joins them: `A, B and C`. */
export const list = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1] ?? ''}`;

/** A member by its part and name: `the third E`. */
export const member = ({ question }: AskedChord, part: number): string =>
  `the ${partName(part)} ${printPitchClass(question.tones[part] as PitchClass)}`;

/** The members that do not sound, or those of them that are given, as the subject of a sentence. */
export const lacking = (asked: AskedChord, parts = asked.missing): string =>
  list(parts.map(part => member(asked, part)));

/** The members that do not sound, or those of them that are given, and that they don't. */
export const isLacking = (asked: AskedChord, parts = asked.missing): string =>
  `${lacking(asked, parts)} ${unheard(asked.question, parts.length > 1)}`;

/** What sounds beside the chord by its nature, as the end of a sentence; empty where nothing does. */
export const besideIt = ({ setAside }: AskedChord): string =>
  setAside.length === 0 ? '' : `; set aside: ${list(setAside)}`;

/** Gathers what the verdict on a chord is worded from. */
export function askChord(analysis: Analysis, weighed: Weighed): AskedChord {
  const key = weighed.question.key ?? weighed.segments[0]?.key ?? makeKey(weighed.chord.root, 'major');
  const { all, setAside, against } = witnessesOf(analysis, weighed, key);
  return {
    ...weighed,
    analysis,
    key,
    name: printChord(weighed.chord),
    bass: askBass(analysis, weighed),
    fuller: fullerChord(analysis, weighed),
    witnesses: all,
    setAside,
    against,
  };
}
