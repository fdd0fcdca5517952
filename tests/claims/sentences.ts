import fc from 'fast-check';
import type { Shape } from '../../src/claims/grammar/index.js';

/** Characters of a class such as `A-Za-z0-9_`; of an excluding class, plain letters. */
function charactersOf(of: string): readonly string[] {
  if (of.startsWith('^')) return [...'abc XYZ'];
  const found: string[] = [];
  for (let at = 0; at < of.length; at++) {
    if (of[at + 1] === '-' && at + 2 < of.length) {
      for (let code = of.charCodeAt(at); code <= of.charCodeAt(at + 2); code++)
        found.push(String.fromCharCode(code));
      at += 2;
    } else found.push(of.charAt(at));
  }
  return found;
}

/**
 * Texts that a shape allows, as the grammar prints it: a sentence that the grammar allows and the parser refuses is a fault of
 * one of the two. `depth` bounds rules that contain themselves.
 */
export function textsOf(shape: Shape, depth = 12, inToken = false): fc.Arbitrary<string> {
  const join = (parts: readonly string[]): string =>
    inToken ? parts.join('') : parts.filter(part => part !== '').join(' ');
  switch (shape.kind) {
    case 'text':
      return fc.constant(shape.text);
    case 'character':
      return fc.constantFrom(...charactersOf(shape.class));
    case 'sequence':
      return fc.tuple(...shape.parts.map(part => textsOf(part, depth - 1, inToken))).map(join);
    case 'choice':
      return fc.oneof(...shape.options.map(option => textsOf(option, depth - 1, inToken)));
    case 'optional':
      return fc.oneof(fc.constant(''), textsOf(shape.of, depth - 1, inToken));
    case 'repeated': {
      const one = textsOf(shape.of, depth - 1, inToken);
      if (shape.separator === undefined) return fc.array(one, { minLength: 1, maxLength: 2 }).map(join);
      const more = fc.tuple(textsOf(shape.separator, depth - 1, inToken), one).map(join);
      return fc.tuple(one, fc.array(more, { maxLength: 1 })).map(([first, rest]) => join([first, ...rest]));
    }
    case 'rule':
      return fc.constant(undefined).chain(() => textsOf(shape.body(), depth - 1, inToken));
    case 'token':
      return textsOf(shape.body, depth - 1, true);
  }
}
