import { readFileSync } from 'node:fs';
import type { Score } from '../../src/score/index.js';
import { closes, progressions } from '../fixtures/harmony/cadence-pieces.js';
import { modulation, tonicization } from '../fixtures/harmony/key-pieces.js';
import { nonChordTones } from '../fixtures/harmony/non-chord-tone-pieces.js';
import { abcOf } from '../fixtures/harmony/pieces.js';
import { scoreOf } from './pieces.js';
import type { Shift } from './transformations.js';

const sample = (name: string): Score =>
  scoreOf(readFileSync(new URL(`../../sample-lessons/${name}.abc`, import.meta.url), 'utf8'));

export const samples = ['mill-road', 'long-table'].map((name): readonly [string, Score] => [
  name,
  sample(name),
]);
export const short = [
  ...[...progressions, ...closes, ...nonChordTones].map(({ title, piece }) => ({ title, piece })),
  { title: 'a tonicization', piece: tonicization },
  { title: 'a modulation', piece: modulation },
].map(({ title, piece }): readonly [string, Score] => [title, scoreOf(abcOf(piece))]);

/** Every piece of which the laws are asked. */
export const pieces = [...samples, ...short];
if (pieces.length !== 36) throw new Error(`${String(pieces.length)} pieces instead of 36`);

/** Both samples stay within seven accidentals, whatever key they pass through. */
export const shifts: readonly Shift[] = [
  { name: 'a minor second', fifths: -5, semitones: 1 },
  { name: 'a major second', fifths: 2, semitones: 2 },
  { name: 'a minor third', fifths: -3, semitones: 3 },
  { name: 'a major third', fifths: 4, semitones: 4 },
  { name: 'a fourth', fifths: -1, semitones: 5 },
  { name: 'a fifth down', fifths: -1, semitones: -7 },
];
