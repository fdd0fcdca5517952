/**
 * Edit distance with swapped neighbours (optimal string alignment): Damerau, A technique for computer detection and
 * correction of spelling errors, Communications of the ACM 7 (1964), whose four kinds of error are the first rows.
 */
import { describe, expect, it } from 'vitest';
import { didYouMean, nearestWord } from '../../src/diagnostics/index.js';

const keys = ['title', 'bars', 'home', 'say', 'script', 'show', 'claims'];

describe('the word that was meant', () => {
  it.each([
    ['a wrong letter', 'clarms', 'claims'],
    ['a letter missing', 'scipt', 'script'],
    ['a letter too many', 'claiims', 'claims'],
    ['two letters swapped', 'tilte', 'title'],
    ['another case', 'Claims', 'claims'],
    ['spaces around it', ' bars ', 'bars'],
    ['three letters, one wrong', 'sya', 'say'],
    ['nothing near', 'xyzzy', undefined],
    ['an empty word', '', undefined],
    ['a very long word', 'claims'.repeat(20), undefined],
  ])('is found with %s', (_, typed, meant) => {
    expect(nearestWord(typed, keys)).toBe(meant);
  });

  it('is the nearest of several', () => {
    expect(nearestWord('chord', ['chords', 'keys', 'cords'])).toBe('chords');
  });

  it('becomes a question', () => {
    expect(didYouMean('tilte', keys)).toBe('did you mean `title`?');
    expect(didYouMean('xyzzy', keys)).toBeUndefined();
  });
});
