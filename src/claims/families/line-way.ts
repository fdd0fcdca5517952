import { choice, list, map, optional, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { noteName, printNoteName } from '../terms/note-name.js';
import type { NoteName } from '../terms/note-name.js';

/** The notes that a line goes from and to, as far as they are said. */
export interface Ends {
  readonly from?: NoteName;
  readonly to?: NoteName;
}
/** Where a line starts and ends, and what it touches between, as far as that is said. */
export interface Way extends Ends {
  readonly through?: readonly NoteName[];
}

export const upOrDown = wordsFor<boolean>([
  [true, 'up', 'upward', 'upwards'],
  [false, 'down', 'downward', 'downwards'],
]);
/** Verbs of a line that goes through several notes or degrees, and whether it goes up. */
export const risingAndFalling = [
  ['rises', 'rise', true],
  ['ascends', 'ascend', true],
  ['climbs', 'climb', true],
  ['falls', 'fall', false],
  ['descends', 'descend', false],
] as const;
/** `from E5 to B5`. */
export const fromTo: Parser<Ends> = map(
  sequence(word('from'), noteName, word('to'), noteName),
  ([, from, , to]) => ({ from, to }),
);
export const onTo = word('to', 'and on to', 'and then to', 'then to');
/** A way of two notes or more by its ends and what lies between. */
export function wayOf(first: NoteName, others: readonly NoteName[]): Way {
  const to = others.at(-1);
  return {
    from: first,
    ...(others.length > 1 ? { through: others.slice(0, -1) } : {}),
    ...(to === undefined ? {} : { to }),
  };
}
/** `from C# to D to E`. */
export const fromOn: Parser<Way> = map(
  sequence(word('from'), noteName, onTo, list(noteName, onTo)),
  ([, first, , others]) => wayOf(first, others),
);
/** From one note, to one note, or by way of others. */
export const someWay: Parser<Way> = choice<Way>(
  fromOn,
  map(optional(sequence(word('from'), noteName)), found => (found === undefined ? {} : { from: found[1] })),
  map(sequence(word('to'), noteName), ([, to]) => ({ to })),
);

/** ` from C to D to E`, with the space before it. */
export const sayWay = ({ from, through = [], to }: Way): string =>
  (from === undefined ? '' : ` from ${printNoteName(from)}`) +
  through.map(note => ` to ${printNoteName(note)}`).join('') +
  (to === undefined ? '' : ` to ${printNoteName(to)}`);
