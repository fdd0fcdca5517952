/** What a single key does; the names are those that the list of keys shows. */
export interface Shortcut {
  /** As `KeyboardEvent.key` has it. */
  readonly key: string;
  readonly name: string;
  readonly does: string;
  readonly run: () => void;
}

/** Keys typed here belong to the field itself. */
const takesKeys = 'input:not([type=checkbox]):not([type=radio]), select, textarea, [contenteditable]';
/** The space bar presses these. */
const pressedBySpace = 'button, summary, input, a';

/** Whether a key press means the shortcut: alone, not held down, not meant for the element that has the focus. */
export function means(event: KeyboardEvent, key: string): boolean {
  if (event.defaultPrevented || event.repeat || event.ctrlKey || event.metaKey || event.altKey) return false;
  if (event.key.toLowerCase() !== key) return false;
  const target = event.target instanceof Element ? event.target : undefined;
  if (target?.closest(takesKeys)) return false;
  return !(key === ' ' && target?.closest(pressedBySpace));
}

/** Listens for single keys while `enabled` says so (WCAG 2.2, 2.1.4: they can be turned off). */
export function listenForShortcuts(shortcuts: readonly Shortcut[], enabled: () => boolean): void {
  document.addEventListener('keydown', event => {
    if (!enabled()) return;
    const shortcut = shortcuts.find(({ key }) => means(event, key));
    if (shortcut === undefined) return;
    event.preventDefault();
    shortcut.run();
  });
}
