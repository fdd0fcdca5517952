import { Chord as symbols } from 'tonal';
import { printPitchClass, readPitchClass, transposed } from '../score/index.js';
import type { PitchClass } from '../score/index.js';
import type { Chord, ChordQuality } from './model.js';
import { plainSigns } from './plain-signs.js';

/**
 * Tones of each quality as fifths above the root, stacked in thirds. Augmented sixths are stacked the same way, from the
 * tone that makes every neighbour a third (Hutchinson, Augmented Sixth Chords: all contain a diminished third).
 */
export const qualityIntervals: Readonly<Record<ChordQuality, readonly number[]>> = {
  major: [0, 4, 1],
  minor: [0, -3, 1],
  diminished: [0, -3, -6],
  augmented: [0, 4, 8],
  'dominant seventh': [0, 4, 1, -2],
  'major seventh': [0, 4, 1, 5],
  'minor seventh': [0, -3, 1, -2],
  'half-diminished seventh': [0, -3, -6, -2],
  'diminished seventh': [0, -3, -6, -9],
  'minor-major seventh': [0, -3, 1, 5],
  'augmented major seventh': [0, 4, 8, 5],
  'augmented seventh': [0, 4, 8, -2],
  'dominant ninth': [0, 4, 1, -2, 2],
  'dominant minor ninth': [0, 4, 1, -2, -5],
  'Italian augmented sixth': [0, -10, -6],
  'French augmented sixth': [0, 4, -6, -2],
  'German augmented sixth': [0, -10, -6, -9],
  'Swiss augmented sixth': [0, -3, -13, -9],
};

export const chordQualities = Object.keys(qualityIntervals) as readonly ChordQuality[];

/** What is written after the root; the augmented sixths have no chord symbol of their own and are written by name. */
const suffixes: Readonly<Record<ChordQuality, string>> = {
  major: '',
  minor: 'm',
  diminished: 'dim',
  augmented: 'aug',
  'dominant seventh': '7',
  'major seventh': 'maj7',
  'minor seventh': 'm7',
  'half-diminished seventh': 'm7b5',
  'diminished seventh': 'dim7',
  'minor-major seventh': 'mMaj7',
  'augmented major seventh': 'maj7#5',
  'augmented seventh': '7#5',
  'dominant ninth': '9',
  'dominant minor ninth': '7b9',
  'Italian augmented sixth': '',
  'French augmented sixth': '7b5',
  'German augmented sixth': '',
  'Swiss augmented sixth': '',
};

const augmentedSixths: Partial<Record<ChordQuality, string>> = {
  'Italian augmented sixth': 'Italian sixth',
  'German augmented sixth': 'German sixth',
  'Swiss augmented sixth': 'Swiss sixth',
  'French augmented sixth': 'French sixth',
};

/** The chord of a root and a quality; `inversion` is the index of the bass among the stacked tones. */
export function chord(root: PitchClass, quality: ChordQuality, inversion = 0): Chord {
  return {
    root,
    quality,
    tones: qualityIntervals[quality].map(interval => transposed(root, interval)),
    inversion,
  };
}

export const bassOf = (of: Chord): PitchClass => of.tones[of.inversion] ?? of.root;

export const sameChord = (a: Chord, b: Chord): boolean => a.root === b.root && a.quality === b.quality;

/** `D7/F#`, `Am`; an augmented sixth is written with its tones from the bass: `German sixth on Eb`. */
export function printChord(of: Chord): string {
  const sixth = augmentedSixths[of.quality];
  if (sixth !== undefined) return `${sixth} on ${printPitchClass(bassOf(of))}`;
  const slash = of.inversion === 0 ? '' : `/${printPitchClass(bassOf(of))}`;
  return `${printPitchClass(of.root)}${suffixes[of.quality]}${slash}`;
}

/** `D minor seventh`, `F# diminished`, `C major`: how the chord is said. */
export const describeChord = (of: Chord): string => {
  const sixth = augmentedSixths[of.quality];
  return sixth === undefined ? `${printPitchClass(of.root)} ${of.quality}` : printChord(of);
};

export const inversionNames = [
  'root position',
  'first inversion',
  'second inversion',
  'third inversion',
  'fourth inversion',
] as const;

const sameIntervals = (a: readonly number[], b: readonly number[]): boolean =>
  a.length === b.length && a.every(interval => b.includes(interval));

/**
 * Reads a chord symbol such as `D7/F#`, `Am`, `Bdim7`, `Cmaj7`, `F#m7b5`, `Gø7`; suffixes are tonal's.
 * Returns `undefined` where the symbol is none or its tones are not a chord that the engine knows.
 */
export function readChordSymbol(text: string): Chord | undefined {
  const match = /^([A-G](?:#{1,2}|b{1,2})?)([^/]*)(?:\/([A-G](?:#{1,2}|b{1,2})?))?$/u.exec(
    plainSigns(text.trim()),
  );
  if (match === null) return undefined;
  const [, rootText = '', suffix = '', bassText] = match;
  const root = readPitchClass(rootText);
  if (root === undefined) return undefined;
  const plain = suffix
    .replaceAll('ø', 'm7b5')
    .replace(/^m7b57$/, 'm7b5')
    .replace(/^o$/, 'dim')
    .replace(/^o7$/, 'dim7')
    .replace(/^\+$/, 'aug');
  const tones = symbols.get(`C${plain}`).notes.map(note => readPitchClass(note));
  const intervals = tones.filter(tone => tone !== undefined);
  const quality = chordQualities.find(
    name =>
      !(name in augmentedSixths && name !== 'French augmented sixth') &&
      sameIntervals(qualityIntervals[name], intervals),
  );
  if (quality === undefined || intervals.length !== tones.length) return undefined;
  const base = chord(root, quality);
  if (bassText === undefined) return base;
  const bass = readPitchClass(bassText);
  const inversion = base.tones.findIndex(tone => tone === bass);
  return inversion < 0 ? undefined : { ...base, inversion };
}

/**
 * Names spelled notes: the chords whose tones are exactly these (octaves and doublings aside), with the bass given or the
 * first note taken as the bass. More than one answer means that the set stacks in more than one way.
 */
export function nameChord(
  notes: readonly PitchClass[],
  bass: PitchClass | undefined = notes[0],
): readonly Chord[] {
  const set = [...new Set(notes)];
  return set.flatMap(root =>
    chordQualities
      .map(quality => chord(root, quality))
      .filter(candidate => sameIntervals(candidate.tones, set))
      .map(candidate => ({
        ...candidate,
        inversion: Math.max(
          0,
          candidate.tones.findIndex(tone => tone === bass),
        ),
      })),
  );
}
