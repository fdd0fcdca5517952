import { romanLabel } from '../../timeline/index.js';
import { escapeHtml } from '../escape-html.js';

/** HTML or SVG as text; everything that comes from an author has been escaped on its way in. */
export type Markup = string;

type Attributes = Readonly<Record<string, string | number | undefined>>;

/** An element; an attribute that is `undefined` is left out, `text` in it is escaped. */
export function element(name: string, attributes: Attributes, ...content: readonly Markup[]): Markup {
  const list = Object.entries(attributes).flatMap(([key, value]) =>
    value === undefined ? [] : [` ${key}="${escapeHtml(String(value))}"`],
  );
  return `<${name}${list.join('')}>${content.join('')}</${name}>`;
}

/** Text of an author or of the engine as markup. */
export const text: (plain: string) => Markup = escapeHtml;

/** A Roman numeral for running text: figures stacked. */
export function numeralHtml(roman: string): Markup {
  const parts = romanLabel(roman).map(part => {
    switch (part.kind) {
      case 'text':
        return text(part.text);
      case 'raised':
        return element('sup', {}, text(part.text));
      case 'stack':
        return element(
          'span',
          { class: 'figures' },
          ...part.figures.map(figure => element('span', {}, text(figure))),
        );
    }
  });
  return element('span', { class: 'numeral' }, ...parts);
}
