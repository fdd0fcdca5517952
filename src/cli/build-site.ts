import { basename, extname } from 'node:path';
import { inReadingOrder } from '../diagnostics/index.js';
import {
  buildSite,
  checkFormats,
  checkWritable,
  passes,
  walkthroughFiles,
  writeWhole,
} from '../output/index.js';
import type { LessonReport, Platform, WalkthroughInput } from '../output/index.js';
import { scoreLibrary } from '../workshop/index.js';
import { cannotWrite, rememberTakes, systemRefusal } from './build.js';
import { checkLessonFile } from './check-lesson-file.js';
import type { Run } from './commands.js';
import { listWritten } from './list-written.js';
import { complain, runFinding } from './report.js';
import { refusedStrictly, warnOfDraft } from './failing-claims.js';
import { readSpeaking } from './speaking.js';

/** Words of `--package`. */
const platforms: Readonly<Record<string, Platform>> = { 'scorm-1.2': 'SCORM 1.2', cmi5: 'cmi5' };

const nameOf = (file: string): string => basename(file, extname(file));

/** `barwise build --site DIR LESSON...`: a course of several lessons. Nothing is written where one of them has errors. */
export const runBuildSite: Run = async ({ operands, values, switches }, terminal) => {
  const folder = values['site'] ?? '';
  const words = (values['package'] ?? '')
    .split(',')
    .map(word => word.trim())
    .filter(word => word !== '');
  const unknown = words.find(word => platforms[word] === undefined);
  if (unknown !== undefined) {
    const known = Object.keys(platforms).join(', ');
    complain(terminal, runFinding('R0008', `\`--package\` knows no \`${unknown}\``, `words: ${known}`));
    return 2;
  }
  const names = operands.map(nameOf);
  const twice = names.find((name, index) => name === 'index' || names.indexOf(name) !== index);
  if (twice !== undefined) {
    complain(
      terminal,
      runFinding(
        'R0008',
        `two pages of the course would be called \`${twice}.html\``,
        'rename one of the lessons',
      ),
    );
    return 2;
  }
  const closed = await systemRefusal(() => checkWritable(folder));
  if (closed !== undefined) return cannotWrite(terminal, folder, closed, '--site');

  const reports: LessonReport[] = [];
  const pages: WalkthroughInput[] = [];
  let notOpened = false;
  const refused: string[] = [];
  const library = scoreLibrary(switches.has('allow-outside'));
  for (const [index, file] of operands.entries()) {
    const { report, opened, lesson, analysis, versions } = await checkLessonFile(file, library);
    notOpened ||= !opened;
    const speaking = await readSpeaking(values, file);
    if ('code' in speaking) {
      complain(terminal, speaking);
      return 2;
    }
    const hasErrors = report.diagnostics.some(({ severity }) => severity === 'error');
    if (lesson === undefined || analysis === undefined || hasErrors) {
      reports.push(report);
      continue;
    }
    if (switches.has('strict') && !passes({ lessons: [report] }, true)) {
      reports.push(report);
      refused.push(file);
      continue;
    }
    const { value, diagnostics } = await walkthroughFiles({
      name: names[index] ?? nameOf(file),
      lesson,
      analysis,
      versions,
      claims: report.claims,
      speaking,
      onProgress: doing => {
        terminal.progress(`${nameOf(file)}: ${doing}`);
      },
    });
    await rememberTakes(speaking, terminal);
    pages.push(value.page);
    reports.push({ ...report, diagnostics: inReadingOrder([...report.diagnostics, ...diagnostics], file) });
  }
  terminal.write(checkFormats.text({ lessons: reports }, { ...terminal.layout, all: false }));
  for (const file of refused) complain(terminal, refusedStrictly(file));
  if (refused.length > 0) return notOpened ? 2 : 1;
  const [first, ...rest] = pages;
  if (first === undefined || pages.length < operands.length) {
    complain(
      terminal,
      runFinding('R0013', 'a lesson has errors, so nothing was built', 'mend it and build again'),
    );
    return notOpened ? 2 : 1;
  }
  const files = buildSite({
    title: values['title'] ?? 'Lessons',
    lessons: [first, ...rest],
    platforms: words.flatMap(word => platforms[word] ?? []),
  });
  let paths: readonly string[] = [];
  const failed = await systemRefusal(async () => {
    paths = await writeWhole(folder, files);
  });
  if (failed !== undefined) return cannotWrite(terminal, folder, failed, '--site');
  await listWritten(terminal, paths);
  for (const report of reports) warnOfDraft(report, terminal);
  return passes({ lessons: reports }, false) ? 0 : 1;
};
