import type { Timeline } from '../timeline/index.js';

/** The timeline as JSON: `barwise` is the version of the contract, times are seconds from the start. */
export function timelineJson(timeline: Timeline): string {
  const { seconds, steps, events } = timeline;
  return `${JSON.stringify({ barwise: 1, seconds, steps, events }, undefined, 2)}\n`;
}
