import type { PitchClass } from '../score/index.js';
import { chord, qualityIntervals } from './chord.js';
import { shareOf } from './foreign-cost.js';
import { groundOf, stayingTones } from './ground.js';
import type { Chord, ChordQuality } from './model.js';
import type { MetricalLevel, Moment } from './moments.js';
import type { Sound, Tone } from './sound.js';

/**
 * Costs are in one unit throughout: 1 is a tone of one beat that no rule explains. A harmony of several beats may leave a few weak
 * passing tones aside for less than a change of harmony would cost, and no more.
 */
export const cost = {
  /** A tone draws attention by being struck, however short it is. */
  attack: 0.2,
  /** The lowest tone is heard as the ground of the harmony. */
  bassFactor: 1.5,
  /** Changing the harmony: easiest on the downbeat (Hutchinson, Harmonic Progression: harmonic rhythm follows the metre). */
  change: { 0: 0.1, 1: 0.15, 2: 0.2, 3: 0.6, 4: 1.2 } satisfies Record<MetricalLevel, number>,
  /** A harmony that begins where the bass does not move is less likely. */
  changeWithoutBass: 0.2,
  missingRoot: 0.75,
  /** Without its third a chord is neither major nor minor. */
  missingThird: 0.6,
  /** The fifth is the tone that is left out (Hutchinson, Voice Leading Seventh Chords: incomplete V7). */
  missingFifth: 0.1,
  /** In diminished and augmented chords the fifth is what makes them. */
  missingAlteredFifth: 0.55,
  missingSeventh: 1.4,
  /** Lowest tone root, third, fifth, seventh, ninth. */
  inversion: [0, 0.12, 0.4, 0.22, 1],
  foreignBass: 0.5,
} as const;

/** What a quality costs by itself: plain triads and dominant sevenths are what tonal music is made of. */
export const qualityCost: Partial<Record<ChordQuality, number>> = {
  major: 0,
  minor: 0,
  diminished: 0.25,
  augmented: 0.75,
  'dominant seventh': 0.25,
  'major seventh': 0.8,
  'minor seventh': 0.65,
  'half-diminished seventh': 0.5,
  'diminished seventh': 0.35,
  'minor-major seventh': 1.1,
  'Italian augmented sixth': 0.5,
  'French augmented sixth': 0.5,
  'German augmented sixth': 0.5,
  'dominant ninth': 1.3,
  'dominant minor ninth': 1.3,
};

export const unlistedQuality = 1.2;

/** What each tone of a quality costs where it never sounds, root first. */
export function missingCosts(quality: ChordQuality): readonly number[] {
  const fifth = qualityIntervals[quality][2] === 1 ? cost.missingFifth : cost.missingAlteredFifth;
  return [cost.missingRoot, cost.missingThird, fifth, cost.missingSeventh, cost.missingSeventh];
}

/** One harmony over a stretch of moments, `from` inclusive to `to` exclusive. */
export interface Edge {
  readonly from: number;
  readonly to: number;
  /** Index into `Lattice.chords`. */
  readonly chord: number;
  /** Cost of the stretch by itself, the change into it included. */
  readonly cost: number;
  /** The root is the bass. */
  readonly rooted: boolean;
}

/** All readings of the piece that come near the best one. */
export interface Lattice {
  readonly moments: readonly Moment[];
  readonly chords: readonly Chord[];
  readonly edges: readonly Edge[];
  /** Cheapest cost from the start to each cut, and from each cut to the end. */
  readonly before: Float64Array;
  readonly after: Float64Array;
  /** The bass as it is heard at each moment, and the tones of it that stay. */
  readonly ground: readonly (Tone | undefined)[];
  readonly staying: ReadonlySet<number>;
}

/** A reading this much dearer than the best is out of the question. */
const keepWithin = 1.5;

/** A harmony spans at most this many moments and two bars; longer ones are joined again afterwards. */
export const longestStretch = 64;

interface Prefixes {
  readonly index: ReadonlyMap<PitchClass, number>;
  readonly classes: readonly PitchClass[];
  /** Per pitch class: cost of hearing it as foreign, summed up to each cut. */
  readonly foreign: readonly Float64Array[];
  /** Per pitch class: beats of presence up to each cut. */
  readonly present: readonly Float64Array[];
  readonly total: Float64Array;
}

