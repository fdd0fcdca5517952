import { captionCues } from '../timeline/index.js';
import type { CaptionStyle, Timeline } from '../timeline/index.js';
import { timeCode } from './time-code.js';
import { escapeCueText } from './webvtt-text.js';

/** Captions of the narration as WebVTT (W3C WebVTT, text/vtt, UTF-8). */
export function captionsWebvtt(timeline: Timeline, style?: CaptionStyle): string {
  const cues = captionCues(timeline, style).map(
    (cue, index) =>
      `${String(index + 1)}\n${timeCode(cue.start, '.')} --> ${timeCode(cue.end, '.')}\n${cue.lines.map(escapeCueText).join('\n')}\n`,
  );
  return ['WEBVTT\n', ...cues].join('\n');
}
