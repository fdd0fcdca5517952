import { html } from '../player/index.js';
import type { Answers, Bridge, HostEvent } from '../bridge/index.js';
import { chooseFile } from './choose-file.js';
import type { Tell } from './notice.js';
import { problemWords } from './problem-words.js';

export interface Exporting {
  /** How far the export is, with a button that ends it; hidden while there is none. */
  readonly element: HTMLElement;
  /** Writes everything that a build writes into a folder of the user's choice. */
  readonly run: (lesson: { readonly path: string; readonly text: string }) => Promise<void>;
  readonly progress: (event: HostEvent & { readonly kind: 'progress' }) => void;
}

export function exporting(bridge: Bridge, begun: Answers['begin'], tell: Tell): Exporting {
  let running: string | undefined;
  let isStopped = false;
  const words = html('span', {});
  const bar = html('progress', { max: 1, 'aria-label': 'Export' });
  const stop = html('button', { type: 'button', title: 'nothing half written stays' }, 'Stop the export');
  const element = html('p', { class: 'export', hidden: true }, bar, words, stop);
  stop.addEventListener('click', () => {
    if (running === undefined) return;
    isStopped = true;
    void bridge.ask('cancel', { job: running });
  });
  return {
    element,
    run: async ({ path, text }) => {
      if (running !== undefined) {
        tell('An export is being made; stop it before another one begins.');
        return;
      }
      const folder = await chooseFile(bridge, 'folder', begun.dialogs, begun.folder);
      if (folder === undefined) return;
      const job = crypto.randomUUID();
      running = job;
      isStopped = false;
      words.textContent = 'beginning …';
      bar.removeAttribute('value');
      element.hidden = false;
      tell('');
      const answer = await bridge.ask('build', { path, text, folder, also: ['all'], job });
      element.hidden = true;
      running = undefined;
      if (!answer.ok)
        tell(`Nothing was exported: ${problemWords(answer.problem)}`, isStopped ? 'news' : 'fault');
      else {
        const { files, left } = answer.value;
        const written = `${String(files.length)} files were written to ${folder}`;
        tell([written, ...left].join('; '), left.length === 0 ? 'news' : 'fault');
      }
    },
    progress: ({ job, doing, share }) => {
      if (job !== running) return;
      words.textContent = doing;
      // A part of the work whose length nobody knows has no value.
      if (share === undefined) bar.removeAttribute('value');
      else bar.value = share;
    },
  };
}
