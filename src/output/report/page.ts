import { htmlDocument } from '../html-document.js';
import { readPlayerBundle } from '../player-bundle.js';
import type { Markup } from './markup.js';
import { reportStyle } from './style.js';

/** The faces of the walkthrough, which carry their data with them. */
const faces = (): string => (readPlayerBundle().style.match(/@font-face\s*\{[^}]*\}/g) ?? []).join('');

/**
 * A report as one HTML document: it needs no script, fetches nothing and reads the same offline, on paper and on a phone.
 * @param extraStyle rules of this one report
 */
export const reportPage = (title: string, body: Markup, extraStyle = ''): string =>
  htmlDocument({
    title,
    // Nothing runs and nothing is loaded, whatever a lesson holds.
    policy:
      "default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:; base-uri 'none'; form-action 'none'",
    style: `<style>${faces()}${reportStyle}${extraStyle}</style>`,
    body: [body],
  });
