import type { PitchClass } from '../score/index.js';
import { missingCosts, qualityCost, unlistedQuality } from './chord-cost.js';
import { letterOf, slots } from './chord-tables.js';
import type { ChordTables } from './chord-tables.js';
import type { Hearing } from './hearing.js';
import type { Chord } from './model.js';

/** How dear it is to hear a chord here, without its bass; the parts of the price say why. */
export interface Price {
  readonly total: number;
  readonly foreign: number;
  /** Positions among the chord's tones that never sound: 0 root, 1 third, 2 fifth, 3 seventh. */
  readonly missing: readonly number[];
  /** Those of them that a suspended tone delays beyond the end. */
  readonly delayed: readonly number[];
}

/**
 * A delayed tone is expected while its suspension sounds: it costs little, and the suspension half. Sevenths and ninths are dissonant
 * themselves: nothing is suspended that resolves into them (Hutchinson, Non-Chord Tones: a suspension resolves to a chord tone; the figures
 * 9-8, 7-6, 4-3 and 2-3 end on a root, third or fifth; that of the bass, 2-3, on a third or root).
 */
const lastDelayed = { inBass: 1, above: 2 } as const;
const lastOf = (inBass: boolean): number => lastDelayed[inBass ? 'inBass' : 'above'];
const delayedTone = 0.1;
const suspensionRelief = 0.5;

/** A chord tone whose letter sounds with another accidental, and only so, is contradicted and not merely absent. */
const alteredTone = 0.6;
const isOtherSpelling = (a: PitchClass, b: PitchClass): boolean => a !== b && letterOf(a) === letterOf(b);

/** Prices a chord; tones in `borrowed` count as heard although they sound elsewhere in the same harmony. */
export function priceOf(
  of: Pick<Chord, 'tones' | 'quality'>,
  hearing: Hearing,
  borrowed: ReadonlySet<PitchClass> = new Set(),
): Price {
  const absent = of.tones.flatMap((tone, part) =>
    (hearing.present.get(tone) ?? 0) > 0 || borrowed.has(tone) ? [] : [part],
  );
  const delays = hearing.resolutions.filter(
    ({ from, to, inBass }) =>
      !of.tones.includes(from) &&
      of.tones.indexOf(to) <= lastOf(inBass) &&
      absent.includes(of.tones.indexOf(to)),
  );
  let foreign = 0;
  for (const [tone, weight] of hearing.foreign) {
    if (!of.tones.includes(tone))
      foreign += weight * (delays.some(({ from }) => from === tone) ? suspensionRelief : 1);
  }
  const delayed = absent.filter(part => delays.some(({ to }) => to === of.tones[part]));
  const missing = absent.filter(part => !delayed.includes(part));
  const parts = missingCosts(of.quality);
  const lacking = missing.reduce((sum, part) => sum + (parts[part] ?? 0), delayed.length * delayedTone);
  const altered = missing.filter(part =>
    [...hearing.present.keys()].some(tone => isOtherSpelling(tone, of.tones[part] ?? tone)),
  );
  return {
    total: foreign + lacking + altered.length * alteredTone + (qualityCost[of.quality] ?? unlistedQuality),
    foreign,
    missing,
    delayed,
  };
}

/** The total of `priceOf` for every chord of the tables at once, in their order: what a verdict compares a chord with. */
export function priceAll(tables: ChordTables, hearing: Hearing): Float64Array {
  const { classes } = tables;
  const width = classes.length;
  const foreign = Float64Array.from(classes, tone => hearing.foreign.get(tone) ?? 0);
  const present = Uint8Array.from(classes, tone => ((hearing.present.get(tone) ?? 0) > 0 ? 1 : 0));
  const letters = new Uint8Array(7);
  classes.forEach((tone, at) => {
    if (present[at] === 1) letters[letterOf(tone)] = 1;
  });
  let all = 0;
  for (const weight of foreign) all += weight;
  const delays = hearing.resolutions.flatMap(({ from, to, inBass }) => {
    const [a, b] = [tables.index.get(from), tables.index.get(to)];
    return a === undefined || b === undefined || present[b] === 1
      ? []
      : [{ from: a, to: b, last: lastOf(inBass) }];
  });
  const totals = new Float64Array(tables.base.length);
  const member = new Uint8Array(width);
  const relieved = new Uint8Array(width);
  for (let at = 0; at < totals.length; at++) {
    let total = all + (tables.base[at] as number);
    const first = at * slots;
    member.fill(0);
    for (let part = 0; part < slots; part++) {
      const tone = tables.tones[first + part] as number;
      if (tone >= 0) member[tone] = 1;
    }
    relieved.fill(0);
    for (let part = 0; part < slots; part++) {
      const tone = tables.tones[first + part] as number;
      if (tone === -2) break;
      if (tone >= 0 && present[tone] === 1) {
        total -= foreign[tone] as number;
        continue;
      }
      let delayed = false;
      for (const { from, to, last } of delays) {
        if (to !== tone || part > last || member[from] === 1) continue;
        delayed = true;
        if (relieved[from] === 0) total -= (foreign[from] as number) * (1 - suspensionRelief);
        relieved[from] = 1;
      }
      if (delayed) total += delayedTone;
      else {
        total += tables.missing[first + part] as number;
        if (letters[tables.letters[first + part] as number] === 1) total += alteredTone;
      }
    }
    totals[at] = total;
  }
  return totals;
}
