import { choice, map, optional, quiet, sequence, startReading, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';

/** An instrument of the score, with its number where there are several: `the first violin`. */
export interface Instrument {
  readonly instrument: string;
  readonly number?: number;
}

/** By the name that is printed, with the other names and the usual abbreviations (common practice of scores). */
const names = wordsFor<string>(
  (
    [
      ['violin', 'vln.', 'vln', 'vn.', 'vl.'],
      ['viola', 'vla.', 'vla', 'va.'],
      ['cello', 'violoncello', 'vc.', 'vc', 'vlc.'],
      ['double bass', 'contrabass', 'string bass', 'db.', 'cb.'],
      ['piccolo', 'picc.'],
      ['flute', 'fl.'],
      ['recorder'],
      ['oboe', 'ob.'],
      ['English horn', 'cor anglais'],
      ['clarinet', 'cl.'],
      ['bass clarinet'],
      ['bassoon', 'bn.', 'bsn.', 'fg.'],
      ['saxophone', 'sax.'],
      ['horn', 'French horn', 'hn.'],
      ['trumpet', 'tpt.'],
      ['cornet'],
      ['trombone', 'tbn.', 'trb.'],
      ['tuba'],
      ['guitar', 'gtr.'],
      ['harp'],
      ['piano', 'pianoforte', 'pno.', 'pf.'],
    ] as const
  ).map(([name, ...others]) => [name, name, ...others] as const),
);
const before = wordsFor<number>([
  [1, 'first', '1st'],
  [2, 'second', '2nd'],
  [3, 'third', '3rd'],
  [4, 'fourth', '4th'],
]);
const behind = wordsFor<number>([
  [1, 'I', '1'],
  [2, 'II', '2'],
  [3, 'III', '3'],
  [4, 'IV', '4'],
]);
const made = (instrument: string, number: number | undefined): Instrument =>
  number === undefined ? { instrument } : { instrument, number };

/** `first violin`, `Violin I`, `cello`, without its article. */
export const instrument: Parser<Instrument> = choice(
  map(sequence(optional(before), names), ([number, name]) => made(name, number)),
  quiet(map(sequence(names, behind), ([name, number]) => made(name, number))),
);

/** What instrument a voice of the score is, by its printed name; `undefined` where the name is none. */
export function instrumentCalled(name: string): Instrument | undefined {
  return instrument.read(startReading(name, false), 0).steps.find(({ end }) => end === name.trimEnd().length)
    ?.value;
}

const ordinals = ['first', 'second', 'third', 'fourth'];
export const printInstrument = ({ instrument: name, number }: Instrument): string =>
  number === undefined ? name : `${ordinals[number - 1] ?? ''} ${name}`;
