import type { Finding, Predicate } from './claim.js';
import type { Evidence, EvidenceRole, VerdictWord } from './model.js';

const opposite: Readonly<Record<VerdictWord, VerdictWord>> = {
  holds: 'fails',
  fails: 'holds',
  arguable: 'arguable',
  undecided: 'undecided',
};
const oppositeRole: Readonly<Record<EvidenceRole, EvidenceRole>> = {
  supports: 'contradicts',
  contradicts: 'supports',
  'set aside': 'set aside',
  missing: 'missing',
};

const turned = (evidence: Evidence): Evidence => ({ ...evidence, role: oppositeRole[evidence.role] });

/** The denial of a predicate: it holds where the predicate fails. What makes no sense affirmed makes none denied. */
export const negation = <S>(of: Predicate<S>): Predicate<S> => of.denies ?? denial(of);

const denial = <S>(of: Predicate<S>): Predicate<S> => ({
  family: of.family,
  denies: of,
  content: { not: of.content },
  print: form => of.print({ ...form, negated: !form.negated }),
  check: (subject, context): Finding<S> => {
    const finding = of.check(subject, context);
    if (finding.pointless) return finding;
    return {
      verdict: opposite[finding.verdict],
      code: finding.code,
      reason: finding.reason,
      evidence: finding.evidence.map(turned),
      instead: () => [of],
      local: true,
    };
  },
});
