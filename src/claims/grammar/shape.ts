/**
 * What a parser reads, as data: the one description from which the parser of a token is compiled and the formal grammar
 * in lesson-schema/ is printed, so that the two cannot disagree.
 */
export type Shape =
  /** Literal text. In a phrase it is a word of its own and its case does not matter. */
  | { readonly kind: 'text'; readonly text: string }
  /** One character of a class, written as between the brackets of a regular expression: `A-G`, `0-9`. */
  | { readonly kind: 'character'; readonly class: string }
  | { readonly kind: 'sequence'; readonly parts: readonly Shape[] }
  | { readonly kind: 'choice'; readonly options: readonly Shape[] }
  | { readonly kind: 'optional'; readonly of: Shape }
  /** `separator` stands between two of them. */
  | { readonly kind: 'repeated'; readonly of: Shape; readonly separator?: Shape }
  /** A named rule of phrases. The body is asked for late, so that rules may contain each other. */
  | { readonly kind: 'rule'; readonly name: string; readonly body: () => Shape }
  /** A named token: no white space inside. */
  | { readonly kind: 'token'; readonly name: string; readonly body: Shape };

export const text = (of: string): Shape => ({ kind: 'text', text: of });
export const character = (of: string): Shape => ({ kind: 'character', class: of });
export const inOrder = (...parts: readonly Shape[]): Shape => ({ kind: 'sequence', parts });
export const oneOf = (...options: readonly (Shape | string)[]): Shape => ({
  kind: 'choice',
  options: options.map(option => (typeof option === 'string' ? text(option) : option)),
});
/** Words inside a token, where case would matter: `sharp`, `Sharp`, `SHARP`. */
export const inAnyCase = (...words: readonly string[]): Shape =>
  oneOf(
    ...words.flatMap(word => [
      word,
      word.replace(/(?<!\p{L})\p{L}/gu, first => first.toUpperCase()),
      word.toUpperCase(),
    ]),
  );
export const maybe = (of: Shape): Shape => ({ kind: 'optional', of });
export const oneOrMore = (of: Shape): Shape => ({ kind: 'repeated', of });

const quoted = (literal: string): string => literal.replace(/[\\^$.*+?()[\]{}|/]/g, '\\$&');

/** The regular expression of a token's shape. Tokens contain no rules of phrases. */
export function expressionOf(shape: Shape): string {
  switch (shape.kind) {
    case 'text':
      return quoted(shape.text);
    case 'character':
      return `[${shape.class}]`;
    case 'sequence':
      return shape.parts.map(expressionOf).join('');
    case 'choice':
      return `(?:${shape.options.map(expressionOf).join('|')})`;
    case 'optional':
      return `(?:${expressionOf(shape.of)})?`;
    case 'repeated':
      return shape.separator === undefined
        ? `(?:${expressionOf(shape.of)})+`
        : `${expressionOf(shape.of)}(?:${expressionOf(shape.separator)}${expressionOf(shape.of)})*`;
    case 'token':
      return expressionOf(shape.body);
    case 'rule':
      throw new Error(`the token contains the rule ${shape.name}`);
  }
}
