import { choice, list, map, rule, sequence, word } from '../grammar/index.js';
import type { Place } from '../place/place.js';
import { wholePiece } from '../place/whole-piece.js';
import { spanSubject } from '../subjects/span.js';
import { and } from './links.js';

export const thereIs = rule('ThereIs', () =>
  choice(
    map(word('there is', "there's", 'there are'), () => false),
    map(word('there is not', "there isn't", 'there are not', "there aren't"), () => true),
  ),
);

export const placeSubjects = rule('PlaceSubjects', () => list(spanSubject, and));

export const barNamed = (label: string): Place => ({ kind: 'bars', first: label, last: label });

/** The music as such, where its place follows: `the piece modulates to D major in bars 9-16`. */
export const wholeMusic = choice(
  map(sequence(word('the'), wholePiece), () => undefined),
  map(word('we', 'you', 'one', 'it'), () => undefined),
);
