/** Attributes that only the engraver's own program needs. */
const needless = /^(?:class|data-.*|id|selectable|tabindex|aria-.*|role)$/;

const rounded = (numbers: string): string =>
  numbers.replace(/-?\d+\.\d{3,}(?:e-?\d+)?/g, number => String(Math.round(Number(number) * 100) / 100));

/**
 * The drawing as text, as short as it can be without a change to what is seen: two decimals are a hundredth of a staff line's
 * thickness, and only what is drawn is kept.
 */
export function compactDrawing(drawing: Element): string {
  const copy = drawing.cloneNode(true) as Element;
  for (const element of [copy, ...copy.querySelectorAll('*')]) {
    for (const { name, value } of [...element.attributes]) {
      if (needless.test(name)) element.removeAttribute(name);
      else element.setAttribute(name, rounded(value));
    }
  }
  return copy.outerHTML;
}
