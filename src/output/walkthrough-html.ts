import { createHash } from 'node:crypto';
import type { PageData } from '../timeline/index.js';
import { escapeHtml } from './escape-html.js';
import { htmlDocument } from './html-document.js';
import type { WalkthroughInput } from './walkthrough-input.js';

/** JSON that can stand inside a script element: no text in it can end the element or open a comment. */
const scriptJson = (value: unknown): string => JSON.stringify(value).replace(/</g, '\\u003c');

const hash = (text: string): string =>
  `'sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}'`;

/**
 * What the page may do (CSP Level 3): run this one program, wear this one style, decode what it carries. Nothing is fetched, sent,
 * framed or navigated to. The sample decoder is WebAssembly, which needs its own word. A page that reports to a learning platform by the
 * network (cmi5) may also speak to it; where that will be is not known when the page is made.
 */
function contentPolicy(script: string, style: string, connects: boolean): string {
  return [
    "default-src 'none'",
    `script-src ${script} 'wasm-unsafe-eval'`,
    `style-src ${style}`,
    'font-src data:',
    'img-src data:',
    ...(connects ? ['connect-src https: http:'] : []),
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}

/** Data beside the program: never run, and read only when it is needed. */
const block = (id: string, type: string, content: string): string =>
  `<script type="${type}" id="${id}">${content}</script>`;

const audioBlock = (id: string, bytes: Uint8Array): string =>
  block(id, 'application/octet-stream', Buffer.from(bytes).toString('base64'));

/** A caption file may hold any text; inside the page `<` is the only sign that could end its element. */
const captionBlock = (captions: string): string =>
  block('captions', 'application/json', scriptJson(captions));

/** Names of the program and the look where they lie beside the page, shared by several. */
export interface SharedAssets {
  readonly script: string;
  readonly style: string;
}

/** The program as it may stand inside a page: a closing tag inside a string would end its element. */
const inlineScript = (script: string): string =>
  script.replace(/<\/script/gi, '<\\/script').replace(/<!--/g, '<\\!--');

/** The page as one HTML document; with `shared` the program and the look are files beside it. */
export function walkthroughHtml(input: WalkthroughInput, data: PageData, shared?: SharedAssets): string {
  const script = inlineScript(input.player.script);
  const style = input.player.style.replace(/<\/style/gi, '<\\/style');
  const policy =
    shared === undefined
      ? contentPolicy(hash(script), hash(style), data.reportsTo === 'cmi5')
      : contentPolicy("'self'", "'self'", false);
  return htmlDocument({
    title: data.title,
    ...(data.description === undefined ? {} : { description: data.description }),
    policy,
    style:
      shared === undefined
        ? `<style>${style}</style>`
        : `<link rel="stylesheet" href="${escapeHtml(shared.style)}">`,
    body: [
      '<noscript>This lesson plays in the page itself and needs JavaScript.</noscript>',
      '<div id="lesson"></div>',
      block('page-data', 'application/json', scriptJson(data)),
      captionBlock(input.captions),
      // The program starts before the browser has read the sound, which is most of the file and not needed until something is played.
      shared === undefined
        ? `<script>${script}</script>`
        : `<script src="${escapeHtml(shared.script)}"></script>`,
      audioBlock('bank', input.bank),
      ...input.clips.map((clip, index) => audioBlock(`clip-${index}`, clip.file)),
    ],
  });
}
