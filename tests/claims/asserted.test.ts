/** Which words of a narration say outright that something is so. Cases are common English (from memory). */
import { describe, expect, test } from 'vitest';
import { isAsserted } from '../../src/claims/index.js';

const cadence = 'a half cadence';
const asserted = (text: string): boolean => {
  const words = text.includes(cadence) ? cadence : 'half cadence';
  const from = text.indexOf(words);
  return isAsserted(text, from, from + words.length);
};

describe('a statement in a narration', () => {
  test.each([
    'The phrase ends with a half cadence.',
    'Listen. Here we reach a half cadence, and the music breathes.',
    'Not a full close. The phrase ends with a half cadence.',
    'Is it over? We have a half cadence here.',
    'A half cadence, a question.\n\nWill it be answered? Here is a half cadence.',
  ])('is made by: %s', text => {
    expect(asserted(text)).toBe(true);
  });

  test.each([
    'This is not a half cadence.',
    "It isn't a half cadence at all.",
    'We hear no pause and never a half cadence.',
    'Is this a half cadence?',
    'One would expect a half cadence.',
    'Instead of a half cadence the music runs on.',
    'It sounds like a half cadence.',
    'After a half cadence the tune begins again.',
    'Bar 4 had a half cadence.',
    'Listen to the half cadence of the first phrase.',
    'Is it a close or a half cadence; or both?',
  ])('is not made by: %s', text => {
    expect(asserted(text)).toBe(false);
  });

  test('names its own bar itself', () => {
    const text = 'In the end bar 8 is a half cadence.';
    const from = text.indexOf('bar 8');
    expect(isAsserted(text, from, text.length - 1)).toBe(true);
  });
});
