import type { Analysis } from '../../harmony/index.js';
import { passageLines } from '../analysis-passages.js';
import { element, text } from './markup.js';
import type { Markup } from './markup.js';
import { withAccidentals } from '../../timeline/index.js';

/** Keys, cadences, pedals and sequences of the piece. */
export function analysisPassages(analysis: Analysis): Markup {
  const sections = passageLines(analysis).map(({ title, lines }) =>
    element(
      'section',
      {},
      element('h2', {}, text(title)),
      element('ul', {}, ...lines.map(line => element('li', {}, text(withAccidentals(line))))),
    ),
  );
  return sections.length === 0 ? '' : element('div', { class: 'passages' }, ...sections);
}
