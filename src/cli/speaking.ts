import { dirname, join } from 'node:path';
import type { Diagnostic } from '../diagnostics/index.js';
import { commandVoice, embeddedVoice, espeakVoice, folderCache, takesIn } from '../sound/index.js';
import type { SoundCache, Takes, Voice } from '../sound/index.js';
import { cacheFolder } from '../workshop/index.js';
import { runFinding } from './report.js';
import { commandWords } from './command-words.js';

/** Who speaks a lesson. */
export interface Speaking {
  readonly voice: Voice;
  /** Speaks when `voice` fails; absent for the built-in voice, which asks nothing of the machine. */
  readonly fallback?: Voice;
  readonly takes: Takes;
  readonly cache: SoundCache;
}

const defaultTimeoutSeconds = 20;

/** Reads the options that say who speaks; a finding where one makes no sense. */
export async function readSpeaking(
  values: Readonly<Record<string, string>>,
  lesson: string,
): Promise<Speaking | Diagnostic> {
  const voice = voiceOf(values);
  if ('code' in voice) return voice;
  return {
    ...voice,
    takes: await takesIn(values['takes'] ?? join(dirname(lesson), 'takes')),
    cache: folderCache(values['cache'] ?? cacheFolder()),
  };
}

function voiceOf(
  values: Readonly<Record<string, string>>,
): Pick<Speaking, 'voice' | 'fallback'> | Diagnostic {
  const { voice: name = 'built-in', 'voice-command': command, 'voice-timeout': timeout } = values;
  const timeoutSeconds = Number(timeout ?? defaultTimeoutSeconds);
  if (!(timeoutSeconds > 0 && timeoutSeconds <= 3600))
    return runFinding(
      'R0008',
      `\`--voice-timeout ${timeout ?? ''}\` is no time`,
      'seconds up to 3600, such as 20',
    );
  if (command !== undefined) {
    const [program, ...args] = commandWords(command);
    if (program === undefined)
      return runFinding(
        'R0008',
        '`--voice-command` names no program',
        "write `--voice-command 'PROGRAM ARGUMENTS'`",
      );
    const voice = commandVoice(`command ${command}`, pace => ({
      program,
      args: args.map(word => word.replaceAll('{pace}', String(Math.round(pace)))),
      timeoutSeconds,
    }));
    return { voice, fallback: embeddedVoice() };
  }
  if (name === 'built-in') return { voice: embeddedVoice() };
  if (name === 'espeak-ng') return { voice: espeakVoice(timeoutSeconds), fallback: embeddedVoice() };
  return runFinding(
    'R0008',
    `there is no voice \`${name}\``,
    'voices: `built-in`, `espeak-ng`; any other program with `--voice-command`',
  );
}
