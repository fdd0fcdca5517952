import { degreeOf } from './key.js';
import type { Chord, ChordQuality, HarmonicFunction, Key } from './model.js';
import { figuresFor } from './roman-numeral.js';

/** What a chord is in a key, its inversion left out. */
export interface Reading {
  /** Numeral before its figures: `V`, `viio`, `bVI`, `Ger`. */
  readonly name: string;
  /** `M` before the figures of a major seventh where the plain figure would mean a minor one. */
  readonly majorSeventh: boolean;
  /** Numeral that the chord is applied to. */
  readonly target?: string;
  /** Fifths from the tonic to the root of that target. */
  readonly targetRoot?: number;
  readonly function: HarmonicFunction;
  /** How unusual the chord is in the key, in the unit of `lattice.ts`. */
  readonly cost: number;
}

type Row = readonly [name: string, root: number, quality: ChordQuality, of: HarmonicFunction, cost: number];

/**
 * Chords of a key, the usual ones cheap. Order of likelihood as the textbooks introduce them: primary triads, other diatonic
 * chords, then applied chords, mixture and the chromatic predominants (Open Music Theory and Hutchinson, order of chapters).
 */
const majorRows: readonly Row[] = [
  ['I', 0, 'major', 'tonic', 0],
  ['I', 0, 'major seventh', 'tonic', 0.35],
  ['ii', 2, 'minor', 'predominant', 0.15],
  ['ii', 2, 'minor seventh', 'predominant', 0.15],
  ['iii', 4, 'minor', 'tonic', 0.5],
  ['iii', 4, 'minor seventh', 'tonic', 0.6],
  ['IV', -1, 'major', 'predominant', 0.1],
  ['IV', -1, 'major seventh', 'predominant', 0.3],
  ['V', 1, 'major', 'dominant', 0],
  ['V', 1, 'dominant seventh', 'dominant', 0],
  ['V', 1, 'dominant ninth', 'dominant', 0.2],
  ['vi', 3, 'minor', 'tonic', 0.2],
  ['vi', 3, 'minor seventh', 'tonic', 0.35],
  ['viio', 5, 'diminished', 'dominant', 0.2],
  ['viiø', 5, 'half-diminished seventh', 'dominant', 0.25],
  ['viio', 5, 'diminished seventh', 'dominant', 0.3],
  ['V+', 1, 'augmented', 'dominant', 0.6],
  ['i', 0, 'minor', 'tonic', 0.9],
  ['iio', 2, 'diminished', 'predominant', 0.6],
  ['iiø', 2, 'half-diminished seventh', 'predominant', 0.5],
  ['bIII', -3, 'major', 'tonic', 1],
  ['iv', -1, 'minor', 'predominant', 0.55],
  ['iv', -1, 'minor seventh', 'predominant', 0.8],
  ['v', 1, 'minor', 'dominant', 1.1],
  ['bVI', -4, 'major', 'predominant', 0.8],
  ['bVI', -4, 'major seventh', 'predominant', 1],
  ['bVII', -2, 'major', 'dominant', 1],
  ['I+', 0, 'augmented', 'tonic', 0.8],
];

const minorRows: readonly Row[] = [
  ['i', 0, 'minor', 'tonic', 0],
  ['i', 0, 'minor seventh', 'tonic', 0.6],
  ['iio', 2, 'diminished', 'predominant', 0.2],
  ['iiø', 2, 'half-diminished seventh', 'predominant', 0.15],
  ['III', -3, 'major', 'tonic', 0.3],
  ['III', -3, 'major seventh', 'tonic', 0.6],
  ['III+', -3, 'augmented', 'dominant', 0.7],
  ['iv', -1, 'minor', 'predominant', 0.1],
  ['iv', -1, 'minor seventh', 'predominant', 0.2],
  ['IV', -1, 'major', 'predominant', 0.5],
  ['IV', -1, 'dominant seventh', 'predominant', 0.8],
  ['V', 1, 'major', 'dominant', 0],
  ['V', 1, 'dominant seventh', 'dominant', 0],
  ['V', 1, 'dominant minor ninth', 'dominant', 0.2],
  ['v', 1, 'minor', 'dominant', 0.5],
  ['v', 1, 'minor seventh', 'dominant', 0.9],
  ['VI', -4, 'major', 'tonic', 0.2],
  ['VI', -4, 'major seventh', 'tonic', 0.35],
  ['VII', -2, 'major', 'dominant', 0.4],
  ['VII', -2, 'dominant seventh', 'dominant', 0.6],
  ['viio', 5, 'diminished', 'dominant', 0.15],
  ['viio', 5, 'diminished seventh', 'dominant', 0.1],
  ['viiø', 5, 'half-diminished seventh', 'dominant', 0.9],
  ['I', 0, 'major', 'tonic', 0.8],
  ['ii', 2, 'minor', 'predominant', 0.7],
  ['ii', 2, 'minor seventh', 'predominant', 0.8],
  ['#vio', 3, 'diminished', 'predominant', 0.7],
  ['#viø', 3, 'half-diminished seventh', 'predominant', 0.7],
];

/** Chromatic predominants, the same in both modes but for their likelihood. */
const chromaticRows: readonly Row[] = [
  ['N', -5, 'major', 'predominant', 0.7],
  ['bII', -5, 'major seventh', 'predominant', 1],
  ['It', 6, 'Italian augmented sixth', 'predominant', 0.35],
  ['Ger', 6, 'German augmented sixth', 'predominant', 0.35],
  ['Fr', 2, 'French augmented sixth', 'predominant', 0.35],
  ['Sw', 9, 'Swiss augmented sixth', 'predominant', 0.8],
];

