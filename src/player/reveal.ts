/** Room left around what is brought into view. */
const margin = 12;

/**
 * Scrolls what reaches from `first` to `last` into view inside `scroller`, as little as possible; what is higher than the scroller shows
 * its head. Where the page scrolls as a whole, the page does. (`Element.scrollIntoView` alone would also move the place from which
 * Tab goes on.)
 */
export function reveal(scroller: Element, first: Element, last = first): void {
  const { top } = first.getBoundingClientRect();
  const { bottom } = last.getBoundingClientRect();
  if (scroller.scrollHeight <= scroller.clientHeight) {
    if (top < 0 || bottom > document.documentElement.clientHeight) first.scrollIntoView({ block: 'nearest' });
    return;
  }
  const around = scroller.getBoundingClientRect();
  const above = top - margin - around.top;
  const below = bottom + margin - around.bottom;
  if (above < 0) scroller.scrollBy({ top: above });
  else if (below > 0) scroller.scrollBy({ top: Math.min(below, above) });
}