function prefixesOf(sound: Sound, moments: readonly Moment[], staying: ReadonlySet<number>): Prefixes {
  const classes = [...new Set(sound.tones.map(tone => tone.pitchClass))].sort((a, b) => a - b);
  const index = new Map(classes.map((value, at) => [value, at]));
  const foreign = classes.map(() => new Float64Array(moments.length + 1));
  const present = classes.map(() => new Float64Array(moments.length + 1));
  const total = new Float64Array(moments.length + 1);
  const foreignHere = new Float64Array(classes.length);
  moments.forEach((moment, at) => {
    foreignHere.fill(0);
    const beats = (moment.end - moment.start) / moment.beat;
    const struck = new Set(moment.struck);
    const lowest = moment.sounding[0];
    const accented = moment.level <= 2;
    const presentHere = new Set<number>();
    for (const id of moment.sounding) {
      const tone = sound.tones[id];
      if (tone === undefined) continue;
      const at2 = index.get(tone.pitchClass) ?? 0;
      const weight = (beats + (struck.has(id) ? cost.attack : 0)) * (id === lowest ? cost.bassFactor : 1);
      foreignHere[at2] = Math.max(
        foreignHere[at2] ?? 0,
        weight * shareOf(tone, moment, accented, staying.has(id)),
      );
      presentHere.add(at2);
    }
    let sum = 0;
    classes.forEach((_, k) => {
      const here = foreignHere[k] ?? 0;
      sum += here;
      const f = foreign[k] as Float64Array;
      const p = present[k] as Float64Array;
      f[at + 1] = (f[at] ?? 0) + here;
      p[at + 1] = (p[at] ?? 0) + (presentHere.has(k) ? beats : 0);
    });
    total[at + 1] = (total[at] ?? 0) + sum;
  });
  return { index, classes, foreign, present, total };
}

/** Deepest ground in the first beat of a stretch: in a broken chord the bass comes first and is lowest. */
function bassOfStretch(
  ground: readonly (Tone | undefined)[],
  moments: readonly Moment[],
  from: number,
  to: number,
): PitchClass | undefined {
  const first = moments[from];
  if (first === undefined) return undefined;
  let deepest: Tone | undefined;
  for (let at = from; at < to; at++) {
    if ((moments[at]?.start ?? Infinity) >= first.start + first.beat && deepest !== undefined) break;
    const tone = ground[at];
    if (tone !== undefined && (deepest === undefined || tone.midi < deepest.midi)) deepest = tone;
  }
  return deepest?.pitchClass;
}

function chordsIn(classes: readonly PitchClass[]): readonly Chord[] {
  const all = new Set(classes);
  const qualities = Object.keys(qualityCost) as ChordQuality[];
  return classes.flatMap(root =>
    qualities
      .map(quality => chord(root, quality))
      .filter(candidate => {
        const absent = candidate.tones.filter(tone => !all.has(tone)).length;
        return (
          absent === 0 ||
          (absent === 1 && candidate.tones.length === 3) ||
          (absent === 1 && !all.has(candidate.tones[2] ?? root))
        );
      }),
  );
}

/** Room for the tones of one chord in the flat tables. */
const slots = 5;

/** The chords as flat tables, so that trying all of them against every stretch stays fast. */
interface ChordTables {
  /** Index of each tone among the piece's pitch classes; -1 where it never occurs, -2 where the chord has no such tone. */
  readonly tones: Int16Array;
  readonly missing: Float64Array;
  readonly base: Float64Array;
}

function tablesOf(chords: readonly Chord[], index: ReadonlyMap<PitchClass, number>): ChordTables {
  const tones = new Int16Array(chords.length * slots).fill(-2);
  const missing = new Float64Array(chords.length * slots);
  const base = new Float64Array(chords.length);
  chords.forEach((of, at) => {
    base[at] = qualityCost[of.quality] ?? unlistedQuality;
    const parts = missingCosts(of.quality);
    of.tones.forEach((tone, part) => {
      tones[at * slots + part] = index.get(tone) ?? -1;
      missing[at * slots + part] = parts[part] ?? 0;
    });
  });
  return { tones, missing, base };
}

