import { readFile, stat } from 'node:fs/promises';
import type { Diagnostic } from '../diagnostics/index.js';
import { readEarlierReport } from '../output/index.js';
import type { EarlierReport } from '../output/index.js';
import { earlierRevision } from './earlier-revision.js';
import { runFinding } from './report.js';

/**
 * What was found earlier, for `--against`: a JSON report that was written then, or the lessons of a git revision checked now.
 * @param files the lessons that are checked
 */
export async function earlierReport(
  name: string,
  files: readonly string[],
  allowOutside: boolean,
): Promise<EarlierReport | Diagnostic> {
  const status = await stat(name).catch(() => undefined);
  if (status?.isFile() === true) {
    const report = readEarlierReport(await readFile(name, 'utf8'));
    return (
      report ??
      runFinding(
        'R0016',
        `\`${name}\` is no report of verdicts`,
        'write one with `barwise check LESSON... --format json > report.json`',
      )
    );
  }
  const report = await earlierRevision(name, files, allowOutside);
  return (
    report ??
    runFinding(
      'R0016',
      `there is no report and no git revision \`${name}\``,
      'name a file that `--format json` wrote, or a revision of the repository of the lessons: `HEAD~1`, a tag, a branch',
    )
  );
}
