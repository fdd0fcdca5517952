import type { Stretch } from './stretch.js';

/** The shortest part of a recording that can be kept, in seconds. */
export const shortestCut = 0.1;

const within = (value: number, least: number, most: number): number => Math.min(Math.max(value, least), most);

/**
 * Moves one end of a cut; the other one stays, and the end that moves keeps its distance from it.
 * @param seconds length of the recording
 */
export function moveEnd(cut: Stretch, end: 'from' | 'to', to: number, seconds: number): Stretch {
  return end === 'from'
    ? { from: within(to, 0, Math.max(0, cut.to - shortestCut)), to: cut.to }
    : { from: cut.from, to: within(to, Math.min(seconds, cut.from + shortestCut), seconds) };
}

/** The end that is nearer to a place. */
export const nearerEnd = ({ from, to }: Stretch, place: number): 'from' | 'to' =>
  Math.abs(place - from) <= Math.abs(place - to) ? 'from' : 'to';
