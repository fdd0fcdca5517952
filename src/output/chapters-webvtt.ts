import { chaptersOf } from '../timeline/index.js';
import type { Timeline } from '../timeline/index.js';
import { timeCode } from './time-code.js';
import { escapeCueText } from './webvtt-text.js';

/** Chapters as WebVTT: one cue for each step, consecutive and not overlapping (W3C WebVTT, chapter title text). */
export function chaptersWebvtt(timeline: Timeline): string {
  const cues = chaptersOf(timeline).map(
    ({ start, end, title }, index) =>
      `${String(index + 1)}\n${timeCode(start, '.')} --> ${timeCode(end, '.')}\n${escapeCueText(title)}\n`,
  );
  return ['WEBVTT\n', ...cues].join('\n');
}
