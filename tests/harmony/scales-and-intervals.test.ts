import { Chord, Interval, Key, Note } from 'tonal';
import { describe, expect, test } from 'vitest';
import {
  chord,
  chordQualities,
  degreeOf,
  degreeTone,
  dominantKeyOf,
  leadingTone,
  nativeTones,
  parallelOf,
  printChord,
  printKey,
  relativeOf,
  signatureOf,
} from '../../src/harmony/index.js';
import type { ChordQuality } from '../../src/harmony/index.js';
import { pitchClass, printPitchClass } from '../../src/score/index.js';
import { chordNamed, keyNamed, printTones, toneNamed } from './reading.js';

/** The library `tonal` knows scales, intervals and chord symbols independently of this project. */

const majors = 'Cb Gb Db Ab Eb Bb F C G D A E B F# C#'.split(' ');
const minors = 'Ab Eb Bb F C G D A E B F# C# G# D# A#'.split(' ');

describe('major keys', () => {
  test.each(majors)('%s major', tonic => {
    const home = keyNamed(`${tonic} major`);
    const reference = Key.majorKey(tonic);
    const degrees = [1, 2, 3, 4, 5, 6, 7];
    expect(degrees.map(degree => printPitchClass(degreeTone(home, degree)))).toEqual(reference.scale);
    expect(printTones(nativeTones(home)).split(' ')).toEqual(reference.scale);
    expect(signatureOf(home)).toBe(reference.alteration);
    expect(printKey(relativeOf(home))).toBe(`${reference.minorRelative} minor`);
    expect(printPitchClass(leadingTone(home))).toBe(reference.scale[6]);
    expect(printKey(dominantKeyOf(home))).toBe(`${reference.scale[4] ?? ''} major`);
    expect(
      ['I', 'ii', 'iii', 'IV', 'V', 'vi', 'viio'].map(numeral => printChord(chordNamed(numeral, tonic))),
    ).toEqual(reference.triads);
    expect(
      ['I7', 'ii7', 'iii7', 'IV7', 'V7', 'vi7', 'viiø7'].map(numeral =>
        printChord(chordNamed(numeral, tonic)),
      ),
    ).toEqual(reference.chords);
    const applied = ['ii', 'iii', 'IV', 'V', 'vi'].map(goal => printChord(chordNamed(`V7/${goal}`, tonic)));
    // The library leaves V7 of IV out, whose root is the tonic.
    expect(applied.filter((_, at) => at !== 2)).toEqual(
      reference.secondaryDominants.filter(symbol => symbol !== '' && symbol !== applied[2]),
    );
  });
});

describe('minor keys', () => {
  test.each(minors)('%s minor', tonic => {
    const home = keyNamed(`${tonic} minor`);
    const reference = Key.minorKey(tonic);
    const degrees = [1, 2, 3, 4, 5, 6, 7];
    expect(degrees.map(degree => printPitchClass(degreeTone(home, degree)))).toEqual(reference.natural.scale);
    expect(printPitchClass(leadingTone(home))).toBe(reference.harmonic.scale[6]);
    expect([...printTones(nativeTones(home)).split(' ')].sort()).toEqual(
      [...new Set([...reference.natural.scale, ...reference.melodic.scale])].sort(),
    );
    expect(signatureOf(home)).toBe(reference.alteration);
    expect(printKey(relativeOf(home))).toBe(`${reference.relativeMajor} major`);
    expect(printKey(parallelOf(home))).toBe(`${tonic} major`);
    const named = (numerals: readonly string[]): readonly string[] =>
      numerals.map(numeral => printChord(chordNamed(numeral, `${tonic} minor`)));
    expect(named(['i7', 'iiø7', 'III7', 'iv7', 'v7', 'VI7', 'VII7'])).toEqual(reference.natural.chords);
    expect(named(['V7'])).toEqual([reference.harmonic.chords[4]]);
  });
});

test('degree and alteration of a tone lead back to the tone', () => {
  for (const home of [...majors.map(tonic => `${tonic} major`), ...minors.map(tonic => `${tonic} minor`)])
    for (let fifths = -12; fifths <= 12; fifths++) {
      const { degree, alter } = degreeOf(keyNamed(home), pitchClass(fifths));
      expect(degreeTone(keyNamed(home), degree, alter)).toBe(fifths);
    }
});

describe('intervals', () => {
  // Open Music Theory, Intervals: table; worked out.
  test.each([
    ['C', 'E', '3M'],
    ['C', 'Eb', '3m'],
    ['C', 'F#', '4A'],
    ['C', 'Gb', '5d'],
    ['Ab', 'F#', '6A'],
    ['F#', 'Eb', '7d'],
    ['C', 'D#', '2A'],
  ])('%s to %s is %s', (from, to, name) => {
    expect(Interval.distance(from, to)).toBe(name);
    // Where the library puts the interval on the line of fifths.
    expect(toneNamed(to) - toneNamed(from)).toBe(Interval.get(name).coord?.[0]);
  });
});

const augmentedSixths = chordQualities.filter(quality => quality.endsWith('augmented sixth'));

describe('chord qualities', () => {
  const withSymbol = chordQualities.filter(
    quality => !augmentedSixths.includes(quality) || quality === 'French augmented sixth',
  );
  test.each(withSymbol.map(quality => [quality]))('%s has the tones of its symbol', quality => {
    for (const root of ['C', 'F#', 'Bb', 'Eb', 'A', 'B']) {
      const own = chord(toneNamed(root), quality);
      const symbol = quality === 'French augmented sixth' ? `${root}7b5` : printChord(own);
      expect(printTones(own.tones).split(' '), symbol).toEqual(Chord.get(symbol).notes);
    }
  });

  test('an augmented sixth is the one chord of the course with a diminished third between its tones', () => {
    // Hutchinson, Augmented Sixth Chords. The augmented seventh chord (C E G# Bb) has one too and is not in the course.
    const hasDiminishedThird = (quality: ChordQuality): boolean => {
      const tones = chord(pitchClass(0), quality).tones.map(printPitchClass);
      return tones.some(low => tones.some(high => Interval.distance(low, high) === '3d'));
    };
    expect(augmentedSixths).toHaveLength(4);
    expect(chordQualities.filter(hasDiminishedThird)).toEqual(['augmented seventh', ...augmentedSixths]);
  });

  test('an augmented sixth is named after the interval above its bass', () => {
    for (const numeral of ['It6', 'Fr43', 'Ger65', 'Sw43'])
      for (const tonic of ['C', 'F#', 'Eb']) {
        const tones = chordNamed(numeral, `${tonic} minor`).tones.map(printPitchClass);
        const [flatSixth, sharpFourth] = [Note.transpose(tonic, '6m'), Note.transpose(tonic, '4A')];
        expect(tones, numeral).toEqual(expect.arrayContaining([flatSixth, sharpFourth]));
        expect(Interval.distance(flatSixth, sharpFourth)).toBe('6A');
      }
  });
});
