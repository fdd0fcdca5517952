import { fraction, one, type Fraction } from './fraction.js';
import type { Meter } from './model.js';

/** The meter where the score names none (ABC 2.1, section 3.1.6); its bars have no nominal length. */
export const freeMeter: Meter = { text: 'free', beats: 4, unit: 4, length: one };

export const isFree = (meter: Meter): boolean => meter.text === 'free';

const meterOf = (text: string, beats: number, unit: number): Meter => ({
  text,
  beats,
  unit,
  length: fraction(beats, unit),
});
const units = [1, 2, 4, 8, 16, 32, 64, 128];
const mostBeats = 128;

/** Reads the value of an `M:` field; `undefined` where it is no meter. */
export function readMeter(value: string): Meter | undefined {
  const text = value.trim();
  if (text === 'none' || text === '') return freeMeter;
  if (text === 'C') return meterOf('4/4', 4, 4);
  if (text === 'C|') return meterOf('2/2', 2, 2);
  const match = /^\(?\s*(\d+(?:\s*\+\s*\d+)*)\s*\)?\s*\/\s*(\d+)$/.exec(text);
  const beats = (match?.[1] ?? '').split('+').reduce((sum, part) => sum + Number(part), 0);
  const unit = Number(match?.[2]);
  if (match === null || beats < 1 || beats > mostBeats || !units.includes(unit)) return undefined;
  return meterOf(text.replace(/[\s()]/g, ''), beats, unit);
}

/** The groups that an additive meter such as 3+2/8 names; empty for any other. */
export const groupsOf = (meter: Meter): readonly number[] =>
  meter.text.includes('+') ? (meter.text.split('/')[0] ?? '').split('+').map(Number) : [];

/** Whether the beat divides into three: 6/8, 9/8, 12/8, 6/4 ... but not 3/8 (common practice). */
export const isCompound = (meter: Meter): boolean =>
  meter.beats > 3 && meter.beats % 3 === 0 && groupsOf(meter).length === 0;

/** Reads the value of an `L:` field; `undefined` where it is no note length. */
export function readUnit(value: string): Fraction | undefined {
  const match = /^\s*(\d{1,4})(?:\s*\/\s*(\d{1,4}))?\s*$/.exec(value);
  const n = Number(match?.[1] ?? 0);
  const d = Number(match?.[2] ?? 1);
  return match === null || n === 0 || d === 0 ? undefined : fraction(n, d);
}

/** The unit note length where no `L:` is given (ABC 2.1, section 3.1.7). */
export const defaultUnit = (meter: Meter): Fraction =>
  !isFree(meter) && meter.beats / meter.unit < 0.75 ? fraction(1, 16) : fraction(1, 8);
