import type { Span } from '../diagnostics/index.js';
import type { SayAction } from './model.js';

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/gu, '\\$&');

/** The words with whatever Markdown, or a line break of YAML, may stand between them in the source. */
function pattern(words: string): RegExp {
  const parts = words.split(/\s+/u).filter(part => part !== '');
  return new RegExp(parts.map(escaped).join('[\\s*_`\\\\]+'), 'gu');
}

/** The source of a narration with its claims made unfindable, every offset kept. */
function withoutClaims({ span, claims }: SayAction): string {
  let text = span.source.text.slice(span.start, span.end);
  for (const { claim } of claims) {
    const from = claim.span.start - span.start;
    const to = claim.span.end - span.start;
    text = text.slice(0, from) + '\0'.repeat(to - from) + text.slice(to);
  }
  return text;
}

/**
 * Where words of a narration as shown stand in the lesson's source: the same occurrence of them, counted from the beginning of the narration.
 * The whole narration where they are written in another way (an entity, an escape).
 */
export function placeOfWords(say: SayAction, from: number, to: number): Span {
  const words = say.text.slice(from, to);
  const before = [...say.text.matchAll(pattern(words))].filter(({ index }) => index < from).length;
  const found = [...withoutClaims(say).matchAll(pattern(words))][before];
  if (found === undefined) return say.span;
  const start = say.span.start + found.index;
  return { ...say.span, start, end: start + found[0].length };
}
