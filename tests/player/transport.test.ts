import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  afterCommand,
  atStart,
  endOfRun,
  positionAt,
  stepAt,
  type Command,
  type Transport,
} from '../../src/player/transport.js';
import type { Timeline } from '../../src/timeline/index.js';

/** Two steps of ten seconds; the first asks a question from second 6 to 9. */
const timeline: Timeline = {
  seconds: 20,
  steps: [
    { index: 0, title: 'one', start: 0, end: 10 },
    { index: 1, title: 'two', start: 10, end: 20 },
  ],
  events: [{ kind: 'question', ask: '1.1', step: 0, action: 0, start: 6, end: 9 }],
};

const after = (from: Transport, ...commands: readonly (readonly [Command, number])[]): Transport =>
  commands.reduce((state, [command, now]) => afterCommand(state, command, timeline, now), from);

describe('transport', () => {
  test('play prepares, the first sound starts the run, which goes to the question', () => {
    expect(after(atStart, [{ kind: 'play' }, 100])).toEqual({ kind: 'preparing', at: 0, stopAt: Infinity });
    expect(after(atStart, [{ kind: 'play' }, 100], [{ kind: 'started', since: 100.2 }, 100.1])).toEqual({
      kind: 'running',
      at: 0,
      since: 100.2,
      until: 6,
      stopAt: Infinity,
    });
  });

  test('the place is that of the clock, and never before the sound or behind the end of the run', () => {
    const running: Transport = { kind: 'running', at: 2, since: 50, until: 6, stopAt: Infinity };
    expect(positionAt(running, 49.9)).toBe(2);
    expect(positionAt(running, 51.5)).toBe(3.5);
    expect(positionAt(running, 99)).toBe(6);
  });

  test('pause keeps the place, play goes on from it', () => {
    const running: Transport = { kind: 'running', at: 2, since: 50, until: 6, stopAt: Infinity };
    expect(after(running, [{ kind: 'pause' }, 51.5])).toEqual({ kind: 'resting', at: 3.5 });
    expect(after(running, [{ kind: 'pause' }, 51.5], [{ kind: 'play' }, 80])).toEqual({
      kind: 'preparing',
      at: 3.5,
      stopAt: Infinity,
    });
  });

  test('at the question the run waits, and goes on behind it', () => {
    const running: Transport = { kind: 'running', at: 2, since: 50, until: 6, stopAt: Infinity };
    expect(after(running, [{ kind: 'tick' }, 53.9])).toBe(running);
    expect(after(running, [{ kind: 'tick' }, 54])).toEqual({
      kind: 'asking',
      at: 6,
      ask: '1.1',
      stopAt: Infinity,
    });
    expect(after(running, [{ kind: 'tick' }, 54], [{ kind: 'continue' }, 90])).toEqual({
      kind: 'preparing',
      at: 9,
      stopAt: Infinity,
    });
  });

  test('at the end it rests, and play starts over', () => {
    const running: Transport = { kind: 'running', at: 15, since: 50, until: 20, stopAt: Infinity };
    expect(after(running, [{ kind: 'tick' }, 55])).toEqual({ kind: 'resting', at: 20 });
    expect(after(running, [{ kind: 'tick' }, 55], [{ kind: 'play' }, 60])).toEqual({
      kind: 'preparing',
      at: 0,
      stopAt: Infinity,
    });
  });

  test('a jump goes on playing if it played, else rests there, inside the lesson', () => {
    const running: Transport = { kind: 'running', at: 2, since: 50, until: 6, stopAt: Infinity };
    expect(after(running, [{ kind: 'seek', to: 12 }, 51])).toEqual({
      kind: 'preparing',
      at: 12,
      stopAt: Infinity,
    });
    expect(after(atStart, [{ kind: 'seek', to: 12 }, 51])).toEqual({ kind: 'resting', at: 12 });
    expect(after(atStart, [{ kind: 'seek', to: -3 }, 51])).toEqual({ kind: 'resting', at: 0 });
    expect(after(atStart, [{ kind: 'seek', to: 99 }, 51])).toEqual({ kind: 'resting', at: 20 });
  });

  test('one step or example rests at its end, also when a question stands in it', () => {
    const part = after(
      atStart,
      [{ kind: 'play', from: 2, stopAt: 10 }, 50],
      [{ kind: 'started', since: 50 }, 50],
    );
    expect(part).toEqual({ kind: 'running', at: 2, since: 50, until: 6, stopAt: 10 });
    const behind = after(
      part,
      [{ kind: 'tick' }, 54],
      [{ kind: 'continue' }, 60],
      [{ kind: 'started', since: 60 }, 60],
    );
    expect(behind).toEqual({ kind: 'running', at: 9, since: 60, until: 10, stopAt: 10 });
    expect(after(behind, [{ kind: 'tick' }, 61])).toEqual({ kind: 'resting', at: 10 });
    // A jump out of it plays on.
    expect(after(behind, [{ kind: 'seek', to: 12 }, 60.5])).toEqual({
      kind: 'preparing',
      at: 12,
      stopAt: Infinity,
    });
  });

  test('a sound that comes too late does nothing', () => {
    const state: Transport = { kind: 'resting', at: 3 };
    expect(after(state, [{ kind: 'started', since: 5 }, 5])).toBe(state);
  });

  test('runs end at the next question, else at the end of the lesson', () => {
    expect([0, 5.9, 6, 7, 15].map(at => endOfRun(timeline, at))).toEqual([6, 6, 20, 20, 20]);
  });

  test('a moment belongs to the step that began last', () => {
    expect([0, 9.99, 10, 20].map(at => stepAt(timeline, at))).toEqual([0, 0, 1, 1]);
  });

  test('whatever is pressed, the place stays inside the lesson and time never runs back while it plays', () => {
    const command = fc.oneof(
      fc.constant<Command>({ kind: 'play' }),
      fc.constant<Command>({ kind: 'pause' }),
      fc.constant<Command>({ kind: 'tick' }),
      fc.constant<Command>({ kind: 'continue' }),
      fc.double({ min: -5, max: 30, noNaN: true }).map((to): Command => ({ kind: 'seek', to })),
      fc.double({ min: 0, max: 1, noNaN: true }).map((since): Command => ({ kind: 'started', since })),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(command, fc.double({ min: 0, max: 3, noNaN: true }))), script => {
        let state = atStart;
        let now = 0;
        for (const [next, later] of script) {
          const before = positionAt(state, now);
          now += later;
          if (state.kind === 'running') expect(positionAt(state, now)).toBeGreaterThanOrEqual(before);
          state = afterCommand(
            state,
            next.kind === 'started' ? { kind: 'started', since: now + next.since } : next,
            timeline,
            now,
          );
          expect(positionAt(state, now)).toBeGreaterThanOrEqual(0);
          expect(positionAt(state, now)).toBeLessThanOrEqual(timeline.seconds);
        }
      }),
      { seed: 1 },
    );
  });
});
