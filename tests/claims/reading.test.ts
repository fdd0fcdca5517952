import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { exampleSentences } from '../../src/claims/examples.js';
import { startReading } from '../../src/claims/grammar/index.js';
import { longestClaim, readClaim } from '../../src/claims/index.js';
import { isOpinion } from '../../src/claims/opinion.js';
import { claim } from '../../src/claims/sentence.js';
import { isUnread, parseRomanNumeral, readChordSymbol } from '../../src/harmony/index.js';
import { chordSymbol } from '../../src/claims/terms/chord-name.js';
import { numeralShape } from '../../src/claims/terms/numeral.js';
import { textsOf } from './sentences.js';

function read(text: string) {
  const result = readClaim(text);
  if ('problem' in result)
    throw new Error(`${text}: at ${String(result.problem.at)}: ${result.problem.help}`);
  return result.claim;
}

describe('reading and printing', () => {
  test('every sentence of the grammar is read, and its printed form is the same claim', () => {
    fc.assert(
      fc.property(textsOf(claim.shape), text => {
        // Only neighbours may be joined by "and"; the grammar cannot say that of two numbers.
        const joined =
          /(?:\d[a-z]?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|teen|ty) (?:and|&)/u;
        fc.pre(!joined.test(text) && text.length <= longestClaim);
        // Nor can it say that the bass after a slash must be a tone of the chord.
        fc.pre(
          (text.match(/\b[A-G]\S*\/\S+/gu) ?? []).every(symbol => readChordSymbol(symbol) !== undefined),
        );
        // Nor which inversions, basses and targets a chord has.
        const ofChord = /inversion|root[ -]position|in the bass| over |\S of [A-GIViv]/u;
        fc.pre('claim' in readClaim(text) || !ofChord.test(text));
        const first = read(text);
        // A word of opinion, or of what no rule finds, makes such a sentence an opinion, in all or in part.
        fc.pre(!ofChord.test(text) || !isOpinion(first));
        const second = read(first.print());
        expect(second.content).toEqual(first.content);
        expect(second.print()).toBe(first.print());
      }),
      { numRuns: 2000 },
    );
  });

  test.each(exampleSentences)('%s is printed as it is written', text => {
    expect(read(text).print()).toBe(text);
  });

  test('every numeral and chord symbol of the grammar is read by the harmony stage', () => {
    fc.assert(
      fc.property(textsOf(numeralShape, 12, true), text => {
        expect(isUnread(parseRomanNumeral(text))).toBe(false);
      }),
      { numRuns: 1000 },
    );
    fc.assert(
      fc.property(textsOf(chordSymbol.shape), text => {
        const chord = readChordSymbol(text);
        // The grammar cannot tell which bass notes belong to the chord.
        expect(chord !== undefined || text.includes('/')).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });

  // Sentence shapes that lessons depend on, word for word.
  test.each([
    ['bar 3 beat 1 until bar 3 beat 2.5 is viio65/V in C minor', undefined],
    ['bar 1 beat 1 until bar 10 beat 4 is in A major', undefined],
    ['bar 8 beat 3 is a perfect authentic cadence in D major', undefined],
    ['bar 8 is an evaded cadence in F# minor', undefined],
    [
      'bar 3 beat 1 until bar 3 beat 1.6667 is viiø43/ii in G major',
      'bar 3 beat 1 until bar 3 beat 1 2/3 is viiø43/ii in G major',
    ],
    ['bar 5 is #vi in A minor', undefined],
    ['bar 5 is bVII7', undefined],
    ['bar 5 is IM65', undefined],
    ['bar 5 is N6', undefined],
    ['bar 5 is Ger65/V', undefined],
    ['bar 5 is V+', undefined],
    ['bar 5 is III+6', undefined],
    ['bar 5 is cad64', undefined],
    ['bar 5 is V6/5', 'bar 5 is V65'],
    ['bar 5 is vii°7/V', 'bar 5 is viio7/V'],
    ['bar 5 is ♭VI', 'bar 5 is bVI'],
    ['bar 5 is D7/F#', undefined],
    ['bar 5 is an A minor seventh chord', 'bar 5 is an A minor seventh chord'],
    ['measure 5 is a D minor triad in first inversion', 'bar 5 is a first-inversion D minor triad'],
    ['bar 5 is D minor', 'bar 5 is a D minor triad'],
    ['bar 5 is in D minor', undefined],
    ['bars 5–8 are in F sharp minor', 'bars 5-8 are in F# minor'],
    ['bars 5 to 8 are in B flat major', 'bars 5-8 are in Bb major'],
    ['bars 5-8 are in F♯ minor', 'bars 5-8 are in F# minor'],
    ['mm. 5-8 modulate to D major', 'bars 5-8 modulate to D major'],
    ['bar 5 contains F sharp and A', 'bar 5 has F# A'],
    ['bar 5 has F#, A and C', 'bar 5 has F# A C'],
    ['bar 5 is not V7', undefined],
    ["bar 5 isn't V7", 'bar 5 is not V7'],
    ['bars 5-8 don’t modulate to D major', 'bars 5-8 do not modulate to D major'],
    ['bar 3 is V7 and has C#', 'bar 3 is V7 and bar 3 has C#'],
    ['bar 3 is V7; bar 4 is I', 'bar 3 is V7 and bar 4 is I'],
    ['bar 3 and bar 5 are V7/V', 'bar 3 is V7/V and bar 5 is V7/V'],
    ['bar 8 is a half cadence.', 'bar 8 is a half cadence'],
    ['bar 8: V', 'bar 8 is V'],
    ['bar 8 = V', 'bar 8 is V'],
    ['measure thirty-two is i', 'bar 32 is i'],
    ['half-cadence in bar 8', 'bar 8 has a half cadence'],
    ['half cadence bar 8', 'bar 8 has a half cadence'],
    ['half cadence in bar 4, in C major', 'bar 4 has a half cadence in C major'],
    ['PAC in D major, m. 16', 'bar 16 has a perfect authentic cadence in D major'],
    ['bar 8 is a PAC in D major', 'bar 8 is a perfect authentic cadence in D major'],
    // Typography of word processors.
    ['bar 4 is B⁷/D♯', 'bar 4 is B7/D#'],
    ['bar 6 is E♯°⁷', 'bar 6 is E#dim7'],
    ['bar 6 is F♯ø⁷', 'bar 6 is F#m7b5'],
    ['“bar 1 is i in B minor”', 'bar 1 is i in B minor'],
    ['“bar 1 is i.”', 'bar 1 is i'],
    ['“bar 1 is D⁷/F♯”.', 'bar 1 is D7/F#'],
    ["'bar 1 is in D major'", 'bar 1 is in D major'],
    ['„bar 1 is V⁷“', 'bar 1 is V7'],
    ['«bar 1 has F♯»', 'bar 1 has F#'],
    ['“the mood of bar 3 is gloomy.”', 'the mood of bar 3 is gloomy'],
    // Case counts in names alone.
    ['Bar 8 Is A Half Cadence', 'bar 8 is a half cadence'],
    ['BAR 8 IS A HALF CADENCE IN B MINOR', 'bar 8 is a half cadence in B minor'],
    ['Bars 1-8 Are An 8-Bar Phrase', 'bars 1-8 are an 8-bar phrase'],
    ['Bar 1 Has F Sharp', 'bar 1 has F#'],
    ['Bar 5 Is In B Flat Major', 'bar 5 is in Bb major'],
    ['Bar 5 Is A Major Chord', 'bar 5 is an A major triad'],
    ['Bar 5 Is A', 'bar 5 is A'],
  ])('%s', (text, printed) => {
    expect(read(text).print()).toBe(printed ?? text);
  });
});

describe('a sentence that cannot be read', () => {
  test('points at the word and says what could stand there', () => {
    expect(readClaim('bar 5 is in D moll')).toEqual({
      problem: {
        code: 'C0001',
        at: 14,
        length: 4,
        message: 'cannot read `moll` here',
        expected: expect.arrayContaining(['the end of the claim']) as unknown,
        help: expect.stringMatching(/^after `bar 5 is in D` could stand /u) as unknown,
      },
    });
  });

  test('offers the word that was meant', () => {
    const result = readClaim('bars 5-8 modulats to D major');
    expect('problem' in result && result.problem).toMatchObject({
      at: 9,
      length: 8,
      message: 'cannot read `modulats` here',
      help: 'did you mean `bars 5-8 modulate to D major`?',
    });
  });

  test('stops inside a numeral', () => {
    const result = readClaim('bar 5 is V7/x');
    expect('problem' in result && result.problem).toMatchObject({ at: 12, length: 1 });
  });

  test('breaks off at the end', () => {
    const result = readClaim('bar 5 is');
    expect('problem' in result && result.problem).toMatchObject({
      at: 8,
      length: 0,
      message: 'the claim breaks off here',
    });
  });

  // The usual statements come first, the author's own sentence mended where it can be.
  test.each([
    [
      'bar 2 ',
      'after `bar 2` could stand `is V65/V`, `is D7/F#`, `is a D minor seventh chord`, `is in D major`, `is a half cadence`, `has C#`, ',
    ],
    ['bar 2 is', 'after `bar 2 is` could stand `V65/V`, `D7/F#`, `a D minor seventh chord`, `in D major`, '],
    ['bars 1-8 are in', 'after `bars 1-8 are in` could stand `D major`, '],
    ['bars 1-8', 'after `bars 1-8` could stand `are V65/V`, '],
    ['bar 2 has', 'after `bar 2 has` could stand `C#`, `a suspension`, '],
    ['the bass of bar 2', 'after `the bass of bar 2` could stand `is D5`, `has C#`, '],
    [
      'the soprano and the bass of bar 2',
      'after `the soprano and the bass of bar 2` could stand `are a major third apart`, `move in contrary motion`, ',
    ],
    ['bar 8 half-cadence', 'did you mean `bar 8 is a half cadence`?'],
    ['bar 8 is a haf cadence', 'did you mean `bar 8 is a half cadence`?'],
    // What is left of it without some words; never without one that turns it round or belongs to a symbol.
    [
      'bar 24 is a half cadence that prepares the return',
      'did you mean `bar 24 is a half cadence`? That leaves out `that prepares the return`',
    ],
    ['bar 5 is V7 moll', 'after `bar 5 is V7` could stand '],
    ['bar 5 is hardly ever not V', 'after `bar 5 is` could stand '],
  ])('%s: %s', (text, help) => {
    const result = readClaim(text);
    expect('problem' in result ? result.problem.help.slice(0, help.length) : result.claim.print()).toBe(help);
  });

  test('of more than can be read at once, the help says where the rest stands, and a figure is no matter of taste', () => {
    const result = readClaim('bar 2 is 6/5/x');
    expect('problem' in result && result.problem.help).toMatch(
      / or others \(see `lesson-schema\/claim-language\.md`\)/u,
    );
    expect('problem' in result && result.problem.help).not.toContain('opinion:');
  });

  test('a fragment without a place gets a whole sentence to begin from', () => {
    const result = readClaim('half-cadence');
    expect('problem' in result && result.problem.help).toMatch(
      /the nearest sentence that can be checked: `bar 8 is a half cadence`$/u,
    );
  });

  test('is refused when it is too long, before any reading', () => {
    const result = readClaim(`bar 5 has ${'F# '.repeat(1000)}`);
    expect('problem' in result && result.problem).toMatchObject({ code: 'C0002', at: longestClaim });
  });

  test('whatever it holds, reading does not throw', () => {
    const words = fc.constantFrom(
      'bar',
      'bars',
      '5',
      '-',
      'beat',
      'is',
      'V7/V',
      'in',
      'D',
      'major',
      'and',
      'has',
      'only',
      'the',
      ',',
      '"',
    );
    fc.assert(
      fc.property(fc.array(words, { maxLength: 30 }), parts => {
        const result = readClaim(parts.join(' '));
        expect('claim' in result || result.problem.at <= parts.join(' ').length).toBe(true);
      }),
      { numRuns: 500 },
    );
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), text => {
        expect('problem' in readClaim(text)).toBe(true);
      }),
    );
  });

  test.each([
    ['bar 1 is V and ', 'bar 1 is V'],
    ['bar 5 has ', 'F# '],
    ['', 'bar 1 and '],
    ['bar 5 is V', '/V'],
    ['bar ', '1-'],
    ['bar 5 is in in in', ' in'],
    ['', '('],
    ['', ' '],
    ['voice "', 'x'],
  ])('costs no more than its length: %s%s...', (head, repeated) => {
    const cost = (times: number) => {
      const text =
        head +
        (head.endsWith('and ')
          ? Array.from({ length: times }, () => repeated).join(' and ')
          : repeated.repeat(times));
      const reading = startReading(text.slice(0, longestClaim));
      claim.read(reading, 0);
      return reading.asked / Math.min(text.length, longestClaim);
    };
    expect(cost(40)).toBeLessThan(3 * cost(10) + 1);
  });
});
