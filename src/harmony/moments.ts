import type { Score } from '../score/index.js';
import { isCompound } from '../score/index.js';
import { beatLength, ticksOf } from './sound.js';
import type { Sound } from './sound.js';

/** Metrical strength of an onset: 0 downbeat, 1 middle of the bar, 2 other beats, 3 half beats, 4 anything finer. */
export type MetricalLevel = 0 | 1 | 2 | 3 | 4;

/** The stretch from one onset to the next: within it nothing is struck. */
export interface Moment {
  readonly start: number;
  readonly end: number;
  readonly bar: number;
  readonly level: MetricalLevel;
  /** Length of one beat in ticks. */
  readonly beat: number;
  /** Indexes of the tones that sound, low to high; `struck` those that begin here. */
  readonly sounding: readonly number[];
  readonly struck: readonly number[];
  /** Number of pitch classes among them: 1 is a tone alone or in octaves, from 3 on it is a chord. */
  readonly struckClasses: number;
}

function levelOf(offset: number, beat: number, bar: number, compound: boolean): MetricalLevel {
  if (offset <= 0) return 0;
  if (offset % beat === 0) return offset * 2 === bar && (bar / beat) % 2 === 0 ? 1 : 2;
  return offset % (beat / (compound ? 3 : 2)) === 0 ? 3 : 4;
}

/** Cuts the sound at every onset and bar line. */
export function momentsOf(score: Score, sound: Sound): readonly Moment[] {
  const { ticksPerWhole, tones } = sound;
  const barStarts = score.bars.map(bar => ticksOf(bar.start, ticksPerWhole));
  const cuts = [...new Set([...tones.map(tone => tone.on), ...barStarts, sound.end])]
    .filter(cut => cut <= sound.end)
    .sort((a, b) => a - b);
  const moments: Moment[] = [];
  let bar = 0;
  let nextTone = 0;
  let alive: number[] = [];
  for (let at = 0; at + 1 < cuts.length; at++) {
    const start = cuts[at] ?? 0;
    const end = cuts[at + 1] ?? start;
    while (bar + 1 < barStarts.length && (barStarts[bar + 1] ?? Infinity) <= start) bar++;
    alive = alive.filter(index => (tones[index]?.off ?? 0) > start);
    const struck: number[] = [];
    for (let tone = tones[nextTone]; tone !== undefined && tone.on === start; tone = tones[++nextTone]) {
      alive.push(tone.index);
      struck.push(tone.index);
    }
    const within = score.bars[bar];
    if (within === undefined) continue;
    const beat = beatLength(within.meter) * ticksPerWhole;
    const offset = start - (barStarts[bar] ?? 0) + ticksOf(within.startsAt, ticksPerWhole);
    moments.push({
      start,
      end,
      bar,
      level: levelOf(offset, beat, ticksOf(within.meter.length, ticksPerWhole), isCompound(within.meter)),
      beat,
      sounding: [...alive].sort((a, b) => (tones[a]?.midi ?? 0) - (tones[b]?.midi ?? 0)),
      struck,
      struckClasses: new Set(struck.map(index => tones[index]?.pitchClass)).size,
    });
  }
  return moments;
}
