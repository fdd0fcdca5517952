/**
 * The exported schema and the reader agree. The schema is judged by an independent implementation of JSON Schema 2020-12
 * (https://json-schema.org/draft/2020-12), the YAML by the YAML library.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { sourceText } from '../../src/diagnostics/index.js';
import type { Code } from '../../src/diagnostics/index.js';
import { lessonJsonSchema, readLesson } from '../../src/lesson/index.js';

const validate = new Ajv2020({ strictSchema: true, strictTuples: true, allErrors: true }).compile(
  lessonJsonSchema(),
);

/** What no JSON Schema can say: how values of one lesson fit each other, and what stands inside a text. */
const beyondSchema: ReadonlySet<Code> = new Set<Code>([
  'L0202',
  'L0203',
  'L0206',
  'L0301',
  'L0302',
  'L0303',
  'L0304',
  'L0305',
  'L0306',
  'L0401',
]);

function readerAccepts(lesson: unknown): boolean {
  const { diagnostics } = readLesson(sourceText('lesson.yaml', stringify(lesson)));
  return diagnostics.every(({ code, severity }) => severity !== 'error' || beyondSchema.has(code));
}

const base = { format: 1, title: 'T', score: 'a.abc', home: 'G major' };
const step = (rest: object) => ({ ...base, steps: [{ title: 'S', ...rest }] });
const action = (one: unknown) => step({ script: [one] });

const good: readonly [string, unknown][] = [
  ['the least lesson', { ...base, steps: [{ title: 'S' }] }],
  [
    'every key',
    {
      ...base,
      author: 'A',
      description: 'D',
      beat: 'dotted quarter',
      tempo: 66.5,
      lexicon: { a: 'b' },
      conventions: {
        'seventh-on-I': 'minor',
        cadential: 'I64',
        'inverted-authentic': 'none',
        'half-on-V7': 'none',
        'cadence-names': 'UK',
        'iii-and-vi': 'prolongation',
      },
      narrator: { voice: 'built-in', pace: 100 },
      sound: { instrument: 'organ', voices: { T: 'cello' }, pedal: true },
      pacing: {
        'fastest-speech': 190,
        'caption-word': 0.25,
        'longest-talk': 40,
        overrun: 1,
        'before-example': 0.6,
        'after-example': 1.5,
        thinking: 8,
      },
      steps: [
        {
          title: 'S',
          bars: '1-4',
          home: 'F# minor',
          show: ['chords', 'non-chord tones'],
          say: 'Listen.',
          claims: [],
        },
      ],
    },
  ],
  ['bars as a number', step({ bars: 0 })],
  ['bars with endings', step({ bars: '8a-8b' })],
  ['bars with a dash', step({ bars: '1 – 4' })],
  [
    'every play key',
    action({
      play: { bars: 3, as: 'stack', tempo: 50, voice: 'RH', score: 'b.abc', times: 2, loop: 3, under: true },
    }),
  ],
  ['wait in seconds', action({ wait: 1.5 })],
  ['wait with a unit', action({ wait: '500 ms' })],
  ['ask without choices', action({ ask: 'Q?', answer: 'A' })],
  [
    'ask with numbers',
    action({ ask: 'Q?', choices: [1, 2], answer: 2, because: { claim: 'bar 1 is I', accept: 'so it is' } }),
  ],
  ['a claim with a reason', step({ claims: ['bar 1 is I', { claim: 'bar 2 is V', accept: 'so it is' }] })],
  ['a flat key in words', { ...base, home: 'B flat major', steps: [{ title: 'S' }] }],
];

const bad: readonly [string, unknown][] = [
  ['nothing', {}],
  ['a list', []],
  ['no steps', base],
  ['empty steps', { ...base, steps: [] }],
  ['format 2', { ...base, format: 2, steps: [{ title: 'S' }] }],
  ['format as text', { ...base, format: '1', steps: [{ title: 'S' }] }],
  ['an unknown key', { ...step({}), tempi: 60 }],
  ['an unknown key in a step', step({ bar: 3 })],
  ['an unknown convention', { ...step({}), conventions: { cadence: 'UK' } }],
  ['an unknown word', { ...step({}), beat: 'quater' }],
  ['an empty title', { ...base, title: ' ', steps: [{ title: 'S' }] }],
  ['a number as title', { ...base, title: 12, steps: [{ title: 'S' }] }],
  ['tempo as text', { ...step({}), tempo: '66' }],
  ['tempo 0', { ...step({}), tempo: 0 }],
  ['a key without mode', { ...base, home: 'G', steps: [{ title: 'S' }] }],
  ['a small key', { ...base, home: 'g minor', steps: [{ title: 'S' }] }],
  ['negative bars', step({ bars: -1 })],
  ['half a bar', step({ bars: 1.5 })],
  ['bars in words', step({ bars: '1 to 4' })],
  ['bars as a list', step({ bars: [1, 4] })],
  ['say and script', step({ say: 'Listen.', script: [{ play: 1 }] })],
  ['an empty script', step({ script: [] })],
  ['an empty say', step({ say: '' })],
  ['an action as text', action('play')],
  ['two actions in one', action({ play: 1, say: 'Listen.' })],
  ['no such action', action({ sing: 1 })],
  ['play without bars', action({ play: { as: 'stack' } })],
  ['play twenty-one times', action({ play: { bars: 1, times: 21 } })],
  ['under as text', action({ play: { bars: 1, under: 'yes' } })],
  ['a key beside play', action({ play: 1, as: 'stack' })],
  ['a long wait', action({ wait: 61 })],
  ['an instrument that is none', { ...step({}), sound: { instrument: 'kazoo' } }],
  ['a voice with an instrument that is none', { ...step({}), sound: { voices: { T: 'kazoo' } } }],
  ['pedal as text', { ...step({}), sound: { pedal: 'yes' } }],
  ['a pace that is none', { ...step({}), pacing: { 'longest-talk': 'long' } }],
  ['an unknown pace', { ...step({}), pacing: { slowest: 1 } }],
  ['once round', action({ play: { bars: 1, loop: 1 } })],
  ['a wait in words', action({ wait: 'a moment' })],
  ['ask without answer', action({ ask: 'Q?', choices: ['a', 'b'] })],
  ['one choice', action({ ask: 'Q?', choices: ['a'], answer: 'a' })],
  ['a truth value as choice', action({ ask: 'Q?', choices: ['a', true], answer: 'a' })],
  ['nothing as answer', action({ ask: 'Q?', answer: null })],
  ['a claim as number', step({ claims: [1] })],
  ['an empty claim', step({ claims: [''] })],
  ['a claim with an unknown key', step({ claims: [{ claim: 'bar 1 is I', except: 'so it is' }] })],
  ['a reason without claim', step({ claims: [{ accept: 'so it is' }] })],
  ['claims as text', step({ claims: 'bar 1 is I' })],
  ['show as word', step({ show: 'chords' })],
  ['an unknown label', step({ show: ['chord'] })],
  ['a number as spoken form', { ...step({}), lexicon: { a: 1 } }],
  ['pace as word', { ...step({}), narrator: { pace: 'fast' } }],
  ['an unknown voice', { ...step({}), narrator: { voice: 'alto' } }],
];

