/** Bars of the score as indexes, both inclusive. */
export type Bars = readonly [first: number, last: number];

export interface BarChoiceHandlers {
  /** Number of bars of the score; 0 where there is none. */
  readonly count: () => number;
  /** The bar at or nearest to a point of the window. */
  readonly barNear: (clientX: number, clientY: number) => number | undefined;
  /** The choice moves; `head` is the bar at its moving end where a key moved it, so that it may be out of view. */
  readonly moved: (bars: Bars | undefined, head: number | undefined) => void;
  /** The choice stands: a drag has ended, or a key was pressed. `how` tells a pointer from a key. */
  readonly chosen: (bars: Bars, how: 'pointer' | 'key') => void;
  /** Enter was pressed over a choice. */
  readonly entered: (bars: Bars) => void;
}

/** Lets the user choose bars on the sheet, by a click, by a drag and by the keyboard; with Shift the choice grows from where it began. */
export interface BarChoice {
  /** Another score stands there. */
  readonly clear: () => void;
}

export function barChoice(sheet: HTMLElement, handlers: BarChoiceHandlers): BarChoice {
  let anchor: number | undefined;
  let head: number | undefined;
  let isDragging = false;

  const bars = (): Bars | undefined =>
    anchor === undefined || head === undefined ? undefined : [Math.min(anchor, head), Math.max(anchor, head)];
  const moveTo = (bar: number, extend: boolean, how: 'pointer' | 'key'): void => {
    if (!extend || anchor === undefined) anchor = bar;
    head = bar;
    // What the pointer points at is in view, and must not move away under it.
    handlers.moved(bars(), how === 'key' ? head : undefined);
  };
  const clear = (): void => {
    anchor = head = undefined;
    isDragging = false;
    handlers.moved(undefined, undefined);
  };
  const settle = (how: 'pointer' | 'key'): void => {
    const chosen = bars();
    if (chosen !== undefined) handlers.chosen(chosen, how);
  };

  sheet.addEventListener('pointerdown', event => {
    // A finger scrolls the sheet; its tap chooses when it is lifted.
    if (event.button !== 0 || event.pointerType === 'touch') return;
    const bar = handlers.barNear(event.clientX, event.clientY);
    if (bar === undefined) return;
    // Otherwise the drag would choose the words of the labels.
    event.preventDefault();
    sheet.focus({ preventScroll: true });
    sheet.setPointerCapture(event.pointerId);
    isDragging = true;
    moveTo(bar, event.shiftKey, 'pointer');
  });
  sheet.addEventListener('pointermove', event => {
    if (!isDragging) return;
    const { top, bottom } = sheet.getBoundingClientRect();
    sheet.scrollBy({ top: Math.min(0, event.clientY - top) + Math.max(0, event.clientY - bottom) });
    const bar = handlers.barNear(event.clientX, event.clientY);
    if (bar !== undefined && bar !== head) moveTo(bar, true, 'pointer');
  });
  sheet.addEventListener('pointerup', event => {
    if (event.pointerType === 'touch') {
      const bar = handlers.barNear(event.clientX, event.clientY);
      if (bar !== undefined) moveTo(bar, false, 'pointer');
    } else if (!isDragging) return;
    isDragging = false;
    settle('pointer');
  });
  sheet.addEventListener('pointercancel', () => {
    isDragging = false;
  });

  sheet.addEventListener('keydown', event => {
    const last = handlers.count() - 1;
    if (last < 0 || event.ctrlKey || event.metaKey || event.altKey) return;
    const chosen = bars();
    const to: Readonly<Record<string, number | undefined>> = {
      ArrowRight: head === undefined ? 0 : Math.min(last, head + 1),
      ArrowLeft: head === undefined ? last : Math.max(0, head - 1),
      Home: 0,
      End: last,
    };
    const bar = to[event.key];
    if (bar !== undefined) {
      moveTo(bar, event.shiftKey, 'key');
      settle('key');
    } else if (event.key === 'Escape' && chosen !== undefined) clear();
    else if (event.key === 'Enter' && chosen !== undefined) handlers.entered(chosen);
    else return;
    event.preventDefault();
  });
  return { clear };
}
