/** Room left around what is brought into view. */
const margin = 12;

/**
 * Scrolls `element` into view inside `scroller`, as little as possible; what is higher than the scroller shows its head. Where the page
 * scrolls as a whole, the page does. (`Element.scrollIntoView` alone would also move the place from which Tab goes on.)
 */
export function reveal(element: Element, scroller: Element): void {
  if (scroller.scrollHeight <= scroller.clientHeight) {
    const box = element.getBoundingClientRect();
    if (box.top < 0 || box.bottom > document.documentElement.clientHeight)
      element.scrollIntoView({ block: 'nearest' });
    return;
  }
  const box = element.getBoundingClientRect();
  const around = scroller.getBoundingClientRect();
  const above = box.top - margin - around.top;
  const below = box.bottom + margin - around.bottom;
  if (above < 0) scroller.scrollBy({ top: above });
  else if (below > 0) scroller.scrollBy({ top: Math.min(below, above) });
}
