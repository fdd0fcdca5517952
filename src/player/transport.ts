import type { Timeline } from '../timeline/index.js';

/**
 * Where the lesson is and whether it runs. `at` is a time of what is played, `since` a reading of the clock, `stopAt` where to rest although
 * the lesson goes on (one step, one example); all in seconds.
 */
export type Transport =
  | { readonly kind: 'resting'; readonly at: number }
  /** The sound for `at` is being made ready. */
  | { readonly kind: 'preparing'; readonly at: number; readonly stopAt: number }
  /** `at` was heard when the clock read `since`; the run ends at `until`. */
  | {
      readonly kind: 'running';
      readonly at: number;
      readonly since: number;
      readonly until: number;
      readonly stopAt: number;
    }
  /** A question waits for its answer. */
  | { readonly kind: 'asking'; readonly at: number; readonly ask: string; readonly stopAt: number };

export type Command =
  /** `from` where it is to begin elsewhere than it stands. */
  | { readonly kind: 'play'; readonly from?: number; readonly stopAt?: number }
  | { readonly kind: 'pause' }
  | { readonly kind: 'seek'; readonly to: number }
  /** The sound for the prepared time is heard when the clock reads `since`. */
  | { readonly kind: 'started'; readonly since: number }
  /** Time has passed. */
  | { readonly kind: 'tick' }
  /** Goes on behind the question. */
  | { readonly kind: 'continue' };

export const atStart: Transport = { kind: 'resting', at: 0 };

/** Time of the lesson when the clock reads `now`. */
export function positionAt(transport: Transport, now: number): number {
  if (transport.kind !== 'running') return transport.at;
  return Math.min(transport.until, transport.at + Math.max(0, now - transport.since));
}

const questionsOf = (timeline: Timeline) => timeline.events.filter(event => event.kind === 'question');

/** Where a run from `at` ends: at the next question, else at the end of the lesson, and at `stopAt` at the latest. */
export function endOfRun(timeline: Timeline, at: number, stopAt = Infinity): number {
  const question = questionsOf(timeline).find(({ start }) => start > at);
  return Math.min(stopAt, question?.start ?? timeline.seconds);
}

function arrived(timeline: Timeline, at: number, stopAt: number): Transport {
  const question = questionsOf(timeline).find(({ start }) => start === at);
  return question === undefined ? { kind: 'resting', at } : { kind: 'asking', at, ask: question.ask, stopAt };
}

/** The state after a command. `now` is the reading of the clock. A command that makes no sense in a state leaves it as it is. */
export function afterCommand(
  transport: Transport,
  command: Command,
  timeline: Timeline,
  now: number,
): Transport {
  const at = positionAt(transport, now);
  switch (command.kind) {
    case 'play': {
      const { from, stopAt = Infinity } = command;
      if (from !== undefined) return { kind: 'preparing', at: from, stopAt };
      if (transport.kind !== 'resting') return transport;
      return { kind: 'preparing', at: at >= timeline.seconds ? 0 : at, stopAt };
    }
    case 'pause':
      return transport.kind === 'asking' ? transport : { kind: 'resting', at };
    case 'seek': {
      const to = Math.min(timeline.seconds, Math.max(0, command.to));
      if (transport.kind !== 'running' && transport.kind !== 'preparing') return { kind: 'resting', at: to };
      // Whoever leaves the step or example wants to hear on from there.
      return { kind: 'preparing', at: to, stopAt: to < transport.stopAt ? transport.stopAt : Infinity };
    }
    case 'started':
      if (transport.kind !== 'preparing') return transport;
      return {
        kind: 'running',
        at,
        since: command.since,
        until: endOfRun(timeline, at, transport.stopAt),
        stopAt: transport.stopAt,
      };
    case 'tick':
      return transport.kind === 'running' && at >= transport.until
        ? arrived(timeline, at, transport.stopAt)
        : transport;
    case 'continue': {
      if (transport.kind !== 'asking') return transport;
      const question = questionsOf(timeline).find(({ ask }) => ask === transport.ask);
      return { kind: 'preparing', at: question?.end ?? at, stopAt: transport.stopAt };
    }
  }
}

/** Index of the step that a moment belongs to. */
export function stepAt(timeline: Timeline, at: number): number {
  const step = timeline.steps.findLast(({ start }) => start <= at + 1e-9);
  return step?.index ?? 0;
}
