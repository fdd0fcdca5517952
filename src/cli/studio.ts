import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { cacheFolder, serve, stateFolder, studioFiles, systemWords, workshop } from '../workshop/index.js';
import type { Served } from '../workshop/index.js';
import type { Run } from './commands.js';
import { electronProgram } from './electron-program.js';
import type { ExitCode } from './exit-code.js';
import { version } from './help.js';
import { complain, runFinding } from './report.js';
import type { Terminal } from './terminal.js';

/** `barwise studio [LESSON]` */
export const runStudio: Run = async ({ operands: [lesson], values, switches }, terminal) => {
  const refuse = (...finding: Parameters<typeof runFinding>): ExitCode => {
    complain(terminal, runFinding(...finding));
    return 2;
  };
  if (lesson !== undefined && !existsSync(lesson)) return refuse('R0001', `there is no file \`${lesson}\``);
  const folder = resolve(values['folder'] ?? (lesson === undefined ? '.' : dirname(lesson)));
  if (!existsSync(folder)) return refuse('R0001', `there is no folder \`${folder}\``);
  if (!switches.has('serve')) return openWindow(lesson, terminal);

  const port = Number(values['port'] ?? 0);
  if (!Number.isInteger(port) || port < 0 || port > 65_535)
    return refuse('R0008', `\`--port ${values['port'] ?? ''}\` is no port`, 'a whole number from 1 to 65535');
  const files = studioFiles();
  const host = await workshop({
    folder,
    ...(lesson === undefined ? {} : { lesson: resolve(lesson) }),
    state: stateFolder(),
    speech: cacheFolder(),
    version: version(),
    newWorker: () => new Worker(new URL('./lesson-worker.js', import.meta.url)),
  });
  let served: Served;
  try {
    served = await serve(host, files, port);
  } catch (error) {
    await host.close();
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    if (code !== 'EADDRINUSE' && code !== 'EACCES') throw error;
    const why = code === 'EADDRINUSE' ? 'another program uses it' : systemWords(code);
    return refuse(
      'R0008',
      `port ${String(port)} cannot be used: ${why}`,
      'leave `--port` out, or name another',
    );
  }
  terminal.write(
    `The workshop is open at\n\n  ${served.url}\n\nOnly this machine reaches it, and only with this address. It serves lessons in ${folder}.\nCtrl-C closes it; unsaved work is kept.\n`,
  );
  await new Promise<void>(done => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => done());
  });
  await served.close();
  await host.close();
  return 0;
};

/** Opens the desktop shell. */
async function openWindow(lesson: string | undefined, terminal: Terminal): Promise<ExitCode> {
  const program = electronProgram();
  if (program === undefined) {
    const finding = runFinding(
      'R0015',
      'the desktop window needs Electron, and its program is not on this machine',
      'fetch it once with `npx install-electron` where there is a network, or work in your browser: `barwise studio --serve`',
    );
    complain(terminal, finding);
    return 2;
  }
  const shell = fileURLToPath(new URL('../desktop/main.js', import.meta.url));
  const words = lesson === undefined ? [] : [resolve(lesson)];
  const child = spawn(program, [shell, ...words], { stdio: 'inherit' });
  return new Promise((done, failed) => {
    child.on('error', failed);
    child.on('close', code => {
      done(code === 0 ? 0 : 2);
    });
  });
}
