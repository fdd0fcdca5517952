import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { displayWidth, harmless, wrap } from '../../src/diagnostics/index.js';

describe('columns of a text in a terminal', () => {
  // Classes W and F of UAX #11 (East Asian Width) take two columns, combining marks none; emoji by UTS #51.
  it.each([
    ['plain', 'C#5', 3],
    ['accented letters, one code point', 'Dvořák', 6],
    ['accented letters, combining', 'Dvor\u030Ca\u0301k', 6],
    ['Han', '音楽', 4],
    ['Hangul', '음악', 4],
    ['full width', 'ＡＢ', 4],
    ['musical signs', 'F♯ B♭ 𝄪', 7],
    ['emoji', '🎵', 2],
    ['emoji of several parts', '👩‍🎤', 2],
    ['zero width space', 'a\u200Bb', 2],
    ['nothing', '', 0],
  ])('%s', (_, text, width) => {
    expect(displayWidth(text)).toBe(width);
  });
});

describe('text from a file', () => {
  it('cannot command a terminal or hide its order', () => {
    // ECMA-48 control functions begin with ESC or a C1 character; bidirectional controls are listed in UAX #9.
    expect(harmless('a\u001B[31mb\u0007\u009B2J\u202Ecba\u2066')).toBe('a�[31mb��2J�cba�');
    expect(harmless('tab\tand line\nstay')).toBe('tab\tand line\nstay');
  });
});

describe('wrapping', () => {
  it('keeps every word and stays within the width', () => {
    const word = fc.stringMatching(/^[a-z♯音]{1,12}$/);
    fc.assert(
      fc.property(fc.array(word, { minLength: 1 }), fc.integer({ min: 1, max: 60 }), (words, width) => {
        const lines = wrap(words.join(' '), width);
        expect(lines.join(' ')).toBe(words.join(' '));
        for (const line of lines) expect(displayWidth(line) <= width || !line.includes(' ')).toBe(true);
      }),
    );
  });

  it('keeps line ends', () => {
    expect(wrap('one two\n\nthree', 20)).toEqual(['one two', '', 'three']);
  });
});
