import { escapeHtml } from './escape-html.js';

export interface HtmlDocument {
  readonly title: string;
  readonly description?: string;
  /** What the document may load and run (CSP Level 3); pictures that it carries itself are among it. */
  readonly policy: string;
  /** Style elements or links, as markup. */
  readonly style: string;
  /** Class of the body. */
  readonly className?: string;
  readonly body: readonly string[];
}

/**
 * The sign in the browser's tab: a note before a final bar line. It stands in the document, so that no browser asks a server for one; the
 * policy has to allow `img-src data:`.
 */
const tabIcon = `data:image/svg+xml,${encodeURIComponent(
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 16 16"><rect width="16" height="16" rx="3" fill="#fdfbf5"/><g fill="#2b2a33"><path d="M6.5 3H7.6V11.5A2.6 2 0 1 1 6.5 9.7z"/><path d="M10 2.5H10.9V13.5H10zM12 2.5H14V13.5H12z"/></g></svg>',
)}`;

/** One HTML document, in the reader's own colours, that tells no other site where it was opened. */
export const htmlDocument = ({ title, description, policy, style, className, body }: HtmlDocument): string =>
  [
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${escapeHtml(policy)}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="color-scheme" content="light dark">',
    '<meta name="referrer" content="no-referrer">',
    `<link rel="icon" href="${tabIcon}">`,
    `<title>${escapeHtml(title)}</title>`,
    ...(description === undefined ? [] : [`<meta name="description" content="${escapeHtml(description)}">`]),
    style,
    '</head>',
    className === undefined ? '<body>' : `<body class="${className}">`,
    ...body,
    '</body>',
    '</html>',
    '',
  ].join('\n');
