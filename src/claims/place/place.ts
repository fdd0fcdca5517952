import type { Fraction } from '../../score/index.js';
import type { Section } from './section.js';

/** A moment as it is named: a bar label (`5`, `8a`) and a beat, 1-based. */
export interface PlaceName {
  readonly bar: string;
  /** Absent: the bar line at the start of the bar. */
  readonly beat?: Fraction;
}

/** A place of the piece as an author names it. */
export type Place =
  | { readonly kind: 'bars'; readonly first: string; readonly last: string }
  /** One beat where both are equal; the last one counts in. */
  | { readonly kind: 'beats'; readonly bar: string; readonly first: Fraction; readonly last: Fraction }
  /** End exclusive. */
  | { readonly kind: 'stretch'; readonly from: PlaceName; readonly until: PlaceName }
  | { readonly kind: 'first bars' | 'last bars'; readonly count: number }
  /** All that lies on one side of a bar, the bar itself with it or not. */
  | { readonly kind: 'side'; readonly side: Side; readonly bar: string }
  | { readonly kind: 'portion'; readonly portion: Portion; readonly bar: string }
  | { readonly kind: 'pickup' }
  | { readonly kind: 'section'; readonly section: Section }
  | { readonly kind: 'piece' };

export type Side = 'before' | 'up to' | 'from' | 'after';
/** A part of a bar that is found where the metre is known. */
export type Portion = 'last beat' | 'last 2 beats' | 'last 3 beats' | 'first half' | 'second half';

/** Whether a sentence about the place has its verb in the plural. */
export function isPlural(place: Place): boolean {
  switch (place.kind) {
    case 'bars':
      return place.first !== place.last;
    case 'beats':
      return place.first.n !== place.last.n || place.first.d !== place.last.d;
    case 'first bars':
    case 'last bars':
      return place.count !== 1;
    case 'side':
      return true;
    case 'portion':
      return place.portion.endsWith('beats');
    case 'stretch':
    case 'pickup':
    case 'section':
    case 'piece':
      return false;
  }
}
