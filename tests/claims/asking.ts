import { defaultConventions, readClaim } from '../../src/claims/index.js';
import type { ClaimContext, Conventions, Verdict } from '../../src/claims/index.js';
import { sourceText } from '../../src/diagnostics/index.js';
import { readKey } from '../../src/harmony/index.js';
import type { Analysis } from '../../src/harmony/index.js';
import { fraction, readScore } from '../../src/score/index.js';

/** The score alone, for claims that need no harmony. */
export function scoreOnly(abc: string): Analysis {
  const { value: score, diagnostics } = readScore(sourceText('test.abc', abc));
  const errors = diagnostics.filter(each => each.severity === 'error');
  if (score === undefined || errors.length > 0)
    throw new Error(`the score of the test is wrong: ${errors.map(each => each.message).join('; ')}`);
  return { score, opens: 0, segments: [], keyAreas: [], cadences: [], pedals: [], sequences: [] };
}

export interface Setting {
  readonly home?: string;
  readonly conventions?: Partial<Conventions>;
  /** Beats counted in quarter notes. */
  readonly quarters?: boolean;
}

export function contextOf(
  analysis: Analysis,
  { home = 'C major', conventions = {}, quarters = false }: Setting = {},
): ClaimContext {
  const key = readKey(home);
  if (key === undefined) throw new Error(`no key: ${home}`);
  return {
    analysis,
    home: key,
    conventions: { ...defaultConventions, ...conventions },
    ...(quarters ? { beatUnit: fraction(1, 4) } : {}),
  };
}

/** Reads and checks a claim; a claim that cannot be read fails the test with its message. */
export function ask(claim: string, context: ClaimContext): Verdict {
  const read = readClaim(claim);
  if ('problem' in read)
    throw new Error(`${claim}: ${read.problem.message} at ${String(read.problem.at)}; ${read.problem.help}`);
  return read.claim.check(context);
}
