import { basename, extname } from 'node:path';
import { checkFormats, counted, passes, walkthroughFiles, writeWhole } from '../output/index.js';
import { embeddedVoice } from '../sound/index.js';
import { checkLessonFile } from './check-lesson-file.js';
import type { Run } from './commands.js';
import { systemWords } from './read-source.js';
import { complain, runFinding } from './report.js';
import { scoreLibrary } from './score-library.js';

/** `barwise build LESSON --out DIR` */
export const runBuild: Run = async ({ operands: [file = ''], values, switches }, terminal) => {
  const folder = values['out'];
  if (folder === undefined) {
    complain(
      terminal,
      runFinding('R0014', '`build` needs `--out DIR`', 'name the folder to write into: `--out walkthrough`'),
    );
    return 2;
  }
  const { report, opened, lesson, analysis, versions } = await checkLessonFile(
    file,
    scoreLibrary(switches.has('allow-outside')),
  );
  const lessons = [report];
  const show = (): void => {
    terminal.write(checkFormats.text({ lessons }, { ...terminal.layout, all: false }));
  };
  const hasErrors = report.diagnostics.some(({ severity }) => severity === 'error');
  if (lesson === undefined || analysis === undefined || hasErrors) {
    show();
    complain(
      terminal,
      runFinding('R0013', `\`${file}\` has errors, so nothing was built`, 'mend them and build again'),
    );
    return opened ? 1 : 2;
  }

  const { value: files, diagnostics } = await walkthroughFiles({
    name: basename(file, extname(file)),
    lesson,
    analysis,
    versions,
    claims: report.claims,
    voice: embeddedVoice(),
    onProgress: terminal.progress,
  });
  const built = { ...report, diagnostics: [...report.diagnostics, ...diagnostics] };
  terminal.write(checkFormats.text({ lessons: [built] }, { ...terminal.layout, all: false }));
  try {
    const paths = await writeWhole(folder, files);
    const sizes = files.map(({ bytes }) => bytes.length);
    terminal.write(`\n${counted(paths.length, 'file')} written:\n`);
    paths.forEach((path, index) => {
      terminal.write(`  ${path}  ${((sizes[index] ?? 0) / 1000).toFixed(0)} kB\n`);
    });
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    complain(
      terminal,
      runFinding(
        'R0006',
        `\`${folder}\` cannot be written: ${systemWords(code)}`,
        'nothing was changed there; choose another folder with `--out`',
      ),
    );
    return 2;
  }
  return passes({ lessons: [built] }, false) ? 0 : 1;
};
