import { fraction, one, type Fraction } from './fraction.js';
import type { Meter } from './model.js';

/** The meter where the score names none: free (ABC 2.1, section 3.1.6). */
export const freeMeter: Meter = { text: 'free', beats: 4, unit: 4, length: one };

const meterOf = (text: string, beats: number, unit: number): Meter => ({
  text,
  beats,
  unit,
  length: fraction(beats, unit),
});

/** Reads the value of an `M:` field; `undefined` where it is no meter. */
export function readMeter(value: string): Meter | undefined {
  const text = value.trim();
  if (text === 'none' || text === '') return freeMeter;
  if (text === 'C') return meterOf('4/4', 4, 4);
  if (text === 'C|') return meterOf('2/2', 2, 2);
  const match = /^\(?\s*(\d+(?:\s*\+\s*\d+)*)\s*\)?\s*\/\s*(\d+)$/.exec(text);
  if (match === null) return undefined;
  const beats = (match[1] ?? '').split('+').reduce((sum, part) => sum + Number(part), 0);
  const unit = Number(match[2]);
  if (beats < 1 || beats > 128 || ![1, 2, 4, 8, 16, 32, 64, 128].includes(unit)) return undefined;
  return meterOf(text.replace(/[\s()]/g, ''), beats, unit);
}

/** Whether the beat divides into three: 6/8, 9/8, 12/8, 6/4 ... (common practice; 3/8 counts as simple). */
export const isCompound = (meter: Meter): boolean =>
  meter.beats > 3 && meter.beats % 3 === 0 && !meter.text.includes('+');

/** The unit note length where no `L:` is given (ABC 2.1, section 3.1.7). */
export const defaultUnit = (meter: Meter): Fraction =>
  meter.text !== 'free' && meter.beats / meter.unit < 0.75 ? fraction(1, 16) : fraction(1, 8);
