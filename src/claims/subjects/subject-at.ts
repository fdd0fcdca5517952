import type { Resolution, Subject } from '../claim.js';
import type { ClaimContext } from '../model.js';
import type { Place } from '../place/place.js';
import { span } from './span.js';
import type { Span } from './span.js';

interface SubjectAt<S> {
  readonly content: unknown;
  readonly plural?: true;
  readonly print: () => string;
  readonly place: Place;
  /** The same subject at another place: in an ending of the place, or in its neighbour. */
  readonly again: (place: Place) => Subject<S>;
  /** Looks for the subject where the place lies. */
  readonly find: (whole: Span, context: ClaimContext) => Resolution<S>;
  /** Set where the next place says nothing of this one: the highest note of the bar before is another note. */
  readonly fixed?: true;
}

/** What lies in a place: found where the place is, none where there is no such place, in each ending where a number has several. */
export const subjectAt = <S>({
  content,
  plural,
  print,
  place,
  again,
  find,
  fixed,
}: SubjectAt<S>): Subject<S> => {
  const where = span(place);
  return {
    content,
    plural: plural === true,
    print,
    resolve: context => {
      const found = where.resolve(context);
      switch (found.kind) {
        case 'none':
          return found;
        case 'endings':
          return { kind: 'endings', subjects: found.subjects.map(ending => again(ending.place)) };
        case 'found':
          return find(found.subject, context);
      }
    },
    neighbours: context => (fixed ? [] : where.neighbours(context).map(neighbour => again(neighbour.place))),
  };
};
