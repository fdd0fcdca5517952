import { placeOf } from '../diagnostics/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import { isUnjudged } from '../lesson/index.js';
import { counted } from '../output/index.js';
import type { LessonReport } from '../output/index.js';
import { complain, runFinding } from './report.js';
import type { Terminal } from './terminal.js';

/** Claims that a warning names; all of them stand in the report above it. */
const mostNamed = 8;

/** What `--strict` says where a lesson is not built. */
export const refusedStrictly = (file: string): Diagnostic =>
  runFinding(
    'R0019',
    `not every claim of \`${file}\` holds, so nothing was built`,
    'mend the claims, set them aside with a reason (`accept:`), or build without `--strict`',
  );

/** Warns that the page of a lesson is marked as a draft, and says which of its claims fail. */
export function warnOfDraft({ file, claims }: LessonReport, terminal: Terminal): void {
  const failing = claims.filter(
    ({ verdict, accepted }) =>
      verdict.verdict === 'fails' && accepted === undefined && !isUnjudged(verdict.code),
  );
  if (failing.length === 0) return;
  const named = failing
    .slice(0, mostNamed)
    .map(({ entry: { span, text } }) => `line ${placeOf(span.source, span.start).line}: ${text}`);
  const rest = failing.length - named.length;
  complain(terminal, {
    code: 'R0018',
    severity: 'warning',
    message: `the page of \`${file}\` is marked as a draft: ${counted(failing.length, 'claim')} ${failing.length === 1 ? 'fails' : 'fail'}`,
    notes: [...named, ...(rest > 0 ? [`and ${rest} more`] : [])],
    help: 'mend them, or set them aside with a reason (`accept:`); `--strict` builds nothing while a claim does not hold',
  });
}
