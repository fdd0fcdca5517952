import { expect, test } from 'vitest';
import { fitted } from '../../src/cli/terminal.js';

const body = 'one\ntwo\nthree\nfour\nfive\n';
const foot = 'counts\nwatching 1 lesson\n';

test('a report that a screen can show is shown whole', () => {
  expect(fitted(body, foot, 8)).toBe(body + foot);
});

test('of a taller one the beginning and the foot stay in sight', () => {
  const text = fitted(body, foot, 6);
  expect(text).toBe('one\ntwo\n... 3 more lines: see them without `--watch`\ncounts\nwatching 1 lesson\n');
  expect(text.split('\n').length).toBe(6);
});
