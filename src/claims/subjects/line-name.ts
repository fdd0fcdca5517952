import {
  choice,
  map,
  optional,
  quiet,
  rule,
  sequence,
  shapes,
  token,
  word,
  wordsFor,
} from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { instrument, printInstrument } from '../terms/instrument.js';
import type { Instrument } from '../terms/instrument.js';

const { character, inOrder, maybe, oneOf, oneOrMore } = shapes;

/** A line of the texture as an author names it. */
export type LineName =
  | { readonly kind: 'part'; readonly part: 'soprano' | 'alto' | 'tenor' | 'bass' }
  /** The highest and the lowest that sounds. */
  | { readonly kind: 'edge'; readonly edge: 'top' | 'bottom' }
  | { readonly kind: 'hand'; readonly hand: 'right' | 'left' }
  | { readonly kind: 'voice'; readonly name: string }
  /** As a voice of the score is called. */
  | ({ readonly kind: 'instrument' } & Instrument);

const quotedName = token({
  name: 'QuotedName',
  label: 'the name of a voice in quotes',
  shape: inOrder(oneOf('"', '“'), oneOrMore(character('^"“”')), oneOf('"', '”')),
  value: matched => matched.slice(1, -1),
});
const plainName = token({
  name: 'VoiceName',
  label: 'the name of a voice such as `voice 2` or `voice "Violin I"`',
  shape: inOrder(character('A-Za-z0-9'), maybe(oneOrMore(character('A-Za-z0-9_&.')))),
  value: matched => matched,
});

/** The noun of a line without its article: `melody`, `bass`. */
export const lineNoun: Parser<LineName> = wordsFor<LineName>([
  [{ kind: 'part', part: 'soprano' }, 'soprano'],
  [{ kind: 'part', part: 'alto' }, 'alto'],
  [{ kind: 'part', part: 'tenor' }, 'tenor'],
  [{ kind: 'part', part: 'bass' }, 'bass', 'bass line'],
  [
    { kind: 'edge', edge: 'top' },
    'top line',
    'top voice',
    'upper line',
    'upper voice',
    'melody',
    'tune',
    'highest voice',
  ],
  [
    { kind: 'edge', edge: 'bottom' },
    'bottom line',
    'bottom voice',
    'lower line',
    'lower voice',
    'lowest voice',
  ],
  [{ kind: 'hand', hand: 'right' }, 'right hand'],
  [{ kind: 'hand', hand: 'left' }, 'left hand'],
]);

/** `the soprano`, `the bass`, `the top line`, `the left hand`, `voice 2`, `voice "Violin I"`, `the cello`, `Violin I`. */
export const lineName: Parser<LineName> = rule(
  'Line',
  () =>
    choice(
      // `the bass note of bar 3`.
      map(
        sequence(quiet(optional(word('the'))), lineNoun, quiet(optional(word('note')))),
        ([, line]) => line,
      ),
      // Of a song.
      map(word('the voice', 'the vocal line', 'the vocal part', 'the singer'), (): LineName => ({
        kind: 'voice',
        name: 'voice',
      })),
      map(
        sequence(optional(word('the')), word('voice'), choice(quotedName, plainName)),
        ([, , name]): LineName => ({ kind: 'voice', name }),
      ),
      map(sequence(quiet(optional(word('the'))), instrument), ([, of]): LineName => ({
        kind: 'instrument',
        ...of,
      })),
    ),
  'a line such as `the soprano`, `the bass` or `voice 2`',
);

export function printLine(line: LineName): string {
  switch (line.kind) {
    case 'part':
      return `the ${line.part}`;
    case 'edge':
      return `the ${line.edge} line`;
    case 'hand':
      return `the ${line.hand} hand`;
    case 'voice':
      if (line.name === 'voice') return 'the voice';
      return /^[A-Za-z0-9][A-Za-z0-9_&.]*$/u.test(line.name) ? `voice ${line.name}` : `voice "${line.name}"`;
    case 'instrument':
      return `the ${printInstrument(line)}`;
  }
}
