import { html } from '../player/index.js';
import type { Bridge } from '../bridge/index.js';

type Wanted = 'lesson' | 'score' | 'folder';

/**
 * Lets the user choose a file or a folder: in a dialog of the system where the host has one, else among the files of the folder that the
 * host was started in.
 * @returns its absolute path; `undefined` where the user gave up
 */
export async function chooseFile(
  bridge: Bridge,
  what: Wanted,
  dialogs: boolean,
  folder: string,
): Promise<string | undefined> {
  if (dialogs) {
    const answer = await bridge.ask('choose', { what });
    return answer.ok ? answer.value.path : undefined;
  }
  return browseFor(bridge, what, folder);
}

function browseFor(bridge: Bridge, what: Wanted, start: string): Promise<string | undefined> {
  return new Promise(resolve => {
    const place = html('p', { class: 'quiet' });
    const list = html('ul', { class: 'entries' });
    const give = html('button', { type: 'button' }, 'Leave it');
    const take = html('button', { type: 'button', hidden: what !== 'folder' }, 'This folder');
    const title = what === 'folder' ? 'Choose a folder' : `Choose a ${what}`;
    const dialog = html(
      'dialog',
      { class: 'asking', 'aria-label': title },
      html('h2', {}, title),
      place,
      list,
      html('p', { class: 'answers' }, take, give),
    );
    let here = start;
    const end = (path: string | undefined): void => {
      dialog.close();
      dialog.remove();
      resolve(path);
    };
    const show = async (folder: string): Promise<void> => {
      const answer = await bridge.ask('browse', { folder });
      if (!answer.ok) {
        place.textContent = answer.problem.message;
        return;
      }
      here = answer.value.folder;
      place.textContent = here;
      const { parent, entries } = answer.value;
      const up =
        parent === undefined ? [] : [{ name: 'the folder above', path: parent, kind: 'folder' as const }];
      const fitting = [...up, ...entries].filter(({ kind }) => kind === 'folder' || kind === what);
      list.replaceChildren(
        ...fitting.map(({ name, path, kind }) => {
          const button = html(
            'button',
            { type: 'button', class: `entry is-${kind}` },
            kind === 'folder' ? `${name} /` : name,
          );
          button.addEventListener('click', () => {
            if (kind === 'folder') void show(path);
            else end(path);
          });
          return html('li', {}, button);
        }),
      );
    };
    give.addEventListener('click', () => {
      end(undefined);
    });
    take.addEventListener('click', () => {
      end(here);
    });
    dialog.addEventListener('cancel', event => {
      event.preventDefault();
      end(undefined);
    });
    document.body.append(dialog);
    dialog.showModal();
    void show(start);
  });
}
