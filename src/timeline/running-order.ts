import type { Lesson } from '../lesson/index.js';
import type { Timeline } from './model.js';
import { passageText } from './passage-text.js';
import { answerId } from './spoken-texts.js';

/** What happens in a lesson, in order: what an educator reads while rehearsing. Times are seconds. */
export type RunningOrderEntry = {
  readonly start: number;
  readonly end: number;
  /** Index of the step. */
  readonly step: number;
} & (
  | { readonly kind: 'play'; readonly text: string; readonly under: boolean }
  | {
      readonly kind: 'say' | 'ask' | 'answer';
      readonly id: string;
      readonly text: string;
      readonly over: boolean;
      readonly measured: boolean;
    }
  | { readonly kind: 'think' | 'wait' }
);

/** The running order of a timeline; silences that nobody asked for are left out. */
export function runningOrder(lesson: Lesson, timeline: Timeline): readonly RunningOrderEntry[] {
  const kinds = new Map<string, 'ask' | 'answer'>();
  for (const step of lesson.steps) {
    for (const action of step.script) {
      if (action.kind !== 'ask') continue;
      kinds.set(action.id, 'ask');
      kinds.set(answerId(action), 'answer');
    }
  }
  return timeline.events.flatMap((event): readonly RunningOrderEntry[] => {
    const at = { start: event.start, end: event.end, step: event.step };
    switch (event.kind) {
      case 'passage':
        return [{ ...at, kind: 'play', text: passageText(event), under: event.under }];
      case 'speech': {
        const { say: id, text, over, measured } = event;
        return [{ ...at, kind: kinds.get(id) ?? 'say', id, text, over, measured }];
      }
      case 'question':
        return [{ ...at, kind: 'think' }];
      case 'pause':
        return event.reason === 'wait' ? [{ ...at, kind: 'wait' }] : [];
      case 'bar':
      case 'note':
        return [];
    }
  });
}
