import { add, divide, equals, fraction, multiply, subtract } from '../../score/index.js';
import type { Bar, Fraction } from '../../score/index.js';
import { beatUnitOf } from './beats.js';

/** Whether a beat is a dotted note value. */
export const isTernary = (unit: Fraction): boolean => unit.n % 3 === 0;

/** Metrical weight of a moment: how many times the bar must be halved (or cut into beats) before it falls on a cut; 0 is the downbeat. */
export function weakness(bar: Bar, onset: Fraction, own: Fraction | undefined): number {
  const unit = beatUnitOf(bar.meter, own);
  const position = add(subtract(onset, bar.start), bar.startsAt);
  if (position.n === 0) return 0;
  const half = multiply(bar.meter.length, fraction(1, 2));
  const isEven = (bar.meter.length.n * unit.d) % (2 * bar.meter.length.d * unit.n) === 0;
  if (isEven && equals(position, half)) return 1;
  if (divide(position, unit).d === 1) return 2;
  // A dotted beat has three equal parts, any other two.
  let parts = isTernary(unit) ? fraction(1, 3) : fraction(1, 2);
  for (let level = 3; level < 8; level++) {
    if (divide(position, multiply(unit, parts)).d === 1) return level;
    parts = multiply(parts, fraction(1, 2));
  }
  return 8;
}
