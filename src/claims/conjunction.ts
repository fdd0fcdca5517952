import type { Claim } from './claim.js';
import type { Verdict, VerdictWord } from './model.js';

/** From the strongest doubt to none: a claim of several parts is as sure as its weakest. */
const weakestFirst: readonly VerdictWord[] = ['fails', 'undecided', 'arguable', 'holds'];

function joined(parts: readonly Claim[], verdicts: readonly Verdict[]): Verdict {
  const weakest = weakestFirst
    .map(word => verdicts.find(each => each.verdict === word))
    .find(each => each !== undefined);
  if (weakest === undefined) throw new Error('a conjunction has at least one part');
  const at = verdicts.indexOf(weakest);
  const nearest = parts.map((part, index) => {
    const verdict = verdicts[index];
    return verdict === undefined || verdict.verdict === 'holds' ? part.print() : verdict.nearest;
  });
  const { verdict, code, reason } = weakest;
  const allKnown = nearest.every(each => each !== undefined);
  return {
    verdict,
    code,
    reason: verdict === 'holds' ? reason : `\`${parts[at]?.print() ?? ''}\`: ${reason}`,
    evidence: verdicts.flatMap(each => each.evidence),
    ...(verdict !== 'holds' && allKnown ? { nearest: [...new Set(nearest)].join(' and ') } : {}),
  };
}

/** All of them are claimed. One alone is that claim. */
export function conjunction(claims: readonly Claim[]): Claim {
  const parts = claims.flatMap(claim => claim.parts ?? [claim]);
  const [only] = parts;
  if (parts.length === 1 && only !== undefined) return only;
  return {
    parts,
    content: { all: parts.map(part => part.content) },
    print: () => parts.map(part => part.print()).join(' and '),
    check: context =>
      joined(
        parts,
        parts.map(part => part.check(context)),
      ),
  };
}
