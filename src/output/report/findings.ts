import { placeOf } from '../../diagnostics/index.js';
import type { Diagnostic } from '../../diagnostics/index.js';
import { element, text } from './markup.js';
import type { Markup } from './markup.js';

/** Findings about the lesson and its scores, each with its place, the reason and what to do. */
export function findingsSection(findings: readonly Diagnostic[]): Markup {
  if (findings.length === 0) return '';
  return element(
    'section',
    { class: 'findings' },
    element('h2', {}, 'Findings'),
    element('ul', {}, ...findings.map(finding)),
  );
}

function finding({ severity, code, message, span, notes = [], help }: Diagnostic): Markup {
  const place = span === undefined ? undefined : placeOf(span.source, span.start);
  const where =
    span === undefined || place === undefined ? '' : `${span.source.name}, line ${String(place.line)}: `;
  return element(
    'li',
    { class: severity },
    element('b', {}, text(severity)),
    ' ',
    text(`${where}${message} `),
    element('code', { class: 'soft' }, text(code)),
    ...notes.map(note => element('p', { class: 'soft' }, text(note))),
    help === undefined ? '' : element('p', {}, element('i', { class: 'soft' }, 'help '), text(help)),
  );
}
