import type { Timeline } from './model.js';

/** A chapter of the lesson, in seconds. */
export interface Chapter {
  readonly start: number;
  readonly end: number;
  readonly title: string;
}

/** One chapter for each step that takes time, in order and without a gap. */
export function chaptersOf(timeline: Timeline): readonly Chapter[] {
  return timeline.steps
    .filter(step => step.end > step.start)
    .map(step => ({
      start: step.start,
      end: step.end,
      title: step.title.replace(/\s+/gu, ' ').trim() || `Step ${String(step.index + 1)}`,
    }));
}
