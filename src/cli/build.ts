import { basename, extname, join } from 'node:path';
import { inReadingOrder } from '../diagnostics/index.js';
import {
  checkFormats,
  checkWritable,
  clockTime,
  passes,
  walkthroughFiles,
  writeWhole,
} from '../output/index.js';
import { defaultLoudness, makeShelf, mixLesson, writeAudio } from '../sound/index.js';
import type { AudioFiles, Shelf } from '../sound/index.js';
import { checkLessonFile } from './check-lesson-file.js';
import type { CheckedLesson } from './check-lesson-file.js';
import type { Run } from './commands.js';
import type { ExitCode } from './exit-code.js';
import { listWritten } from './list-written.js';
import { complain, runFinding } from './report.js';
import { alsoWords, readAlso, scoreLibrary, systemWords } from '../workshop/index.js';
import type { Also } from '../workshop/index.js';
import { refusedStrictly, warnOfDraft } from './failing-claims.js';
import { readSpeaking } from './speaking.js';
import type { Speaking } from './speaking.js';
import type { Terminal } from './terminal.js';

/** `barwise build LESSON --out DIR`, or a course with `--site DIR`. */
export const runBuild: Run = async (command, terminal) => {
  const { operands, values, switches } = command;
  if (values['site'] !== undefined) return (await import('./build-site.js')).runBuildSite(command, terminal);
  const [file = ''] = operands;
  const folder = values['out'];
  if (folder === undefined || operands.length > 1) {
    complain(
      terminal,
      folder === undefined
        ? runFinding(
            'R0014',
            '`build` needs `--out DIR`',
            'name the folder to write into: `--out walkthrough`',
          )
        : runFinding(
            'R0009',
            '`build --out` makes one lesson',
            'for several write `build --site DIR LESSON...`',
          ),
    );
    return 2;
  }
  const also = readAlso(values['also'] ?? '');
  if ('unknown' in also) {
    complain(
      terminal,
      runFinding('R0008', `\`--also\` knows no \`${also.unknown}\``, `words: ${alsoWords.join(', ')}, all`),
    );
    return 2;
  }
  const loudness = Number(values['loudness'] ?? defaultLoudness);
  if (!(loudness >= -40 && loudness <= -5)) {
    complain(
      terminal,
      runFinding(
        'R0008',
        `\`--loudness ${values['loudness'] ?? ''}\` is no loudness`,
        'LUFS from -40 to -5: -16 for the web, -23 for broadcast',
      ),
    );
    return 2;
  }
  const speaking = await readSpeaking(values, file);
  if ('code' in speaking) {
    complain(terminal, speaking);
    return 2;
  }
  const { report, opened, lesson, analysis, versions } = await checkLessonFile(
    file,
    scoreLibrary(switches.has('allow-outside')),
  );
  const hasErrors = report.diagnostics.some(({ severity }) => severity === 'error');
  if (lesson === undefined || analysis === undefined || hasErrors) {
    terminal.write(checkFormats.text({ lessons: [report] }, { ...terminal.layout, all: false }));
    complain(
      terminal,
      runFinding('R0013', `\`${file}\` has errors, so nothing was built`, 'mend them and build again'),
    );
    return opened ? 1 : 2;
  }
  if (switches.has('strict') && !passes({ lessons: [report] }, true)) {
    terminal.write(checkFormats.text({ lessons: [report] }, { ...terminal.layout, all: false }));
    complain(terminal, refusedStrictly(file));
    return 1;
  }

  const refused = await systemRefusal(() => checkWritable(folder));
  if (refused !== undefined) return cannotWrite(terminal, folder, refused);

  const shelf = makeShelf();
  try {
    return await writeAll(
      { folder, file, also, loudness, speaking: { ...speaking, shelf } },
      { report, lesson, analysis, versions },
      terminal,
    );
  } finally {
    await shelf.clear();
  }
};

interface Asked {
  readonly folder: string;
  readonly file: string;
  readonly also: Also;
  readonly loudness: number;
  readonly speaking: Speaking & { readonly shelf: Shelf };
}

/** Makes the walkthrough of a lesson without errors and everything beside it. */
async function writeAll(
  { folder, file, also, loudness, speaking }: Asked,
  { report, lesson, analysis, versions }: Required<Omit<CheckedLesson, 'opened'>>,
  terminal: Terminal,
): Promise<ExitCode> {
  const name = basename(file, extname(file));
  const { value: walkthrough, diagnostics } = await walkthroughFiles({
    name,
    lesson,
    analysis,
    versions,
    claims: report.claims,
    speaking,
    companions: also.companions,
    onProgress: terminal.progress,
  });
  const built = { ...report, diagnostics: inReadingOrder([...report.diagnostics, ...diagnostics], file) };
  terminal.write(checkFormats.text({ lessons: [built] }, { ...terminal.layout, all: false }));

  const audio: AudioFiles = Object.fromEntries(
    also.sounds.map(kind => [kind, join(folder, `${name}.${kind}`)]),
  );
  let paths: readonly string[] = [];
  const failed = await systemRefusal(async () => {
    paths = await writeWhole(folder, walkthrough.files);
    if (also.sounds.length > 0) {
      const { instrumentation } = walkthrough;
      await writeAudio(
        mixLesson(walkthrough.timeline, walkthrough.speech, {
          loudness,
          instrumentation,
          cache: speaking.cache,
        }),
        audio,
        seconds => {
          terminal.progress(`mixing ${clockTime(seconds)} of ${clockTime(walkthrough.timeline.seconds)}`);
        },
        walkthrough.timeline.seconds,
      );
      paths = [...paths, ...Object.values(audio)];
    }
    await speaking.cache.forgetUnused();
  });
  if (failed !== undefined) return cannotWrite(terminal, folder, failed);
  await rememberTakes(speaking, terminal);
  await listWritten(terminal, paths);
  warnOfDraft(built, terminal);
  return passes({ lessons: [built] }, false) ? 0 : 1;
}

/** Writes down which words each take speaks; where that cannot be, the walkthrough is whole all the same. */
export async function rememberTakes({ takes }: Speaking, terminal: Terminal): Promise<void> {
  const failed = await systemRefusal(takes.remember);
  if (failed === undefined) return;
  const message = `\`takes/takes.json\` cannot be written beside the recordings: ${systemWords(failed)}`;
  const help = 'the walkthrough is complete; what each take was made for is not noted';
  complain(terminal, { ...runFinding('R0017', message, help), severity: 'warning' });
}

/** The code with which the system refuses to do something; any other error is a fault of the program. */
export async function systemRefusal(act: () => Promise<void>): Promise<string | undefined> {
  try {
    await act();
    return undefined;
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    // Codes of the library itself begin with ERR_ and speak of its caller.
    if (typeof code === 'string' && !code.startsWith('ERR_')) return code;
    throw error;
  }
}

/** Says why a folder cannot be written, and with which option another is chosen. */
export function cannotWrite(terminal: Terminal, folder: string, code: string, option = '--out'): ExitCode {
  const message = `\`${folder}\` cannot be written: ${systemWords(code)}`;
  complain(
    terminal,
    runFinding('R0006', message, `nothing was changed there; choose another folder with \`${option}\``),
  );
  return 2;
}
