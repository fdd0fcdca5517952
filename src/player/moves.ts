import type { PageData } from '../timeline/index.js';
import type { LessonPlayer } from './lesson-player.js';

/** Going back within this time of a step's start means the step before. */
const backWithin = 2;

/** The ways through a lesson that its buttons and keys offer. */
export interface Moves {
  readonly toggle: () => void;
  readonly goTo: (step: number) => void;
  readonly next: () => void;
  readonly previous: () => void;
  /** The current step from its start, and no further. */
  readonly again: () => void;
  readonly playStep: (step: number) => void;
  readonly playAction: (step: number, action: number) => void;
  readonly playFrom: (at: number) => void;
}

export function lessonMoves({ steps, timeline }: PageData, player: LessonPlayer): Moves {
  const goTo = (step: number): void => {
    const start = timeline.steps[step]?.start;
    if (start !== undefined) player.send({ kind: 'seek', to: start });
  };
  const playStep = (step: number): void => {
    const times = timeline.steps[step];
    if (times !== undefined) player.send({ kind: 'play', from: times.start, stopAt: times.end });
  };
  return {
    goTo,
    playStep,
    toggle: () => {
      const { asking, moving } = player.progress();
      if (moving) player.send({ kind: 'pause' });
      else player.send({ kind: asking === undefined ? 'play' : 'continue' });
    },
    next: () => {
      goTo(Math.min(steps.length - 1, player.progress().step + 1));
    },
    previous: () => {
      const { at, step } = player.progress();
      const start = timeline.steps[step]?.start ?? 0;
      goTo(at > start + backWithin ? step : Math.max(0, step - 1));
    },
    again: () => {
      playStep(player.progress().step);
    },
    playAction: (step, action) => {
      const events = timeline.events.filter(one => one.step === step && one.action === action);
      const start = events[0]?.start;
      const ends = events.flatMap(({ kind, end }) => (kind === 'pause' ? [] : [end]));
      if (start !== undefined) player.send({ kind: 'play', from: start, stopAt: Math.max(start, ...ends) });
    },
    playFrom: at => {
      player.send({ kind: 'play', from: at });
    },
  };
}

/** The step that the address of the page names (`#step-3`), counted from 0. */
export function linkedStep(hash: string): number | undefined {
  const step = /^#step-([1-9]\d*)$/.exec(hash)?.[1];
  return step === undefined ? undefined : Number(step) - 1;
}
