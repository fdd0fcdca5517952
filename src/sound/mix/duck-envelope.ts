/** Ramps of the music when words begin and end over it, in seconds; common practice. */
const fadeDownSeconds = 0.3;
const fadeUpSeconds = 0.6;

/** How much the music is lowered at a moment, from 0 (not) to 1 (fully), for spans in which words are spoken over it. */
export function duckEnvelope(
  spans: readonly { readonly start: number; readonly end: number }[],
): (seconds: number) => number {
  let near = 0;
  return seconds => {
    while (near > 0 && (spans[near]?.start ?? 0) - fadeDownSeconds > seconds) near -= 1;
    while (near < spans.length - 1 && (spans[near]?.end ?? 0) + fadeUpSeconds < seconds) near += 1;
    const span = spans[near];
    if (span === undefined) return 0;
    const down = (seconds - (span.start - fadeDownSeconds)) / fadeDownSeconds;
    const up = (span.end + fadeUpSeconds - seconds) / fadeUpSeconds;
    return Math.max(0, Math.min(1, down, up));
  };
}
