import { checkFormats, passes } from '../output/index.js';
import type { LessonReport } from '../output/index.js';
import { scoreLibrary } from '../workshop/index.js';
import { checkLessonFile } from './check-lesson-file.js';
import type { Run } from './commands.js';
import { findFiles } from './find-files.js';
import { chosenFormat } from './format-option.js';
import { version } from './help.js';
import { complain } from './report.js';

/** `barwise check LESSON...` */
export const runCheck: Run = async ({ operands, values, switches }, terminal) => {
  const render = chosenFormat(checkFormats, values['format'], terminal);
  if (render === undefined) return 2;
  const found = await findFiles(operands, ['.yaml', '.yml'], 'lesson');
  for (const diagnostic of found.diagnostics) complain(terminal, diagnostic);

  const library = scoreLibrary(switches.has('allow-outside'));
  const lessons: LessonReport[] = [];
  let allOpened = found.diagnostics.length === 0;
  for (const file of found.files) {
    terminal.progress(`checking ${lessons.length + 1} of ${found.files.length}: ${file}`);
    const checked = await checkLessonFile(file, library);
    lessons.push(checked.report);
    allOpened &&= checked.opened;
  }
  terminal.write(
    await render(
      { lessons },
      {
        ...terminal.layout,
        all: switches.has('all'),
        unchecked: switches.has('unchecked'),
        strict: switches.has('strict'),
        version: version(),
      },
    ),
  );
  if (!allOpened) return 2;
  return passes({ lessons }, switches.has('strict')) ? 0 : 1;
};
