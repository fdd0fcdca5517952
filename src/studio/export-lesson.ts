import { html } from '../player/index.js';
import type { Answers, Bridge, HostEvent } from '../bridge/index.js';
import { chooseFile } from './choose-file.js';
import { problemWords } from './problem-words.js';

export interface Exporting {
  /** Ends the export that runs; hidden while there is none. */
  readonly stop: HTMLButtonElement;
  /** Writes everything that a build writes into a folder of the user's choice. */
  readonly run: (lesson: { readonly path: string; readonly text: string }) => Promise<void>;
  readonly progress: (event: HostEvent & { readonly kind: 'progress' }) => void;
}

export function exporting(
  bridge: Bridge,
  begun: Answers['begin'],
  tell: (message: string) => void,
): Exporting {
  let running: string | undefined;
  const stop = html(
    'button',
    { type: 'button', title: 'nothing half written stays', hidden: true },
    'Stop the export',
  );
  stop.addEventListener('click', () => {
    if (running !== undefined) void bridge.ask('cancel', { job: running });
  });
  return {
    stop,
    run: async ({ path, text }) => {
      const folder = await chooseFile(bridge, 'folder', begun.dialogs, begun.folder);
      if (folder === undefined) return;
      const job = crypto.randomUUID();
      running = job;
      stop.hidden = false;
      const answer = await bridge.ask('build', { path, text, folder, also: ['all'], job });
      stop.hidden = true;
      running = undefined;
      if (!answer.ok) tell(`Nothing was exported: ${problemWords(answer.problem)}`);
      else tell(`${String(answer.value.files.length)} files written to ${folder}`);
    },
    progress: ({ job, doing }) => {
      if (job === running) tell(doing);
    },
  };
}
