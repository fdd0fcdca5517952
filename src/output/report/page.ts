import { readPlayerBundle } from '../player-bundle.js';
import { element, text } from './markup.js';
import type { Markup } from './markup.js';
import { reportStyle } from './style.js';

/** The faces of the walkthrough, which carry their data with them. */
const faces = (): string => (readPlayerBundle().style.match(/@font-face\s*\{[^}]*\}/g) ?? []).join('');

/**
 * A report as one HTML document: it needs no script, fetches nothing and reads the same offline, on paper and on a phone.
 * @param extraStyle rules of this one report
 */
export function reportPage(title: string, body: Markup, extraStyle = ''): string {
  return [
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    // Nothing runs and nothing is loaded, whatever a lesson holds.
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:; base-uri 'none'; form-action 'none'">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="color-scheme" content="light dark">',
    '<meta name="referrer" content="no-referrer">',
    element('title', {}, text(title)),
    `<style>${faces()}${reportStyle}${extraStyle}</style>`,
    '</head>',
    '<body>',
    body,
    '</body>',
    '</html>',
    '',
  ].join('\n');
}
