import { captionCues } from '../timeline/index.js';
import type { CaptionStyle, Timeline } from '../timeline/index.js';
import { timeCode } from './time-code.js';

/** Captions as SRT, for hosts that take no WebVTT. A convention without a standard: counter, comma before the milliseconds, blank line. */
export function captionsSrt(timeline: Timeline, style?: CaptionStyle): string {
  return captionCues(timeline, style)
    .map(
      (cue, index) =>
        `${String(index + 1)}\n${timeCode(cue.start, ',')} --> ${timeCode(cue.end, ',')}\n${cue.lines.join('\n')}\n`,
    )
    .join('\n');
}
