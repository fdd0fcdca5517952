import type { Timeline } from './model.js';

/** Spans in which music is lowered because words are spoken over it, in order and not overlapping. */
export function spokenOverSpans(
  timeline: Timeline,
  joinGap = 0.8,
): readonly { readonly start: number; readonly end: number }[] {
  const spans: { start: number; end: number }[] = [];
  for (const event of timeline.events) {
    if (event.kind !== 'speech' || !event.over) continue;
    const before = spans.at(-1);
    if (before !== undefined && event.start - before.end <= joinGap)
      before.end = Math.max(before.end, event.end);
    else spans.push({ start: event.start, end: event.end });
  }
  return spans;
}
