import { isUnread, parseRomanNumeral, readChordSymbol, readKey, realize } from '../../src/harmony/index.js';
import type { Chord, Key, RomanNumeral, SeventhConvention } from '../../src/harmony/index.js';
import { printPitchClass, readPitchClass } from '../../src/score/index.js';
import type { PitchClass } from '../../src/score/index.js';

/** Readers for the tables: what cannot be read is a fault of the table and fails the test with its name. */

function required<Value>(value: Value | undefined, text: string): Value {
  if (value === undefined) throw new Error(`the table holds something unreadable: ${text}`);
  return value;
}

export const keyNamed = (text: string): Key => required(readKey(text), text);

export const toneNamed = (text: string): PitchClass => required(readPitchClass(text), text);

export const tonesNamed = (text: string): readonly PitchClass[] => text.split(' ').map(toneNamed);

export const printTones = (tones: readonly PitchClass[]): string => tones.map(printPitchClass).join(' ');

export const symbolNamed = (text: string): Chord => required(readChordSymbol(text), text);

export function numeralNamed(text: string): RomanNumeral {
  const read = parseRomanNumeral(text);
  if (isUnread(read))
    throw new Error(`${text}: stopped at ${String(read.at)}, expected ${read.expected.join(', ')}`);
  return read;
}

export const chordNamed = (numeral: string, key: string, convention?: SeventhConvention): Chord =>
  realize(numeralNamed(numeral), keyNamed(key), convention);
