/** Lessons that nobody writes by hand: too long, too deep, too many of everything. Each ends in a finding. */
import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { catalogue, sourceText } from '../../src/diagnostics/index.js';
import { readLesson } from '../../src/lesson/index.js';

const head = 'format: 1\ntitle: T\nscore: a.abc\nhome: G major\nsteps:\n  - title: S\n    say: |\n      ';
const claims = `${head}Words.\n    claims:\n`;
const times = (count: number, text: (index: number) => string): string =>
  Array.from({ length: count }, (_, index) => text(index)).join('');

/** Nine references to nine references, nine times over: half a billion values in 400 characters. */
const multiplied = `a: &a [x]\n${[...'bcdefghij']
  .map(
    (name, index) =>
      `${name}: &${name} [${Array<string>(9)
        .fill(`*${'abcdefghi'.charAt(index)}`)
        .join(',')}]\n`,
  )
  .join('')}`;

const cases: readonly (readonly [string, string, string])[] = [
  ['a lesson of a million characters', 'x'.repeat(1_000_000), 'L0011'],
  ['lists in lists', `steps: ${'['.repeat(20_000)}`, 'L0015'],
  ['mappings in mappings', `steps: ${'{a: '.repeat(5_000)}`, 'L0015'],
  ['references that multiply', multiplied, 'L0012'],
  ['a reference that holds itself', 'steps: &a [*a]\n', 'L0007'],
  ['thousands of keys', times(8_000, index => `k${index}: 1\n`), 'L0016'],
  ['thousands of claims that are no texts', claims + times(2_000, () => '      - a: b: c\n'), 'L0016'],
  [
    'thousands of texts that begin with a bracket',
    claims + times(1_000, () => '      - [a]{b} c\n'),
    'L0005',
  ],
  ['thousands of open quotation marks', 'a: "\n'.repeat(2_000), 'L0015'],
  ['brackets in narration', head + '['.repeat(50_000), 'L0306'],
  ['stress in narration', `${head}${'*a **a '.repeat(20_000)}`, 'L0306'],
];

describe('a lesson without measure', () => {
  it.each(cases)('%s', (_, text, code) => {
    const { diagnostics } = readLesson(sourceText('lesson.yaml', text));
    expect(diagnostics.map(finding => finding.code)).toContain(code);
    expect(diagnostics.length).toBeLessThanOrEqual(201);
  });

  it.each([
    ['brackets', '['],
    ['brackets with words', '[a'],
    ['brackets closed', '[a]{'],
    ['braces', ']{'],
    ['pictures', '!['],
    ['links', '[a](b'],
    ['stress', '*a **a '],
    ['code', '`a``b```'],
    ['HTML', '<a '],
    ['lists', '- '],
    ['backslashes', '\\'],
  ])('as much narration as is read, nothing but %s', (_, piece) => {
    const narration = piece.repeat(Math.floor(9_900 / piece.length));
    const { diagnostics } = readLesson(sourceText('lesson.yaml', `${head}${narration}\n`));
    expect(diagnostics.map(({ code }) => code)).not.toContain('L0306');
  });

  it('does not touch the prototype of objects', () => {
    const text = `${head}Words.\n__proto__: { polluted: 1 }\nlexicon: { __proto__: x, constructor: y }\n`;
    const { value, diagnostics } = readLesson(sourceText('lesson.yaml', text));
    expect(diagnostics.map(({ code }) => code)).toEqual(['L0101']);
    expect('polluted' in {}).toBe(false);
    expect(Object.entries(value?.lexicon ?? {})).toEqual([
      ['__proto__', 'x'],
      ['constructor', 'y'],
    ]);
  });
});

describe('the findings about lessons', () => {
  it('are all raised by a lesson of the tests', () => {
    const fixtures = fileURLToPath(new URL('../fixtures/', import.meta.url));
    const shown = ['lesson', 'check']
      .flatMap(kind =>
        readdirSync(fixtures + kind).map(
          name => `${fixtures}${kind}/${name}/expected.${kind === 'lesson' ? 'txt' : 'json'}`,
        ),
      )
      .flatMap(path => [...readFileSync(path, 'utf8').matchAll(/\bL\d{4}\b/g)].map(([code]) => code));
    // What `--unchecked` lists is asked for: tests/output/check-report.test.ts.
    const askedFor = ['L0505', 'L0506'];
    const raised = new Set([...shown, ...askedFor, ...cases.map(([, , code]) => code)]);
    expect(Object.keys(catalogue).filter(code => code.startsWith('L') && !raised.has(code))).toEqual([]);
  });
});
