import { html } from '../../player/index.js';
import type { SpokenPart } from '../../bridge/index.js';

/** What is to be said of a take that no longer fits its words, or cannot be used; nothing of any other. */
export function staleNote({ take, recordings }: SpokenPart): readonly HTMLElement[] {
  if (take?.trouble !== undefined)
    return [html('p', {}, `The take cannot be used: ${take.trouble}. The voice speaks these words.`)];
  if (take?.stale !== true) return [];
  const words = recordings.find(({ number }) => number === take.recording)?.words;
  return [
    html('p', {}, 'The words have changed since this was recorded. Record it again.'),
    ...(words === undefined
      ? []
      : [html('details', {}, html('summary', {}, 'What was said'), html('p', { class: 'said' }, words))]),
  ];
}
