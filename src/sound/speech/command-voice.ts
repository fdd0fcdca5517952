import { spawn } from 'node:child_process';
import { readWav } from '../wav.js';
import { alignRecording } from './align-recording.js';
import { sentenceText } from './sentences.js';
import type { Sentence } from './sentences.js';
import type { SentenceSound, Voice } from './voice.js';

/** A program that speaks: it reads text from its input and writes a WAV file to its output. */
export interface SpeakingCommand {
  readonly program: string;
  readonly args: readonly string[];
  /** How long one sentence may take, in seconds. */
  readonly timeoutSeconds: number;
}

/** More sound than this for a sentence is a fault of the program, in bytes. */
const mostBytes = 100_000_000;

/** How letters are written for a voice that we know nothing about. */
const spelled = (word: string): string => (word === 'A' ? 'ay' : word);

/** Runs the program on a text. Rejects when it cannot be started, fails, takes too long or gives no WAV. */
async function run({ program, args, timeoutSeconds }: SpeakingCommand, text: string): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const child = spawn(program, [...args], { stdio: ['pipe', 'pipe', 'pipe'], windowsHide: true });
    const sound: Buffer[] = [];
    let size = 0;
    let complaints = '';
    const stop = (reason: string): void => {
      child.kill('SIGKILL');
      reject(new Error(reason));
    };
    const timer = setTimeout(() => {
      stop(`\`${program}\` took longer than ${String(timeoutSeconds)} s`);
    }, timeoutSeconds * 1000);
    child.on('error', error => {
      clearTimeout(timer);
      reject(new Error(`\`${program}\` could not be started: ${error.message}`));
    });
    child.stdout.on('data', (part: Buffer) => {
      size += part.length;
      sound.push(part);
      if (size > mostBytes)
        stop(`\`${program}\` gave more than ${String(mostBytes / 1e6)} MB for a sentence`);
    });
    child.stderr.on('data', (part: Buffer) => {
      complaints = (complaints + part.toString('utf8')).slice(-500);
    });
    child.on('close', code => {
      clearTimeout(timer);
      if (code === 0) resolve(Buffer.concat(sound));
      else
        reject(
          new Error(
            `\`${program}\` stopped with ${String(code)}${complaints === '' ? '' : `: ${complaints.trim()}`}`,
          ),
        );
    });
    // A program that does not read its input closes the pipe; its exit code tells what is wrong.
    child.stdin.on('error', () => undefined);
    child.stdin.end(text);
  });
}

/**
 * A command of the user's as a voice. It says nothing about its words, so they are spread over its sound. `id` tells its speech from
 * that of other voices in the cache. `commandFor` makes the command for a pace in words a minute.
 */
export function commandVoice(id: string, commandFor: (pace: number) => SpeakingCommand): Voice {
  return {
    id,
    speakSentence: async (sentence: Sentence, pace: number): Promise<SentenceSound> => {
      const sound = readWav(await run(commandFor(pace), `${sentenceText(sentence, spelled)}\n`));
      return { ...sound, times: alignRecording(sentence.pieces, sound) };
    },
  };
}

/** The separate program espeak-ng as a voice, where the user has installed it (GPL-3; it is not part of Barwise). */
export const espeakVoice = (timeoutSeconds: number): Voice =>
  commandVoice('espeak-ng en-us', pace => ({
    program: 'espeak-ng',
    args: ['-v', 'en-us', '-s', String(Math.round(pace)), '-b', '1', '--stdin', '--stdout'],
    timeoutSeconds,
  }));
