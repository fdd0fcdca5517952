import { changesSince, checkFormats, checkTextParts, earlierLesson, passes } from '../output/index.js';
import type { CheckOptions, CheckReport, EarlierReport, LessonReport } from '../output/index.js';
import { earlierReport } from './against.js';
import { checkMany } from './check-many.js';
import type { CheckedFile } from './check-many.js';
import type { Arguments, Run } from './commands.js';
import type { ExitCode } from './exit-code.js';
import { findFiles } from './find-files.js';
import { chosenFormat } from './format-option.js';
import { version } from './help.js';
import { complain } from './report.js';
import type { Terminal } from './terminal.js';
import { watchLessons } from './watch-lessons.js';
import type { Shown } from './watch-lessons.js';

/** `barwise check LESSON...` */
export const runCheck: Run = async (typed, terminal) => {
  const { operands, values, switches } = typed;
  const render = chosenFormat(checkFormats, values['format'], terminal);
  if (render === undefined) return 2;
  const find = (): ReturnType<typeof findFiles> => findFiles(operands, ['.yaml', '.yml'], 'lesson');
  const found = await find();
  for (const diagnostic of found.diagnostics) complain(terminal, diagnostic);

  const allowOutside = switches.has('allow-outside');
  const earlier = await earlierState(typed, found.files, terminal);
  if (earlier === 'refused') return 2;
  const show = async (checked: readonly CheckedFile[]): Promise<string> => {
    const lessons = checked.map(({ report }) => report);
    return render(withChanges(lessons, earlier), showOptions(typed, terminal));
  };
  const watched = async (checked: readonly CheckedFile[], before: readonly CheckedFile[]): Promise<Shown> => {
    if (render !== checkFormats.text) return { body: await show(checked), foot: '' };
    const lessons = checked.map(({ report }) => report);
    // Without a state of its own to compare with, what is on the screen already is what a change is a change of.
    const last = {
      name: 'the last look',
      report: { lessons: before.map(({ report }) => earlierLesson(report)) },
    };
    const compared = withChanges(lessons, earlier ?? last);
    const isNews = earlier !== undefined || (compared.changes?.changed.length ?? 0) > 0;
    const parts = checkTextParts(isNews ? compared : { lessons }, showOptions(typed, terminal));
    return {
      body: parts.body.map(block => `${block}\n`).join(''),
      foot: parts.foot.join('\n'),
    };
  };
  if (switches.has('watch')) return watchLessons({ find, show: watched, allowOutside, terminal });

  const checked = await checkMany(found.files, {
    allowOutside,
    withSubject: values['format'] === 'html',
    onProgress: done => {
      terminal.progress(`checked ${done} of ${found.files.length}`);
    },
  });
  terminal.write(await show(checked));
  return exitCode(checked, found.diagnostics.length === 0, switches.has('strict'));
};

interface Earlier {
  readonly name: string;
  readonly report: EarlierReport;
}

/** What `--against` names; complains where there is nothing of that name. */
async function earlierState(
  { values, switches }: Arguments,
  files: readonly string[],
  terminal: Terminal,
): Promise<Earlier | 'refused' | undefined> {
  const name = values['against'];
  if (name === undefined) return undefined;
  const report = await earlierReport(name, files, switches.has('allow-outside'));
  if (!('code' in report)) return { name, report };
  complain(terminal, report);
  return 'refused';
}

const withChanges = (lessons: readonly LessonReport[], earlier: Earlier | undefined): CheckReport =>
  earlier === undefined
    ? { lessons }
    : { lessons, changes: changesSince(earlier.name, earlier.report, lessons) };

const showOptions = ({ switches }: Arguments, { layout }: Terminal): CheckOptions => ({
  ...layout,
  all: switches.has('all'),
  unchecked: switches.has('unchecked'),
  strict: switches.has('strict'),
  version: version(),
});

function exitCode(checked: readonly CheckedFile[], allFound: boolean, strict: boolean): ExitCode {
  if (!allFound || checked.some(({ opened }) => !opened)) return 2;
  return passes({ lessons: checked.map(({ report }) => report) }, strict) ? 0 : 1;
}
