/** What tells taste and history from a claim with a slip in it. The sentences of both sorts are in tests/fixtures/claims/P-opinion.yaml (from memory). */
import { describe, expect, test } from 'vitest';
import { readClaim } from '../../src/claims/index.js';
import { ask, contextOf } from './asking.js';
import { scoreNamed } from './scores.js';

const context = () => contextOf(scoreNamed('mill-road'), { home: 'B minor' });

describe('a claim with a slip beside a word of taste', () => {
  test.each<[string, string, string]>([
    ['bar 8 is a beautiful half cadance', 'cadance', 'did you mean `cadence`?'],
    ['bar 8 is a lovely haf cadence', 'haf', 'did you mean `half`?'],
    ['the waltz is in B minro', 'minro', 'did you mean `minor`?'],
    ['the theme is in D majr', 'majr', 'did you mean `major`?'],
    ['listen to the suspention in bar 3', 'suspention', 'did you mean `suspension`?'],
    ['bar 6 is an expressive viiio7/V', 'viiio7/V', 'a Roman numeral such as `V65/V`'],
    ['the beautiful chord of bar 6 is viio7/W', 'W', 'a Roman numeral I to VII'],
    ['bar 8 is beautifull', 'beautifull', 'did you mean `beautiful`? That would be a matter of taste'],
    ['bar 5 was iv', 'was', 'did you mean `bar 5 is iv`?'],
    ['bar 30 means Ger65', 'means', 'did you mean `bar 30 is Ger65`?'],
    ['bar 21 creates a dominant pedal', 'creates', 'did you mean `bar 21 has a dominant pedal`?'],
    ['bar 2 seems V43', 'seems', 'did you mean `bar 2 is V43`?'],
    // A word that no list has may be one of taste: the author can say so.
    ['bar 5 is zingy', 'zingy', 'if it is a matter of taste or history, begin it with `opinion:`'],
    ['the suspension in bar 2 aches', 'aches', 'begin it with `opinion:`'],
    // What speaks of keys, relations and counts is of the trade where no sentence says it so.
    ['the E flat in bar 12 is lent by the parallel minor', 'lent', ''],
    ['minor iv appears three times', 'iv', ''],
    ['F natural and F# make a cross relation', 'cross', ''],
  ])('%s: the error is at `%s`', (text, word, help) => {
    const read = readClaim(text);
    if ('claim' in read) throw new Error(`read as ${read.claim.print()}`);
    const { at, length, help: given } = read.problem;
    expect(text.slice(at, at + length)).toBe(word);
    expect(given).toContain(help);
  });
});

describe('the reason says what the sentence is about', () => {
  test.each([
    ['bar 6 is ugly', 'taste'],
    ['the suspension in bar 3 is painful', 'feeling'],
    ['the piece was written in 1890', 'history'],
    ['the augmented sixth was chosen for effect', 'intention'],
    ['bar 13 should be played softly', 'manner of performance'],
    ['nobody expects bar 29', 'what listeners expect'],
    ['play bar 13 softly', 'an instruction'],
  ])('%s: %s', (text, matter) => {
    const { verdict, code, reason } = ask(text, context());
    expect([verdict, code, reason]).toEqual([
      'undecided',
      'C0008',
      expect.stringMatching(new RegExp(`^${matter} is not in the notes`, 'u')),
    ]);
  });
});

describe('what can be checked beside an opinion', () => {
  test.each<[string, string, string | undefined]>([
    ['bar 8 is a beautiful half cadence', 'undecided', 'bar 8 is a half cadence'],
    ['bar 8 is a beautiful deceptive cadence', 'fails', 'bar 8 is a half cadence'],
    ['in my opinion bar 29 is N6', 'undecided', 'bar 29 is N6'],
    ['notice that bar 4 is V65/V', 'fails', 'bar 4 is V65/iv and bar 12 is V65/V'],
    ['bar 8 is V and beautiful', 'undecided', undefined],
    ['bar 8 is IV and beautiful', 'fails', undefined],
    ['opinion: bar 8 is a deceptive cadence', 'fails', 'bar 8 is a half cadence'],
    // Not said of the whole piece.
    ['notice how the bass climbs', 'undecided', undefined],
  ])('%s: %s', (text, verdict, nearest) => {
    const answer = ask(text, context());
    expect(answer.verdict).toBe(verdict);
    if (nearest !== undefined) expect(answer.nearest).toContain(nearest.split(' and ')[0]);
  });
});
