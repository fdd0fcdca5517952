import { conjunction } from './conjunction.js';
import type { Claim, Finding, Judged, Predicate, Subject } from './claim.js';
import type { ClaimContext, Verdict } from './model.js';
import { negation } from './negation.js';
import { sayVerdict } from './say-verdict.js';

const sentence = <S>(subject: Subject<S>, predicate: Predicate<S>): string =>
  `${subject.print()} ${predicate.print({ plural: subject.plural, negated: false })}`;

function findingOf<S>(
  subject: Subject<S>,
  predicate: Predicate<S>,
  context: ClaimContext,
): Finding<S> | undefined {
  const resolution = subject.resolve(context);
  return resolution.kind === 'found' ? predicate.check(resolution.subject, context) : undefined;
}

const holds = <S>(subject: Subject<S>, predicate: Predicate<S>, context: ClaimContext): boolean =>
  findingOf(subject, predicate, context)?.verdict === 'holds';

/**
 * The nearest true statement: what is true of the subject instead, and the neighbouring subject of which the claim is true.
 * Only what holds when it is checked itself is proposed.
 */
function nearestTrue<S>(
  subject: Subject<S>,
  predicate: Predicate<S>,
  finding: Finding<S>,
  context: ClaimContext,
): string | undefined {
  const other = finding.instead?.().find(instead => holds(subject, instead, context));
  const rather =
    other === undefined
      ? finding.rather?.().find(claim => claim.check({ ...context, probing: true }).verdict === 'holds')
      : undefined;
  const elsewhere =
    finding.verdict === 'fails' && !finding.local
      ? subject.neighbours(context).find(neighbour => holds(neighbour, predicate, context))
      : undefined;
  const parts = [
    ...(other === undefined ? [] : [sentence(subject, other)]),
    ...(rather === undefined ? [] : [rather.print()]),
    ...(elsewhere === undefined ? [] : [sentence(elsewhere, predicate)]),
  ];
  if (parts.length > 0) return [...new Set(parts)].join(' and ');
  if (finding.verdict !== 'fails') return undefined;
  // Where no probe finds anything, what is left to say is that it is not so.
  const denied = negation(predicate);
  return holds(subject, denied, context) ? sentence(subject, denied) : undefined;
}

const withNearest = ({ verdict, code, reason, evidence }: Judged, nearest: string | undefined): Verdict => ({
  verdict,
  code,
  reason,
  evidence,
  ...(nearest === undefined ? {} : { nearest }),
});

/** A number that several endings share: true where it is true of all of them. */
function checkEndings<S>(
  subjects: readonly Subject<S>[],
  predicate: Predicate<S>,
  context: ClaimContext,
): Verdict {
  const verdicts = subjects.map(subject => statement(subject, predicate).check(context));
  const [first] = verdicts;
  const holding = subjects.filter((_, at) => verdicts[at]?.verdict === 'holds');
  const [only] = holding;
  if (first !== undefined && (only === undefined || holding.length === subjects.length))
    return { ...first, evidence: verdicts.flatMap(verdict => verdict.evidence) };
  return {
    verdict: 'arguable',
    code: 'C0007',
    reason: `the endings differ: ${subjects
      .map((subject, at) => `${sayVerdict[verdicts[at]?.verdict ?? 'undecided']} of ${subject.print()}`)
      .join(', ')}; name the one that is meant`,
    evidence: verdicts.flatMap(verdict => verdict.evidence),
    ...(only === undefined ? {} : { nearest: sentence(only, predicate) }),
  };
}

/** The plainest claim: a subject and what is said of it. */
export const statement = <S>(subject: Subject<S>, predicate: Predicate<S>): Claim => ({
  content: { subject: subject.content, says: predicate.family, what: predicate.content },
  print: () => sentence(subject, predicate),
  denied: () => statement(subject, negation(predicate)),
  check: context => {
    const resolution = subject.resolve(context);
    switch (resolution.kind) {
      case 'none':
        return resolution.finding;
      case 'endings':
        return checkEndings(resolution.subjects, predicate, context);
      case 'found': {
        const finding = predicate.check(resolution.subject, context);
        if (finding.verdict === 'holds' || context.probing === true) return withNearest(finding, undefined);
        return withNearest(finding, nearestTrue(subject, predicate, finding, context));
      }
    }
  },
});

/** Several subjects, several predicates: every predicate is said of every subject. */
export const statements = <S>(subjects: readonly Subject<S>[], predicates: readonly Predicate<S>[]): Claim =>
  conjunction(subjects.flatMap(subject => predicates.map(predicate => statement(subject, predicate))));
