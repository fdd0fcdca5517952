type Attributes = Readonly<Record<string, string | number | boolean | undefined>>;

function applied<E extends Element>(
  node: E,
  attributes: Attributes,
  children: readonly (Node | string)[],
): E {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) continue;
    node.setAttribute(name, value === true ? '' : String(value));
  }
  node.append(...children);
  return node;
}

/** An HTML element. Strings become text, never markup. */
export const html = <K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Attributes = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[K] => applied(document.createElement(name), attributes, children);

/** An SVG element. */
export const svg = <K extends keyof SVGElementTagNameMap>(
  name: K,
  attributes: Attributes = {},
  ...children: readonly (Node | string)[]
): SVGElementTagNameMap[K] =>
  applied(document.createElementNS('http://www.w3.org/2000/svg', name), attributes, children);

/** Sets a text that may be the same as before; the same is left alone, because a change wakes readers of the page and costs a layout. */
export function setText(node: Node, text: string): void {
  if (node.textContent !== text) node.textContent = text;
}
