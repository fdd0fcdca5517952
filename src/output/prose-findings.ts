import { inReadingOrder } from '../diagnostics/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import type { OpinionWords, UncheckedWords } from '../lesson/index.js';
import type { LessonReport } from './check-report.js';

/** The findings of a lesson; with `unchecked`, words of the narration that no claim checks are among them as notes. */
export function shownFindings(
  { file, diagnostics, prose }: LessonReport,
  unchecked: boolean,
): readonly Diagnostic[] {
  if (!unchecked) return diagnostics;
  const reported = new Set(diagnostics.map(({ code, span }) => (code === 'L0504' ? span?.start : undefined)));
  const unreported = prose.unchecked.filter(({ span }) => !reported.has(span.start));
  const notes = [...unreported.map(withoutClaim), ...prose.opinions.map(opinion)];
  return inReadingOrder([...diagnostics, ...notes], file);
}

/** What is said of words of the narration that seem to make a claim. */
export const withoutClaimMessage = (words: string): string => `\`${words}\` has no claim behind it`;

/** What is said of words of opinion. */
export const opinionMessage = (words: string): string =>
  `\`${words}\` speaks of history, intention, feeling or taste, and no note can settle that`;

function withoutClaim({ words, span, claim, verdict }: UncheckedWords): Diagnostic {
  const says = verdict === undefined ? '' : `; ${verdict.verdict} ${verdict.code}: ${verdict.reason}`;
  return {
    code: 'L0505',
    severity: 'note',
    message: withoutClaimMessage(words),
    span,
    notes: [`it seems to say that ${claim}${says}`],
    help: 'to have it checked, write `[words]{claim}`',
  };
}

function opinion({ words, span }: OpinionWords): Diagnostic {
  return {
    code: 'L0506',
    severity: 'note',
    message: opinionMessage(words),
    span,
  };
}
