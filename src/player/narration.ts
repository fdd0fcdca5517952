import { html } from './dom.js';

/** Words as they are spoken, by their place in the plain text of the say. */
export interface WordPlace {
  readonly from: number;
  readonly to: number;
}

export interface Narration {
  readonly blocks: readonly HTMLElement[];
  /** The elements of each word; a word that runs into a claim has more than one. */
  readonly words: readonly (readonly HTMLElement[])[];
  /** The elements that show the words of a claim, with the claim's path. */
  readonly claims: readonly { readonly path: string; readonly element: HTMLElement }[];
}

/** Elements that the words may be dressed with; anything else gives its text alone. */
const inlineElements = ['em', 'strong', 'code', 'br'] as const;
const blockElements = ['p', 'ul', 'ol', 'li', 'blockquote'] as const;
type Known = (typeof inlineElements)[number] | (typeof blockElements)[number];
const known: ReadonlySet<string> = new Set([...inlineElements, ...blockElements]);
const isKnown = (name: string): name is Known => known.has(name);

/** Signs that the plain text may have and the page not (blank lines, marks of a list). */
const reach = 8;

/** Follows the shown characters through the plain text, and tells the word that each belongs to. */
function wordFinder(text: string, words: readonly WordPlace[]): (character: string) => number | undefined {
  let at = 0;
  let word = 0;
  return character => {
    if (/\s/.test(character)) return undefined;
    const ahead = text.slice(at, at + reach).indexOf(character);
    if (ahead < 0) return undefined;
    const found = at + ahead;
    at = found + 1;
    while ((words[word]?.to ?? Infinity) <= found) word++;
    return (words[word]?.from ?? Infinity) <= found ? word : undefined;
  };
}

/**
 * Builds the narration out of its HTML: known elements are made anew and text stays text, so whatever a lesson holds, no markup of it
 * reaches the page. Every spoken word becomes an element of its own.
 */
export function narration(source: string, text: string, words: readonly WordPlace[]): Narration {
  const wordOf = wordFinder(text, words);
  const wordElements: HTMLElement[][] = words.map(() => []);
  const claims: { path: string; element: HTMLElement }[] = [];

  const textNodes = (shown: string): readonly Node[] => {
    const runs: { word: number | undefined; text: string }[] = [];
    for (const character of shown) {
      const word = wordOf(character);
      const last = runs.at(-1);
      if (last !== undefined && last.word === word) last.text += character;
      else runs.push({ word, text: character });
    }
    return runs.map(run => {
      if (run.word === undefined) return document.createTextNode(run.text);
      const element = html('span', { class: 'word' }, run.text);
      wordElements[run.word]?.push(element);
      return element;
    });
  };

  const copy = (node: Node): readonly Node[] => {
    if (node.nodeType === Node.TEXT_NODE) return textNodes(node.textContent ?? '');
    if (!(node instanceof Element)) return [];
    const name = node.localName;
    if (name === 'script' || name === 'style') return [];
    const path = name === 'span' && node.classList.contains('claim') ? node.getAttribute('data-claim') : null;
    const children = [...node.childNodes].flatMap(copy);
    if (path !== null) {
      const element = html('span', { class: 'claim' }, ...children);
      claims.push({ path, element });
      return [element];
    }
    return isKnown(name) ? [html(name, {}, ...children)] : children;
  };

  const body = new DOMParser().parseFromString(source, 'text/html').body;
  const blocks = [...body.childNodes].flatMap(copy).flatMap((node): readonly HTMLElement[] => {
    if (node instanceof HTMLElement && node.localName !== 'span') return [node];
    return (node.textContent ?? '').trim() === '' ? [] : [html('p', {}, node)];
  });
  return { blocks, words: wordElements, claims };
}
