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

/** So much of an answer, from its head on, tells what it says; in CSS pixels. */
const gist = 120;

/** Scrolls `answer` into view, at least its head, and what it answers where both have room. */
export function revealAnswer(scroller: Element, asked: Element, answer: Element): void {
  const { top, height } = answer.getBoundingClientRect();
  const needed = top - asked.getBoundingClientRect().top + Math.min(height, gist) + 2 * margin;
  reveal(scroller, needed <= scroller.clientHeight ? asked : answer, answer);
}
