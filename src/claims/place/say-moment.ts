import type { Fraction } from '../../score/index.js';
import type { ClaimContext } from '../model.js';
import { printBeat } from '../terms/number.js';
import { momentOf } from './beats.js';

/** A moment as said: `bar 5 beat 3`. */
export function sayMoment(onset: Fraction, context: ClaimContext): string {
  const moment = momentOf(context.analysis.score, onset, context.beatUnit);
  return moment === undefined ? 'there' : `bar ${moment.bar} beat ${printBeat(moment.beat)}`;
}
