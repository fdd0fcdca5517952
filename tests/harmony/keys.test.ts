import { describe, expect, test } from 'vitest';
import {
  analyse,
  closelyRelatedKeys,
  judgeKey,
  printChord,
  printKey,
  sameChord,
} from '../../src/harmony/index.js';
import type { Key, Outcome } from '../../src/harmony/index.js';
import { readingsOf } from '../../src/harmony/readings.js';
import { chromaOf, pitchClass } from '../../src/score/index.js';
import { modulation, tonicization } from '../fixtures/harmony/key-pieces.js';
import { analysed, momentOf, scoreOf, unitOf } from './pieces.js';
import { chordNamed, keyNamed, tonesNamed } from './reading.js';

const triads = ['I', 'ii', 'iii', 'IV', 'V', 'vi', 'viio'];

describe('chords that two keys share', () => {
  // Hutchinson, Music Theory for the 21st-Century Classroom, Diatonic Common Chords; worked out.
  test('G major and D major', () => {
    const shared = triads.flatMap(inG =>
      triads
        .filter(inD => sameChord(chordNamed(inG, 'G'), chordNamed(inD, 'D')))
        .map(inD => `${printChord(chordNamed(inG, 'G'))} ${inG}/${inD}`),
    );
    expect(shared).toEqual(['G I/IV', 'Bm iii/vi', 'D V/I', 'Em vi/ii']);
  });
});

describe('closely related keys', () => {
  // Hutchinson, Closely Related Keys: signatures that differ by one accidental at most; worked out.
  test.each([
    ['A', ['D', 'E', 'f#', 'b', 'c#']],
    ['C', ['F', 'G', 'a', 'd', 'e']],
    ['c', ['Eb', 'Bb', 'Ab', 'g', 'f']],
    ['F#', ['B', 'C#', 'd#', 'g#', 'a#']],
  ] as const)('of %s', (home, related) => {
    const names = (keys: readonly Key[]): readonly string[] => keys.map(printKey).sort();
    expect(names(closelyRelatedKeys(keyNamed(home)))).toEqual(names(related.map(keyNamed)));
  });
});

describe('functions of the diatonic chords of a major key', () => {
  // Open Music Theory, Harmonic functions. Hutchinson calls iii and vi tonic prolongations.
  test.each([
    ['tonic', ['I', 'iii', 'vi']],
    ['predominant', ['ii', 'IV']],
    ['dominant', ['V', 'viio']],
  ] as const)('%s', (expected, numerals) => {
    for (const home of ['C', 'Eb', 'A'])
      for (const numeral of numerals)
        expect(readingsOf(chordNamed(numeral, home), keyNamed(home))[0], numeral).toMatchObject({
          name: numeral,
          function: expected,
        });
  });
});

describe('a diminished seventh is at home in as many keys as it has tones', () => {
  // Hutchinson, Enharmonic Modulation: each tone may be the leading tone, once it is spelled so; worked out.
  test('B D F Ab', () => {
    const sounds = (tones: readonly number[]): string =>
      tones
        .map(Number)
        .sort((a, b) => a - b)
        .join(' ');
    const sought = sounds(tonesNamed('B D F Ab').map(chromaOf));
    const homes = Array.from({ length: 15 }, (_, at) => pitchClass(at - 7))
      .flatMap((tonic): readonly Key[] => [
        { tonic, mode: 'major' },
        { tonic, mode: 'minor' },
      ])
      .filter(home => sounds(chordNamed('viio7', printKey(home)).tones.map(chromaOf)) === sought)
      .map(home => chromaOf(home.tonic));
    expect([...new Set(homes)].sort((a, b) => a - b)).toEqual(tonesNamed('C Eb F# A').map(chromaOf));
  });
});

describe('a modulation needs a cadence in the new key', () => {
  // Open Music Theory, Modulation; Hutchinson, Tonicization versus Modulation.
  test('V7/V and V within C major tonicize G', () => {
    const analysis = analysed(tonicization);
    expect(analysis.keyAreas.map(({ key }) => printKey(key))).toEqual(['C major']);
    expect(analysis.segments.map(({ roman }) => roman)).toContain('V7/V');
  });

  test('ii6, cadential six-four, V7 and I of G, and more of it, modulate', () => {
    const { keyAreas } = analysed(modulation);
    expect(keyAreas.map(({ key }) => printKey(key))).toEqual(['C major', 'G major']);
  });

  const rows: readonly (readonly [
    piece: 'tonicization' | 'modulation',
    from: number,
    to: number,
    key: string,
    outcome: readonly Outcome[],
  ])[] = [
    ['tonicization', 1, 7, 'C major', ['supported']],
    ['tonicization', 1, 7, 'G major', ['contradicted']],
    ['tonicization', 1, 2, 'C major', ['supported']],
    ['modulation', 1, 3, 'C major', ['supported']],
    ['modulation', 5, 9, 'G major', ['supported']],
    ['modulation', 5, 9, 'C major', ['contradicted']],
    ['modulation', 5, 9, 'E minor', ['contradicted', 'rivalled']],
  ];
  test.each(rows)('%s, bars %i to %i: %s is %s', (name, from, to, key, outcomes) => {
    const piece = { tonicization, modulation }[name];
    const analysis = analysed(piece);
    const start = momentOf(analysis.score, from, 1, unitOf(piece));
    const last = analysis.score.bars.find(({ number }) => number === to + 1);
    const end = last?.start ?? analysis.score.length;
    expect(outcomes).toContain(judgeKey(analysis, { start, end, key: keyNamed(key) }).outcome);
  });
});

describe('a piece sets out from home', () => {
  // Common practice. The chords are those of the descending tetrachord in minor, which the relative major holds too.
  const abc = `X:1
M:4/4
L:1/8
K:Em
V:1
B4 e2 g2 | f4 d4 | e3 f g2 a2 | b2 a2 f4 | g4 d4 | e2 c2 A2 c2 | B4 A2 F2 | G8 |
d4 g2 b2 | a2 c'2 b2 a2 | g4 e4 | =f4 a4 | g2 e2 f2 ^d2 | e8 |]
V:2 clef=bass
E,B,G,B, E,B,G,B, | D,A,F,A, D,A,F,A, | C,G,E,G, C,G,E,G, | B,,F,^D,F, B,,F,^D,F, | B,,G,D,G, B,,G,D,G, | C,G,E,G, C,A,E,A, | D,B,G,B, D,C,F,C, | G,,D,B,,D, G,,4 |
B,,G,D,G, B,,G,D,G, | D,A,F,A, D,A,F,A, | E,B,G,B, E,B,G,B, | A,,C,=F,C, A,,C,F,C, | B,,G,E,G, B,,A,F,A, | E,,B,,G,,B,, E,,4 |]
`;
  test('i VII VI in minor, not vi V IV', () => {
    const { segments } = analyse(scoreOf(abc));
    expect(segments.slice(0, 3).map(({ roman, key }) => `${roman} in ${printKey(key)}`)).toEqual(
      ['i', 'VII', 'VI'].map(numeral => `${numeral} in E minor`),
    );
  });
});
