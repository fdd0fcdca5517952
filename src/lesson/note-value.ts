import { fraction } from '../score/index.js';
import type { Fraction } from '../score/index.js';

/** Note values in whole notes, with their American and British names. */
const wholeNotes = {
  whole: [1, 1],
  semibreve: [1, 1],
  'dotted half': [3, 4],
  'dotted minim': [3, 4],
  half: [1, 2],
  minim: [1, 2],
  'dotted quarter': [3, 8],
  'dotted crotchet': [3, 8],
  quarter: [1, 4],
  crotchet: [1, 4],
  'dotted eighth': [3, 16],
  'dotted quaver': [3, 16],
  eighth: [1, 8],
  quaver: [1, 8],
  sixteenth: [1, 16],
  semiquaver: [1, 16],
} as const satisfies Readonly<Record<string, readonly [number, number]>>;

export type NoteValueName = keyof typeof wholeNotes;

export const noteValueNames = Object.keys(wholeNotes) as [NoteValueName, ...NoteValueName[]];

/** Length of a note value in whole notes. */
export function noteValue(name: NoteValueName): Fraction {
  const [n, d] = wholeNotes[name];
  return fraction(n, d);
}