/** Diatonic triads that can be tonicized: major and minor ones only (Hutchinson, Secondary Dominants). */
const targets: Readonly<
  Record<Key['mode'], readonly (readonly [name: string, root: number, major: boolean, extra: number])[]>
> = {
  major: [
    ['V', 1, true, 0],
    ['ii', 2, false, 0.08],
    ['IV', -1, true, 0.08],
    ['vi', 3, false, 0.05],
    ['iii', 4, false, 0.2],
    ['iv', -1, false, 0.5],
    ['bVI', -4, true, 0.6],
    ['bIII', -3, true, 0.6],
  ],
  minor: [
    ['V', 1, true, 0],
    ['iv', -1, false, 0],
    ['III', -3, true, 0],
    ['VI', -4, true, 0.1],
    ['VII', -2, true, 0.15],
    ['v', 1, false, 0.3],
    ['N', -5, true, 0.5],
  ],
};

const appliedRows = (major: boolean): readonly Row[] => [
  ['V', 1, 'major', 'dominant', 0.6],
  ['V', 1, 'dominant seventh', 'dominant', 0.45],
  ['viio', 5, 'diminished', 'dominant', 0.7],
  ['viio', 5, 'diminished seventh', 'dominant', 0.55],
  ['viiø', 5, 'half-diminished seventh', 'dominant', major ? 0.7 : 1.2],
  ['V+', 1, 'augmented', 'dominant', 1],
  ['It', 6, 'Italian augmented sixth', 'predominant', 1],
  ['Ger', 6, 'German augmented sixth', 'predominant', 1],
  ['Fr', 2, 'French augmented sixth', 'predominant', 1],
];

const slot = (root: number, quality: ChordQuality): string => `${root} ${quality}`;

function tableOf(mode: Key['mode']): ReadonlyMap<string, readonly Reading[]> {
  const table = new Map<string, Reading[]>();
  const put = (at: string, reading: Reading): void => {
    table.set(
      at,
      [...(table.get(at) ?? []), reading].sort((a, b) => a.cost - b.cost),
    );
  };
  const plain = [...(mode === 'major' ? majorRows : minorRows), ...chromaticRows];
  for (const [name, root, quality, of, cost] of plain) {
    put(slot(root, quality), {
      name,
      majorSeventh: quality === 'major seventh',
      function: of,
      cost: cost - (mode === 'minor' && chromaticRows.some(row => row[0] === name) ? 0.15 : 0),
    });
  }
  for (const [target, targetRoot, major, extra] of targets[mode]) {
    for (const [name, root, quality, of, cost] of appliedRows(major)) {
      put(slot(targetRoot + root, quality), {
        name,
        majorSeventh: false,
        target,
        targetRoot,
        // The dominant of V leads to a dominant itself.
        function: target === 'V' ? 'predominant' : of,
        cost: cost + extra,
      });
    }
  }
  return table;
}

const tables = { major: tableOf('major'), minor: tableOf('minor') } as const;

/** A chord outside every list still has a numeral; how far out it is, it costs. */
const foreignReadingCost = 1.7;

const upperQualities: readonly ChordQuality[] = [
  'major',
  'augmented',
  'dominant seventh',
  'major seventh',
  'augmented seventh',
  'augmented major seventh',
  'dominant ninth',
  'dominant minor ninth',
  'French augmented sixth',
];
const degreeNames = ['I', 'II', 'III', 'IV', 'V', 'VI', 'VII'] as const;

function foreignReading(of: Chord, inKey: Key): Reading {
  const { degree, alter } = degreeOf(inKey, of.root);
  const upper = upperQualities.includes(of.quality);
  // In minor a lower-case seven stands on the raised degree, so the natural one is written with a flat.
  const shift = inKey.mode === 'minor' && degree === 7 && !upper ? alter - 1 : alter;
  const sign = shift < 0 ? 'b'.repeat(-shift) : '#'.repeat(shift);
  const roman = degreeNames[degree - 1] ?? 'I';
  const mark =
    of.quality === 'half-diminished seventh'
      ? 'ø'
      : of.quality.startsWith('diminished')
        ? 'o'
        : of.quality.startsWith('augmented')
          ? '+'
          : '';
  return {
    name: sign + (upper ? roman : roman.toLowerCase()) + mark,
    majorSeventh:
      of.quality === 'major seventh' ||
      of.quality === 'minor-major seventh' ||
      of.quality === 'augmented major seventh',
    function:
      degree === 5 || degree === 7 ? 'dominant' : degree === 2 || degree === 4 ? 'predominant' : 'tonic',
    cost: foreignReadingCost + Math.min(0.6, Math.abs(alter) * 0.3),
  };
}

/** Readings of a chord in a key, the likeliest first; never empty. */
export function readingsOf(of: Chord, inKey: Key): readonly Reading[] {
  return tables[inKey.mode].get(slot(of.root - inKey.tonic, of.quality)) ?? [foreignReading(of, inKey)];
}

/** The numeral of a reading with the figures of an inversion: `V65/V`, `IVM7`, `viio7/ii`. */
export function romanOf(reading: Reading, of: Chord): string {
  const plain = figuresFor(of.tones.length, of.inversion);
  // Plain `It` is read with its usual bass.
  const figures = reading.name === 'It' && plain === '' ? '53' : plain;
  const seventh = reading.majorSeventh && of.tones.length > 3 ? 'M' : '';
  return reading.name + seventh + figures + (reading.target === undefined ? '' : `/${reading.target}`);
}

/** The likeliest numeral of a chord in a key, with figures. */
export const romanFor = (of: Chord, inKey: Key): string => romanOf(readingsOf(of, inKey)[0] as Reading, of);
