import { html } from '../../player/index.js';
import type { SpokenPart } from '../../bridge/index.js';
import { inSeconds } from './seconds.js';

export interface RecordingList {
  readonly element: HTMLElement;
  readonly show: (part: SpokenPart | undefined) => void;
}

export interface RecordingListHandlers {
  readonly listen: (recording: number) => void;
  readonly keep: (recording: number) => void;
}

/** The recordings of a text, the newest first, with the one that speaks it marked. */
export function recordingList({ listen, keep }: RecordingListHandlers): RecordingList {
  const list = html('ol', { class: 'recordings', reversed: true });
  const element = html('section', { 'aria-label': 'Recordings' }, html('h3', {}, 'Recordings'), list);
  return {
    element,
    show: part => {
      const { recordings, take } = part ?? { recordings: [], take: undefined };
      // Where the button that was pressed is gone, the row still has the other one.
      const focused = list.contains(document.activeElement)
        ? document.activeElement?.closest('li')?.dataset['recording']
        : undefined;
      element.hidden = recordings.length === 0;
      list.replaceChildren(
        ...[...recordings].reverse().map(({ number, seconds, stale, words }) => {
          const name = number === 0 ? 'from another program' : `recording ${String(number)}`;
          const speaks = take?.recording === number;
          const hear = html('button', { type: 'button' }, 'Listen');
          hear.setAttribute('aria-label', `Listen to ${name}`);
          hear.addEventListener('click', () => {
            listen(number);
          });
          const choose = html('button', { type: 'button' }, 'Keep this one');
          choose.setAttribute('aria-label', `Keep this one: ${name}`);
          choose.addEventListener('click', () => {
            keep(number);
          });
          const row = html(
            'li',
            { class: speaks ? 'is-speaking' : '' },
            html('span', { class: 'name' }, name),
            html('span', {}, seconds === undefined ? 'cannot be read' : inSeconds(seconds)),
            html('span', { class: 'quiet' }, stale ? 'other words' : ''),
            ...(seconds === undefined ? [] : [hear]),
            speaks ? html('strong', {}, 'speaks this text') : choose,
          );
          if (stale && words !== undefined) row.title = words;
          row.dataset['recording'] = String(number);
          return row;
        }),
      );
      if (focused !== undefined)
        list.querySelector<HTMLElement>(`li[data-recording="${focused}"] button`)?.focus();
    },
  };
}
