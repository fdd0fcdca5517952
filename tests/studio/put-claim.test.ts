import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sourceText } from '../../src/diagnostics/index.js';
import { readLesson } from '../../src/lesson/index.js';
import { putClaim } from '../../src/studio/put-claim.js';
import type { Edit } from '../../src/studio/put-claim.js';
import { root } from '../workshop/bench.js';

/** `|` in the text is the cursor; in the result it stands where it comes to stand. */
function put(marked: string, sentence: string): string {
  const cursor = marked.indexOf('|');
  const text = marked.slice(0, cursor) + marked.slice(cursor + 1);
  const after = applied(text, putClaim(text, cursor, sentence));
  const at = putClaim(text, cursor, sentence).cursor;
  return `${after.slice(0, at)}|${after.slice(at)}`;
}
const applied = (text: string, { from, to, insert }: Edit): string =>
  text.slice(0, from) + insert + text.slice(to);

describe('a claim is written', () => {
  it.each([
    ['behind marked words', 'say: Hear [this]{|}.', 'say: Hear [this]{bar 1 is i|}.'],
    [
      'behind marked words of a block',
      'steps:\n  - say: >-\n      Hear [this]{|}.\n',
      'steps:\n  - say: >-\n      Hear [this]{bar 1 is i|}.\n',
    ],
    ['behind `because:`', 'because:|', 'because: bar 1 is i|'],
    ['behind `claim:`', '- { claim: |', '- { claim: bar 1 is i|'],
    [
      'behind a dash of the claims',
      'steps:\n  - claims:\n      - |\n',
      'steps:\n  - claims:\n      - bar 1 is i|\n',
    ],
    [
      'at the end of the claims of the step',
      'steps:\n  - title: O|ne\n    claims:\n      - bar 2 is V # so\n\n  - title: Two\n',
      'steps:\n  - title: One\n    claims:\n      - bar 2 is V # so\n      - bar 1 is i|\n\n  - title: Two\n',
    ],
    [
      'as far left as the other claims',
      'steps:\n- title: O|ne\n  claims:\n  - bar 2 is V\n  show: [keys]\n',
      'steps:\n- title: One\n  claims:\n  - bar 2 is V\n  - bar 1 is i|\n  show: [keys]\n',
    ],
    [
      'into brackets',
      'steps:\n  - title: O|ne\n    claims: ["bar 2 is V"]\n',
      'steps:\n  - title: One\n    claims: ["bar 2 is V", "bar 1 is i"|]\n',
    ],
    [
      'into empty claims',
      'steps:\n  - title: O|ne\n    claims:\n    say: Hear.\n',
      'steps:\n  - title: One\n    claims:\n      - bar 1 is i|\n    say: Hear.\n',
    ],
    [
      'into a step without claims',
      'steps:\n  - title: One\n    say: |-|\n      Hear.\n\n  - title: Two\n'.replace('|-|', '>-|'),
      'steps:\n  - title: One\n    say: >-\n      Hear.\n    claims:\n      - bar 1 is i|\n\n  - title: Two\n',
    ],
    ['at the cursor where there are no steps', 'title: One|\n', 'title: Onebar 1 is i|\n'],
  ])('%s', (_where, before, after) => {
    expect(put(before, 'bar 1 is i')).toBe(after);
  });

  it('in quotes where YAML would read it otherwise', () => {
    // YAML 1.2.2, section 7.3.3: ` #` begins a comment in a plain scalar.
    expect(put('steps:\n  - claims:\n      - |\n', 'bar 5 is #ivo7')).toBe(
      'steps:\n  - claims:\n      - "bar 5 is #ivo7"|\n',
    );
  });

  it('and read again, wherever the cursor stands, with nothing else changed', () => {
    const text = readFileSync(`${root}sample-lessons/mill-road.yaml`, 'utf8');
    const claimsOf = (lesson: string): readonly string[] =>
      (readLesson(sourceText('lesson.yaml', lesson)).value?.claims ?? []).map(claim => claim.text);
    const known = claimsOf(text);
    const sentence = fc.constantFrom('bar 3 has no C', 'bar 5 is #ivo7', 'bars 1-4 are in "altered.abc" new');
    fc.assert(
      fc.property(fc.nat(text.length), sentence, (cursor, words) => {
        const after = applied(text, putClaim(text, cursor, words));
        expect(claimsOf(after)).toHaveLength(known.length + 1);
        expect([...claimsOf(after)].sort()).toEqual([...known, words].sort());
      }),
      { numRuns: 60 },
    );
  });
});
