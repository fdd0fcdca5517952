import type { PitchClass } from '../score/index.js';
import { chord } from './chord.js';
import { cost, qualityCost } from './chord-cost.js';
import { chordTablesOf, slots } from './chord-tables.js';
import type { ChordTables } from './chord-tables.js';
import { shareOf } from './foreign-cost.js';
import { delayedBass, groundOf, stayingTones } from './ground.js';
import type { Chord, ChordQuality } from './model.js';
import type { Moment } from './moments.js';
import type { Sound, Tone } from './sound.js';

/** One harmony over a stretch of moments, `from` inclusive to `to` exclusive. */
export interface Edge {
  readonly from: number;
  readonly to: number;
  /** Index into `Lattice.chords`. */
  readonly chord: number;
  /** Cost of the stretch by itself, the change into it included. */
  readonly cost: number;
  /** Position of the bass among the chord's tones, -1 where it is foreign. */
  readonly bassPart: number;
}

/** All readings of the piece that come near the best one. */
export interface Lattice {
  readonly moments: readonly Moment[];
  readonly chords: readonly Chord[];
  readonly tables: ChordTables;
  readonly edges: readonly Edge[];
  /** The bass as it is heard at each moment, and the tones of it that stay. */
  readonly ground: readonly (Tone | undefined)[];
  readonly staying: ReadonlySet<number>;
}

/** A reading this much dearer than the best is out of the question. */
const keepWithin = 1.5;

/** A harmony spans at most this many moments and two bars; longer ones are joined again afterwards. */
export const longestStretch = 64;

interface Prefixes {
  /** Per pitch class: cost of hearing it as foreign, summed up to each cut. */
  readonly foreign: readonly Float64Array[];
  /** Per pitch class: beats of presence up to each cut. */
  readonly present: readonly Float64Array[];
  readonly total: Float64Array;
}

function prefixesOf(
  sound: Sound,
  moments: readonly Moment[],
  staying: ReadonlySet<number>,
  { index, classes }: Pick<ChordTables, 'index' | 'classes'>,
): Prefixes {
  const foreign = classes.map(() => new Float64Array(moments.length + 1));
  const present = classes.map(() => new Float64Array(moments.length + 1));
  const total = new Float64Array(moments.length + 1);
  const foreignHere = new Float64Array(classes.length);
  moments.forEach((moment, at) => {
    foreignHere.fill(0);
    const beats = (moment.end - moment.start) / moment.beat;
    const struck = new Set(moment.struck);
    const lowest = moment.sounding[0];
    const presentHere = new Set<number>();
    for (const id of moment.sounding) {
      const tone = sound.tones[id];
      if (tone === undefined) continue;
      const at2 = index.get(tone.pitchClass) ?? 0;
      const weight = (beats + (struck.has(id) ? cost.attack : 0)) * (id === lowest ? cost.bassFactor : 1);
      foreignHere[at2] = Math.max(
        foreignHere[at2] ?? 0,
        weight * shareOf(tone, moment, { sound, moments, staying }),
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
  return { foreign, present, total };
}

/** Deepest ground in the first beat of a stretch: in a broken chord the bass comes first and is lowest. */
function bassOfStretch(
  ground: readonly (Tone | undefined)[],
  moments: readonly Moment[],
  from: number,
  to: number,
): Tone | undefined {
  const first = moments[from];
  if (first === undefined) return undefined;
  let deepest: Tone | undefined;
  for (let at = from; at < to; at++) {
    if ((moments[at]?.start ?? Infinity) >= first.start + first.beat && deepest !== undefined) break;
    const tone = ground[at];
    if (tone !== undefined && (deepest === undefined || tone.midi < deepest.midi)) deepest = tone;
  }
  return deepest;
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

/** Builds the lattice: every stretch of up to about two bars with the chords that explain it best. */
export function buildLattice(sound: Sound, moments: readonly Moment[]): Lattice {
  const ground = groundOf(sound, moments);
  const staying = stayingTones(ground, moments);
  const classes = [...new Set(sound.tones.map(tone => tone.pitchClass))].sort((a, b) => a - b);
  const chords = chordsIn(classes);
  const tables = chordTablesOf(chords, classes);
  const prefixes = prefixesOf(sound, moments, staying, tables);
  const count = moments.length;
  const width = classes.length;

  const changeCost = moments.map(({ start, level, struckClasses }, at) => {
    const bass = ground[at];
    const isSpelledOut = bass?.on !== start && (struckClasses < 2 || (bass?.off ?? 0) <= start);
    return cost.change[level] + (isSpelledOut ? cost.changeWithoutBass : 0);
  });

  const stayCost = moments.map(({ level, struck }, at) => {
    if (struck.length === 0) return 0;
    const isNewBass = ground[at]?.pitchClass !== ground[at - 1]?.pitchClass;
    return isNewBass ? cost.stay.overNewBass[level] : cost.stay.overSameBass[level];
  });

  const classOf = (tone: Tone | undefined): number =>
    tone === undefined ? -1 : (tables.index.get(tone.pitchClass) ?? -1);

  const edges: Edge[] = [];
  const before = new Float64Array(count + 1).fill(Infinity);
  before[0] = 0;
  const values = new Float64Array(chords.length);
  const basses = new Int8Array(chords.length);
  const foreign = new Float64Array(width);
  const present = new Float64Array(width);
  for (let from = 0; from < count; from++) {
    const first = moments[from];
    if (first === undefined) continue;
    let low: Tone | undefined;
    let stays = 0;
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
      if (to - 1 > from) stays += stayCost[to - 1] ?? 0;
      const all = (prefixes.total[to] ?? 0) - (prefixes.total[from] ?? 0) + stays;
      const lowClass = classOf(low);
      const delayedClass = classOf(delayedBass(sound, low, first.start, last.end));
      let least = Infinity;
      let leastTones = Infinity;
      for (let at = 0; at < chords.length; at++) {
        let value = all + (tables.base[at] as number);
        let bassPart = lowClass < 0 ? 0 : -1;
        let delayedPart = -1;
        for (let part = 0; part < slots; part++) {
          const tone = tables.tones[at * slots + part] as number;
          if (tone === -2) break;
          if (tone === lowClass && tone >= 0) bassPart = part;
          if (tone === delayedClass && tone >= 0) delayedPart = part;
          if (tone < 0 || (present[tone] as number) <= 1e-9)
            value += tables.missing[at * slots + part] as number;
          else value -= foreign[tone] as number;
        }
        if (value < leastTones) leastTones = value;
        if (bassPart < 0) bassPart = delayedPart;
        basses[at] = bassPart;
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
      const soFar = before[from] ?? Infinity;
      const limit = Math.min(
        least + keepWithin,
        (before[to] ?? Infinity) + keepWithin - change - soFar + 1e-9,
      );
      for (let at = 0; at < chords.length; at++) {
        const value = values[at] as number;
        if (value <= limit)
          edges.push({
            from,
            to,
            chord: at,
            cost: value + change,
            bassPart: lowClass < 0 ? -1 : (basses[at] as number),
          });
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
    tables,
    edges: kept,
    ground,
    staying,
  };
}
