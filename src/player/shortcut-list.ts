import type { Moves } from './moves.js';
import type { Shortcut } from './shortcuts.js';

export interface ShortcutActions extends Pick<Moves, 'toggle' | 'next' | 'previous' | 'again'> {
  readonly slower: () => void;
  readonly faster: () => void;
  readonly captions: () => void;
  readonly labels: () => void;
  readonly uncoverNext: () => void;
  readonly lookCloser: () => void;
}

/** The single keys of the page, in the order in which the options list them. */
export const shortcutList = (actions: ShortcutActions): readonly Shortcut[] => [
  { key: ' ', name: 'Space', does: 'play or pause', run: actions.toggle },
  { key: 'n', name: 'N', does: 'next step', run: actions.next },
  { key: 'p', name: 'P', does: 'previous step', run: actions.previous },
  { key: 'r', name: 'R', does: 'this step again', run: actions.again },
  { key: ',', name: ',', does: 'slower', run: actions.slower },
  { key: '.', name: '.', does: 'faster', run: actions.faster },
  { key: 'c', name: 'C', does: 'captions on or off', run: actions.captions },
  { key: 'l', name: 'L', does: 'labels on or off', run: actions.labels },
  { key: 'u', name: 'U', does: 'uncover the next label', run: actions.uncoverNext },
  { key: 'w', name: 'W', does: 'look closer, in words', run: actions.lookCloser },
];
