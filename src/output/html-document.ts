import { escapeHtml } from './escape-html.js';

export interface HtmlDocument {
  readonly title: string;
  readonly description?: string;
  /** What the document may load and run (CSP Level 3). */
  readonly policy: string;
  /** Style elements or links, as markup. */
  readonly style: string;
  /** Class of the body. */
  readonly className?: string;
  readonly body: readonly string[];
}

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
