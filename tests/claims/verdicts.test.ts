import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { catalogue } from '../../src/diagnostics/index.js';
import { namedVersions, readClaim } from '../../src/claims/index.js';
import { ask, contextOf, scoreOnly } from './asking.js';
import { scoreNamed } from './scores.js';

const context = contextOf(
  scoreOnly(`X:1
M:3/4
L:1/4
K:G
V:1 name="Melody"
D | G A B | c2 ^c | z3 |: {B}A3 |1 G3 :|2 g3 |]
V:2 clef=bass name="Bass"
z | G,, D, D, | A,, E, E, | z3 |: D,3 |1 G,,3 :|2 G,3 |]
`),
  { home: 'G major' },
);

describe('every verdict', () => {
  test('gives the notes with voice, bar and beat, and where they stand in the source', () => {
    const { evidence } = ask('bar 2 beat 3 has C#5', context);
    expect(evidence).toEqual([
      {
        role: 'supports',
        pitch: 'C#5',
        voice: 'Melody',
        bar: '2',
        beat: '3',
        why: 'sounding',
        note: evidence[0]?.note,
        span: evidence[0]?.span,
      },
    ]);
    const span = evidence[0]?.span;
    expect(span?.source.text.slice(span.start, span.end).trim()).toBe('^c');
  });

  test('names a tone that never sounds as the claim names it', () => {
    expect(ask('bar 1 has G7', context).evidence[0]).toEqual({
      role: 'missing',
      pitch: 'G7',
      voice: '',
      bar: '1',
      beat: '1',
      why: 'never sounding',
    });
    expect(ask('the top line of bar 1 beat 1 is G7', context).evidence[0]).toMatchObject({ pitch: 'G7' });
    expect(ask('the G7 of bar 1 is a passing tone', context).evidence[0]).toMatchObject({ pitch: 'G7' });
    expect(ask('bar 1 has F#', context).evidence).toEqual([
      { role: 'missing', pitch: 'F#', voice: '', bar: '1', beat: '1', why: 'never sounding' },
    ]);
  });

  test('calls a grace note a grace note', () => {
    expect(ask('bar 4 has B', context).evidence.map(({ why }) => why)).toEqual(['grace note']);
  });

  test.each([
    ['bar 40 has G', 'C0003'],
    ['bar 40 has no G', 'C0003'],
    ['bar 40 does not have G', 'C0003'],
    ['bar 1 beat 4 has G', 'C0003'],
    ['the top line of bar 40 does not rise', 'C0003'],
    ['bars 3-2 have G', 'C0004'],
    ['every bar of bars 30-40 has G', 'C0003'],
  ])('%s: what is said of no place fails, affirmed or denied', (claim, code) => {
    expect(ask(claim, context)).toMatchObject({ verdict: 'fails', code, evidence: [] });
  });

  test.each(['the top line of bar 3 moves by step', 'the top line of bar 3 does not move by step'])(
    '%s: a silent place settles nothing, affirmed or denied',
    claim => {
      expect(ask(claim, context)).toMatchObject({ verdict: 'undecided', code: 'C0005' });
    },
  );

  test('a number that endings share asks for the letter', () => {
    expect(ask('bar 5 has G5', context)).toMatchObject({
      verdict: 'arguable',
      code: 'C0007',
      reason: 'the endings differ: it fails of bar 5a, it holds of bar 5b; name the one that is meant',
      nearest: 'bar 5b has G5',
    });
    expect(ask('bar 5 has G', context)).toMatchObject({ verdict: 'holds' });
  });

  test('names the note in the bass that speaks against an inversion', () => {
    const mill = contextOf(scoreNamed('mill-road'), { home: 'B minor', conventions: {} });
    const against = ask('bar 4 is V43/iv', mill).evidence.filter(({ role }) => role === 'contradicts');
    expect(against.map(({ pitch, why }) => [pitch, why])).toEqual([
      ['D#3', 'third of the chord, in the bass'],
    ]);
  });

  test('of several sentences is that of the weakest, and says which', () => {
    expect(ask('bar 1 has G and bar 2 has G', context)).toMatchObject({
      verdict: 'fails',
      reason: '`bar 2 has G`: G never sounds in bar 2',
      nearest: 'bar 1 has G',
    });
    expect(ask('bar 1 has G and the tenor of bar 1 is G', context).verdict).toBe('undecided');
    expect(ask('bar 1 has G and bar 2 has C#', context)).toMatchObject({ verdict: 'holds' });
  });

  test('of a denial is the opposite, with the notes turned round', () => {
    expect(ask('bar 1 does not have G', context)).toMatchObject({
      verdict: 'fails',
      nearest: 'bar 1 has G',
      evidence: [{ role: 'contradicts', pitch: 'G2' }],
    });
  });
});

test('against a chord that is refused stands all that belongs to the better one, and nothing of it is set aside', () => {
  const { evidence } = ask('bar 22 is V', contextOf(scoreNamed('mill-road'), { home: 'B minor' }));
  const of = (role: string) => evidence.filter(each => each.role === role);
  expect(of('set aside')).toEqual([]);
  expect([...new Set(of('contradicts').map(each => each.pitch.charAt(0)))].sort()).toEqual(['B', 'E', 'G']);
  expect(new Set(of('contradicts').map(each => each.why))).toEqual(new Set(['of Em, not of F#']));
});

test('the versions that a claim compares with are found, so that they can be loaded', () => {
  const versionsOf = (text: string) => {
    const read = readClaim(text);
    return 'claim' in read ? namedVersions(read.claim) : [];
  };
  expect(versionsOf('bar 1 is the same in "a.abc" and in "b.abc" bar 2 is I')).toEqual(['a.abc', 'b.abc']);
  expect(versionsOf('only bar 2 differs from "c.abc"')).toEqual(['c.abc']);
  expect(versionsOf('bar 1 is I')).toEqual([]);
});

describe('the catalogue of claims', () => {
  const files = readdirSync('src/claims', { recursive: true, encoding: 'utf8' }).filter(name =>
    name.endsWith('.ts'),
  );
  const used = new Set(
    files.flatMap(name => readFileSync(`src/claims/${name}`, 'utf8').match(/(?<=')C\d{4}(?=')/gu) ?? []),
  );

  test('explains every code that is used, and has none that is not', () => {
    const listed = Object.keys(catalogue).filter(code => code.startsWith('C'));
    expect([...used].sort()).toEqual(listed.sort());
  });

  test('has each code and each name once', () => {
    const folder = 'src/diagnostics/catalogue/claims';
    const text = readdirSync(folder)
      .map(name => readFileSync(`${folder}/${name}`, 'utf8'))
      .join('\n');
    const codes = text.match(/^ {2}C\d{4}(?=:)/gmu) ?? [];
    expect(new Set(codes).size).toBe(codes.length);
    const names = Object.entries(catalogue).flatMap(([code, entry]) =>
      code.startsWith('C') ? [entry.name] : [],
    );
    expect(names.filter((name, at) => names.indexOf(name) !== at)).toEqual([]);
  });
});
