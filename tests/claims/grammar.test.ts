import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  choice,
  end,
  list,
  map,
  mark,
  optional,
  printGrammar,
  rule,
  sequence,
  shapes,
  startReading,
  token,
  word,
} from '../../src/claims/grammar/index.js';
import type { Parser } from '../../src/claims/grammar/index.js';

const digit = token({
  name: 'Digit',
  label: 'a digit',
  shape: shapes.character('0-9'),
  value: matched => Number(matched),
});
const colour = word('red', 'crimson');
const sentence: Parser<readonly [number, readonly string[]]> = rule('Sentence', () =>
  map(
    sequence(
      rule('Count', () => digit, 'a count'),
      list(colour, mark(',')),
      optional(word('please')),
      end,
    ),
    ([count, colours]) => [count, colours] as const,
  ),
);

const read = (text: string) => sentence.read(startReading(text), 0);

describe('the parser kit', () => {
  test('gives the canonical spelling, whatever was typed', () => {
    expect(read(' 3 Crimson ,RED please').steps).toEqual([{ value: [3, ['red', 'red']], end: 22 }]);
  });

  test('a word ends where a letter does not follow', () => {
    expect(read('3 reddish').steps).toEqual([]);
  });

  test('says how far it came and what could have stood there', () => {
    expect(read('3 red, blue').failure).toEqual({ at: 7, expected: ['`red`'] });
    expect(read('3 red now').failure).toEqual({
      at: 6,
      expected: ['`,`', '`please`', 'the end of the claim'],
    });
  });

  test('a rule that is stuck at its start is called by its label', () => {
    expect(read('x red').failure).toEqual({ at: 0, expected: ['a count'] });
  });

  test('reads what is ambiguous until the whole sentence decides', () => {
    const short = map(word('d'), () => 'chord');
    const long = map(sequence(word('d'), word('minor')), () => 'key');
    const both = sequence(choice(short, long), end);
    expect(both.read(startReading('d minor'), 0).steps.map(step => step.value[0])).toEqual(['key']);
    expect(both.read(startReading('d'), 0).steps.map(step => step.value[0])).toEqual(['chord']);
  });

  // Notation: Extensible Markup Language (XML) 1.0 (Fifth Edition), section 6.
  test('prints itself as a grammar', () => {
    expect(printGrammar(sentence.shape))
      .toBe(`/* Phrases: words are separated by white space; the case of a word in quotes does not matter. */

Sentence ::= Count ( ( "red" | "crimson" ) ( "," ( "red" | "crimson" ) )* ) "please"?

Count ::= Digit

/* Tokens: no white space unless it is written; upper and lower case are different. */

Digit ::= [0-9]
`);
  });

  test('reading a rule twice at one place asks its parser once', () => {
    const inner = rule('Inner', () => list(colour, mark(',')));
    const options = Array.from({ length: 20 }, (_, at) => sequence(inner, word(`x${String(at)}`)));
    const one = startReading('red, red, red');
    sequence(inner, word('x0')).read(one, 0);
    const many = startReading('red, red, red');
    choice(...options).read(many, 0);
    expect(many.asked).toBeLessThan(one.asked + 5 * options.length);
  });

  test('what is typed at random never throws', () => {
    fc.assert(
      fc.property(fc.string(), text => {
        expect(read(text).failure.at).toBeLessThanOrEqual(text.length);
      }),
    );
  });
});
