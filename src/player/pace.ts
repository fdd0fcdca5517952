import type { Timeline, TimelineEvent } from '../timeline/index.js';

/** How fast music and words run; 1 is as the lesson was made. */
export interface Pace {
  readonly music: number;
  readonly speech: number;
}

/** A timeline at another pace. Lesson seconds are those of the original, clock seconds those that pass. */
export interface Paced {
  readonly timeline: Timeline;
  readonly pace: Pace;
  readonly toClock: (lessonSeconds: number) => number;
  readonly toLesson: (clockSeconds: number) => number;
}

interface Stretch {
  readonly lesson: number;
  readonly clock: number;
  /** Clock seconds for one second of the lesson from here on. */
  readonly factor: number;
}

interface Span {
  start: number;
  end: number;
  speech: boolean;
}

/** What sounds without a gap, with whether anything is spoken in it. */
function soundingSpans(events: readonly TimelineEvent[]): readonly Span[] {
  const spans: Span[] = [];
  for (const { kind, start, end } of events) {
    if (kind !== 'passage' && kind !== 'speech') continue;
    const last = spans.at(-1);
    // Spans that only touch keep a pace of their own.
    if (last !== undefined && start < last.end - 1e-6) {
      last.end = Math.max(last.end, end);
      last.speech ||= kind === 'speech';
    } else spans.push({ start, end, speech: kind === 'speech' });
  }
  return spans;
}

function stretchesOf(timeline: Timeline, pace: Pace): readonly Stretch[] {
  const stretches: Stretch[] = [{ lesson: 0, clock: 0, factor: 1 }];
  const add = (lesson: number, factor: number): void => {
    const last = stretches.at(-1);
    if (last === undefined) return;
    stretches.push({ lesson, clock: last.clock + (lesson - last.lesson) * last.factor, factor });
  };
  for (const { start, end, speech } of soundingSpans(timeline.events)) {
    add(start, 1 / (speech ? pace.speech : pace.music));
    add(end, 1);
  }
  return stretches;
}

function stretchAt(stretches: readonly Stretch[], of: 'lesson' | 'clock', at: number): Stretch | undefined {
  let low = 0;
  let high = stretches.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((stretches[middle]?.[of] ?? 0) <= at) low = middle;
    else high = middle - 1;
  }
  return stretches[low];
}

/**
 * The timeline at a pace: music at one, speech at another, silences as they are. Where words are spoken over music the words set the pace
 * of both, so that they stay with the notes that they are about.
 */
export function paced(timeline: Timeline, pace: Pace): Paced {
  if (pace.music === 1 && pace.speech === 1) return { timeline, pace, toClock: at => at, toLesson: at => at };
  const stretches = stretchesOf(timeline, pace);
  const toClock = (at: number): number => {
    const here = stretchAt(stretches, 'lesson', at);
    return here === undefined ? at : here.clock + (at - here.lesson) * here.factor;
  };
  const toLesson = (at: number): number => {
    const here = stretchAt(stretches, 'clock', at);
    return here === undefined ? at : here.lesson + (at - here.clock) / here.factor;
  };
  const moved = <T extends { readonly start: number; readonly end: number }>(one: T): T => ({
    ...one,
    start: toClock(one.start),
    end: toClock(one.end),
  });
  return {
    pace,
    toClock,
    toLesson,
    timeline: {
      seconds: toClock(timeline.seconds),
      steps: timeline.steps.map(moved),
      events: timeline.events.map(event =>
        event.kind === 'speech' ? { ...moved(event), words: event.words.map(moved) } : moved(event),
      ),
    },
  };
}
