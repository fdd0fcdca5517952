import type { Option } from './commands.js';

/** Options of the commands that speak. */
export const speakingOptions = {
  takes: { value: 'DIR', about: "the educator's recordings; `takes` beside the lesson where absent" },
  voice: {
    value: 'NAME',
    about: 'who speaks where there is no take: built-in, or espeak-ng where it is installed',
  },
  'voice-command': {
    value: 'COMMAND',
    about: 'a program that speaks: text in, WAV out; {pace} stands for the words a minute',
  },
  'voice-timeout': {
    value: 'SECONDS',
    about: 'how long such a program may take for a sentence; 20 where absent',
  },
  cache: {
    value: 'DIR',
    about: 'folder that keeps what was spoken and played, for quicker builds; it may be deleted',
  },
} as const satisfies Readonly<Record<string, Option>>;