describe('the exported schema', () => {
  it('is current: npx tsx scripts/write-schema.ts', () => {
    const file = fileURLToPath(new URL('../../lesson-schema/lesson.schema.json', import.meta.url));
    expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual(lessonJsonSchema());
  });

  it('tells an editor what every key is for', () => {
    const undescribed: string[] = [];
    const visit = (node: unknown, path: string): void => {
      if (typeof node !== 'object' || node === null) return;
      const { properties } = node as { properties?: Record<string, { description?: string }> };
      for (const [key, value] of Object.entries(properties ?? {})) {
        const alternatives = (value as { anyOf?: { description?: string }[] }).anyOf ?? [];
        const described =
          value.description ?? alternatives.find(one => one.description !== undefined)?.description;
        if (described === undefined) undescribed.push(`${path}/${key}`);
      }
      for (const [key, value] of Object.entries(node)) visit(value, `${path}/${key}`);
    };
    visit(lessonJsonSchema(), '');
    expect(undescribed).toEqual([]);
  });

  it.each(good)('and the reader accept %s', (_, lesson) => {
    expect({ schema: validate(lesson), reader: readerAccepts(lesson) }).toEqual({
      schema: true,
      reader: true,
    });
  });

  it.each(bad)('and the reader refuse %s', (_, lesson) => {
    expect({ schema: validate(lesson), reader: readerAccepts(lesson) }).toEqual({
      schema: false,
      reader: false,
    });
  });

  it('agrees with the reader on lessons with a value put somewhere', () => {
    const places = good.flatMap(([, lesson]) => pathsOf(lesson).map(path => ({ lesson, path })));
    const values = fc.constantFrom<unknown>(
      null,
      true,
      0,
      1,
      3,
      -1,
      2.5,
      500,
      '',
      ' ',
      'text',
      '1-4',
      '8a',
      'G major',
      'F# minor',
      '1 s',
      'stack',
      'chords',
      'built-in',
      'US',
      'none',
      [],
      ['a', 'b'],
      [1],
      {},
      { bars: 1 },
      { claim: 'bar 1 is I' },
      [{ play: 1 }],
      [{ title: 'S' }],
      undefined,
    );
    fc.assert(
      fc.property(fc.constantFrom(...places), values, fc.boolean(), ({ lesson, path }, value, rename) => {
        const changed = rename ? withKey(lesson, path, 'zzz') : withValue(lesson, path, value);
        expect({ lesson: changed, accepts: readerAccepts(changed) }).toEqual({
          lesson: changed,
          accepts: validate(changed),
        });
      }),
      { numRuns: 3000 },
    );
  });
});

type Path = readonly (string | number)[];

function pathsOf(node: unknown, path: Path = []): readonly Path[] {
  if (typeof node !== 'object' || node === null) return [];
  const keys: readonly (string | number)[] = Array.isArray(node)
    ? node.map((_, index) => index)
    : Object.keys(node);
  return keys.flatMap(key => [
    [...path, key],
    ...pathsOf((node as Record<string | number, unknown>)[key], [...path, key]),
  ]);
}

/** A copy with a value put at a path; `undefined` removes the key. */
function withValue(node: unknown, [key, ...rest]: Path, value: unknown): unknown {
  if (key === undefined) return value;
  if (Array.isArray(node)) {
    return node.flatMap((item: unknown, index) => {
      if (index !== key) return [item];
      const changed = withValue(item, rest, value);
      return changed === undefined ? [] : [changed];
    });
  }
  return Object.fromEntries(
    Object.entries(node as object)
      .map(([name, item]): [string, unknown] => [name, name === key ? withValue(item, rest, value) : item])
      .filter(([, item]) => item !== undefined),
  );
}

/** A copy with the key at a path renamed; an item of a list is doubled instead. */
function withKey(node: unknown, [key, ...rest]: Path, name: string): unknown {
  if (Array.isArray(node)) {
    return node.flatMap((item: unknown, index) =>
      index !== key ? [item] : rest.length === 0 ? [item, item] : [withKey(item, rest, name)],
    );
  }
  return Object.fromEntries(
    Object.entries(node as object).map(([one, item]): [string, unknown] =>
      one !== key ? [one, item] : rest.length === 0 ? [name, item] : [one, withKey(item, rest, name)],
    ),
  );
}