/** Builds the lattice: every stretch of up to about two bars with the chords that explain it best. */
export function buildLattice(sound: Sound, moments: readonly Moment[]): Lattice {
  const ground = groundOf(sound, moments);
  const staying = stayingTones(ground);
  const prefixes = prefixesOf(sound, moments, staying);
  const chords = chordsIn(prefixes.classes);
  const tables = tablesOf(chords, prefixes.index);
  const count = moments.length;
  const width = prefixes.classes.length;

  const changeCost = moments.map((moment, at) => {
    const bassMoves = ground[at]?.on === moment.start;
    return cost.change[moment.level] + (bassMoves ? 0 : cost.changeWithoutBass);
  });

  const edges: Edge[] = [];
  const before = new Float64Array(count + 1).fill(Infinity);
  before[0] = 0;
  const values = new Float64Array(chords.length);
  const foreign = new Float64Array(width);
  const present = new Float64Array(width);
  for (let from = 0; from < count; from++) {
    const first = moments[from];
    if (first === undefined) continue;
    let low: PitchClass | undefined;
    for (let to = from + 1; to <= count; to++) {
      const last = moments[to - 1];
      if (last === undefined || last.bar > first.bar + 1 || to - from > longestStretch) break;
      if (low === undefined || last.start < first.start + first.beat)
        low = bassOfStretch(ground, moments, from, to);
      for (let k = 0; k < width; k++) {
        foreign[k] =
          ((prefixes.foreign[k] as Float64Array)[to] as number) -
          ((prefixes.foreign[k] as Float64Array)[from] as number);
        present[k] =
          ((prefixes.present[k] as Float64Array)[to] as number) -
          ((prefixes.present[k] as Float64Array)[from] as number);
      }
      const all = (prefixes.total[to] ?? 0) - (prefixes.total[from] ?? 0);
      const lowClass = low === undefined ? -1 : (prefixes.index.get(low) ?? -1);
      let least = Infinity;
      let leastTones = Infinity;
      for (let at = 0; at < chords.length; at++) {
        let value = all + (tables.base[at] as number);
        let bassPart = lowClass < 0 ? 0 : -1;
        for (let part = 0; part < slots; part++) {
          const tone = tables.tones[at * slots + part] as number;
          if (tone === -2) break;
          if (tone === lowClass && tone >= 0) bassPart = part;
          if (tone < 0 || (present[tone] as number) <= 1e-9)
            value += tables.missing[at * slots + part] as number;
          else value -= foreign[tone] as number;
        }
        if (value < leastTones) leastTones = value;
        value += bassPart < 0 ? cost.foreignBass : (cost.inversion[bassPart] ?? 1);
        values[at] = value;
        if (value < least) least = value;
      }
      const change = changeCost[from] ?? 0;
      const through = (before[from] ?? Infinity) + least + change;
      if (through < (before[to] ?? Infinity)) before[to] = through;
      if (through > (before[to] ?? Infinity) + keepWithin) {
        if (leastTones > 4) break;
        continue;
      }
      for (let at = 0; at < chords.length; at++) {
        const value = values[at] as number;
        if (value <= least + keepWithin)
          edges.push({ from, to, chord: at, cost: value + change, rooted: chords[at]?.root === low });
      }
    }
  }
  const after = new Float64Array(count + 1).fill(Infinity);
  after[count] = 0;
  for (let at = edges.length - 1; at >= 0; at--) {
    const edge = edges[at];
    if (edge === undefined) continue;
    const through = (after[edge.to] ?? Infinity) + edge.cost;
    if (through < (after[edge.from] ?? Infinity)) after[edge.from] = through;
  }
  const best = before[count] ?? 0;
  const kept = edges.filter(
    edge => (before[edge.from] ?? Infinity) + edge.cost + (after[edge.to] ?? Infinity) <= best + keepWithin,
  );
  return {
    moments,
    chords,
    edges: kept,
    ground,
    staying,
    before,
    after,
  };
}
