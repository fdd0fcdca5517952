import type { Claim, Predicate } from '../claim.js';
import type { Verdict } from '../model.js';
import { printBarList } from '../place/place-name.js';
import type { Span } from '../subjects/span.js';
import { evidenceAt, names, tally, unitsOf, whose } from './units.js';

/** `only bars 1, 2 and 7 have C#`: each of them, and no other bar of the piece. */
export const onlyBars = (labels: readonly string[], of: Predicate<Span>): Claim => {
  const print = (bars: readonly string[]): string =>
    `only ${printBarList(bars)} ${of.print({ plural: bars.length > 1, negated: false })}`;
  return {
    content: { onlyBars: labels, says: of.family, what: of.content },
    print: () => print(labels),
    check: (context): Verdict => {
      const counted = unitsOf('bar', { kind: 'piece' }, context);
      if ('problem' in counted) return counted.problem;
      const found = tally(counted.places, of, context);
      const labelAt = (at: number): string => {
        const place = found.places[at]?.place;
        return place?.kind === 'bars' ? place.first : '';
      };
      const missing = labels.find(label => !found.places.some((_, at) => labelAt(at) === label));
      if (missing !== undefined)
        return {
          verdict: 'fails',
          code: 'C0003',
          reason: `the score has no bar ${missing}`,
          evidence: [],
        };
      const yes = whose(found, 'holds');
      const maybe = whose(found, 'arguable', 'undecided');
      const isNamed = (at: number): boolean => labels.includes(labelAt(at));
      const wrong = [...whose(found, 'fails').filter(isNamed), ...yes.filter(at => !isNamed(at))];
      if (wrong.length === 0 && maybe.length === 0)
        return {
          verdict: 'holds',
          code: 'C1901',
          reason: `true of ${names(found, yes)} alone`,
          evidence: evidenceAt(found, yes),
        };
      if (wrong.length === 0)
        return {
          verdict: maybe.every(at => found.findings[at]?.verdict === 'undecided') ? 'undecided' : 'arguable',
          code: 'C1903',
          reason: `surely true of ${names(found, yes)}; it depends on ${names(found, maybe)}: ${found.findings[maybe[0] ?? 0]?.reason ?? ''}`,
          evidence: evidenceAt(found, maybe),
        };
      const rather = yes.map(labelAt);
      return {
        verdict: 'fails',
        code: 'C1902',
        reason: yes.length === 0 ? 'true of no bar' : `true of ${names(found, yes)}`,
        evidence: evidenceAt(found, wrong),
        ...(maybe.length > 0 || rather.length === 0 ? {} : { nearest: print(rather) }),
      };
    },
  };
};
