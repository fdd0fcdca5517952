import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Action } from '../../src/lesson/index.js';
import type { Timeline, TimelineEvent } from '../../src/timeline/index.js';
import { buildTimeline } from '../../src/timeline/index.js';
import { ask, cMajor, lessonOf, play, say, scoreOf, strikes, timelineOf, wait } from './lessons.js';

const seed = 20260;
const score = scoreOf(
  'G- | G C2- (3C/D/E/ F | {B}c2 [CEG]2 :: z2 D- | D4 |1 E2 F- :|2 F3 z | !fermata!G4 |',
  ['Q:1/4=90'],
);

const playing = fc
  .record({
    first: fc.integer({ min: 0, max: 5 }),
    length: fc.integer({ min: 0, max: 3 }),
    as: fc.constantFrom('written' as const, 'stack' as const, 'block' as const, 'arpeggio' as const),
    tempo: fc.integer({ min: 25, max: 200 }),
    times: fc.integer({ min: 1, max: 3 }),
    loop: fc.integer({ min: 1, max: 3 }),
    under: fc.boolean(),
  })
  .map(({ first, length, ...more }) => play(`${String(first)}-${String(first + length)}`, more));
const action: fc.Arbitrary<Action> = fc.oneof(
  playing,
  fc.constantFrom('One.', 'A few words more, with a comma.').map(say),
  fc.double({ min: 0, max: 3, noNaN: true }).map(wait),
  fc.constant(0).map(() => ask('Which one?', ['C', 'D'], 'D')),
);
const steps = fc.array(fc.array(action, { maxLength: 6 }), { minLength: 1, maxLength: 4 });

const built = (script: readonly (readonly Action[])[]): Timeline =>
  buildTimeline({
    lesson: lessonOf(script, { sound: { instrument: 'piano', voices: [], pedal: script.length % 2 === 0 } }),
    score,
    chordsIn: cMajor,
  }).value;
const sounding = (event: TimelineEvent) =>
  event.kind === 'passage' || event.kind === 'speech' || event.kind === 'pause' || event.kind === 'question';

describe('any lesson', () => {
  it('has no gap: passages, words, pauses and questions cover it from start to end', () => {
    fc.assert(
      fc.property(steps, script => {
        const timeline = built(script);
        let covered = 0;
        for (const event of timeline.events.filter(sounding)) {
          expect(event.start).toBeLessThanOrEqual(covered);
          covered = Math.max(covered, event.end);
        }
        expect(covered).toBe(timeline.seconds);
      }),
      { seed, numRuns: 200 },
    );
  });

  it('overlaps nothing but words with the playing that is under them', () => {
    fc.assert(
      fc.property(steps, script => {
        const spans = built(script).events.filter(sounding);
        spans.forEach((event, index) => {
          const over = spans
            .slice(index + 1)
            .filter(other => other.start < event.end && other.end > event.start);
          const asked = event.kind === 'passage' && event.under;
          const words = event.kind === 'speech' && event.over;
          const allowed = over.every(
            other => (other.kind === 'speech' && other.over) || (words && other.step === event.step),
          );
          expect(over.length === 0 || ((asked || words || event.kind === 'pause') && allowed)).toBe(true);
        });
      }),
      { seed, numRuns: 200 },
    );
  });

  it('is monotone, inside its passage, and ends nothing before it starts', () => {
    fc.assert(
      fc.property(steps, script => {
        const timeline = built(script);
        timeline.events.forEach((event, index) => {
          expect(event.end).toBeGreaterThanOrEqual(event.start);
          expect(event.start).toBeGreaterThanOrEqual(timeline.events[index - 1]?.start ?? 0);
          if (event.kind !== 'note' && event.kind !== 'bar') return;
          const passages = timeline.events.filter(other => other.kind === 'passage');
          const inside = passages.some(
            other =>
              other.step === event.step &&
              other.action === event.action &&
              other.start <= event.start &&
              other.end + 1e-6 >= event.end,
          );
          expect(inside).toBe(true);
        });
        timeline.steps.forEach((step, index) => {
          expect(step.start).toBe(index === 0 ? 0 : timeline.steps[index - 1]?.end);
        });
        expect(timeline.steps.at(-1)?.end).toBe(timeline.seconds);
      }),
      { seed, numRuns: 200 },
    );
  });

  it('is the same for the same input', () => {
    fc.assert(
      fc.property(steps, script => {
        expect(built(script)).toEqual(built(script));
      }),
      { seed, numRuns: 20 },
    );
  });
});

describe('the piece as written', () => {
  it('takes the time of its unfolded bars, and every written note of each played bar sounds', () => {
    const whole = timelineOf(score, [play(`0-${score.bars.at(-1)?.label ?? ''}`)]);
    const heard = whole.events.flatMap(event => (event.kind === 'bar' ? [event.bar] : []));
    expect(heard).toEqual(score.playingOrder.map(played => played.bar));
    const written = score.playingOrder.flatMap(played =>
      score.notes.filter(note => note.bar === played.bar).map(note => note.id),
    );
    const sounded = whole.events.flatMap(event => (event.kind === 'note' ? event.notes : []));
    expect([...sounded].sort((a, b) => a - b)).toEqual([...written].sort((a, b) => a - b));
  });

  it('is the same music written out without repeat signs', () => {
    const folded = scoreOf('|: C2 D2- |1 D4 :|2 E4 | F4 |');
    const unfolded = scoreOf('C2 D2- | D4 | C2 D2 | E4 | F4 |');
    expect(strikes(timelineOf(folded, [play('1-3')]))).toEqual(strikes(timelineOf(unfolded, [play('1-5')])));
  });

  it('plays at half tempo in twice the time', () => {
    fc.assert(
      fc.property(fc.integer({ min: 10, max: 100 }), percent => {
        const starts = (tempo: number) =>
          timelineOf(scoreOf('C D/E/ (3FGA |'), [play('1', { tempo })]).events.flatMap(e =>
            e.kind === 'note' ? [e.start - 0.5] : [],
          );
        const [full, scaled] = [starts(100), starts(percent)];
        scaled.forEach((start, index) => {
          expect(start).toBeCloseTo(((full[index] ?? NaN) * 100) / percent, 4);
        });
      }),
      { seed, numRuns: 50 },
    );
  });
});
