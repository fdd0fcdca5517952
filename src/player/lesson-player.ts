import type { Timeline } from '../timeline/index.js';
import { paced, type Pace, type Paced } from './pace.js';
import { Interrupted, type Sound } from './sound/sound.js';
import {
  afterCommand,
  atStart,
  endOfRun,
  positionAt,
  stepAt,
  type Command,
  type Transport,
} from './transport.js';

/** Where the lesson is right now. */
export interface Progress {
  /** Seconds of the lesson; stands still while an excerpt plays. */
  readonly at: number;
  readonly step: number;
  /** True while anything plays or is about to. */
  readonly moving: boolean;
  /** Id of the question that the lesson waits at. */
  readonly asking?: string;
  /**
   * What sounds: a moment of the lesson or of an excerpt; while it moves, the moment at which the frame that is now drawn is seen on the whole.
   * Absent at rest and while the sound is still on its way.
   */
  readonly playing?: { readonly timeline: Timeline; readonly at: number };
  /** Name of the excerpt that plays. */
  readonly excerpt?: string;
  /** Why the sound failed, in the browser's words. */
  readonly trouble?: string;
}

/** Music outside the lesson's order: a bar, a note, a loop. */
export interface ExcerptToPlay {
  readonly name: string;
  readonly timeline: Timeline;
  /** Begins again when it is over, until it is stopped. */
  readonly again: boolean;
}

export interface LessonPlayer {
  /** Commands of the lesson, in lesson seconds. An excerpt that plays is stopped by them. */
  readonly send: (command: Command) => void;
  readonly playExcerpt: (excerpt: ExcerptToPlay) => void;
  readonly setPace: (pace: Pace) => void;
  readonly progress: () => Progress;
}

/** The same moment, reckoned in floating point there and back. */
const sameMoment = 1e-6;
/** Half the time that one frame of the display stays, in seconds of the clock: marks come neither early nor late on the whole. */
const frameAhead = 0.008;

/**
 * Runs the transport on the clock of the sound: commands change its state, the state starts and stops the sound, and `onProgress`
 * hears every change and, while something plays, every frame.
 */
export function lessonPlayer(
  lesson: Timeline,
  sound: Sound,
  onProgress: (progress: Progress) => void,
): LessonPlayer {
  let pace: Pace = { music: 1, speech: 1 };
  let played: Paced = paced(lesson, pace);
  let transport: Transport = atStart;
  /** Set while an excerpt plays; `lessonAt` is how the lesson goes on after it. */
  let excerpt: (ExcerptToPlay & { readonly lesson: Transport; readonly lessonAt: number }) | undefined;
  let trouble: string | undefined;
  let frame = 0;

  const isMoving = (state: Transport): boolean => state.kind === 'running' || state.kind === 'preparing';

  const progress = (): Progress => {
    const now = sound.heard();
    const here = played.toLesson(positionAt(transport, now));
    const at = excerpt?.lessonAt ?? here;
    const seen = now + frameAhead;
    const heard = transport.kind !== 'preparing' && (transport.kind !== 'running' || seen >= transport.since);
    const timeline = excerpt?.timeline ?? lesson;
    const resting = excerpt?.lesson ?? transport;
    const step = stepAt(lesson, at + sameMoment);
    const atRest =
      transport.kind === 'resting' && Math.abs(at - (lesson.steps[step]?.start ?? 0)) < sameMoment;
    return {
      at,
      step,
      moving: isMoving(transport),
      ...(resting.kind === 'asking' ? { asking: resting.ask } : {}),
      ...(heard && !atRest
        ? {
            playing: {
              timeline,
              at: isMoving(transport) ? played.toLesson(positionAt(transport, seen)) : here + sameMoment,
            },
          }
        : {}),
      ...(excerpt === undefined ? {} : { excerpt: excerpt.name }),
      ...(trouble === undefined ? {} : { trouble }),
    };
  };

  const onFrame = (): void => {
    frame = 0;
    apply({ kind: 'tick' });
    onProgress(progress());
    if (isMoving(transport)) frame = requestAnimationFrame(onFrame);
  };

  const startSound = async (prepared: Transport & { readonly kind: 'preparing' }): Promise<void> => {
    try {
      const { at, stopAt } = prepared;
      const since = await sound.start(played, at, endOfRun(played.timeline, at, stopAt));
      if (transport === prepared) apply({ kind: 'started', since });
    } catch (error) {
      if (error instanceof Interrupted || transport !== prepared) return;
      trouble = error instanceof Error ? error.message : String(error);
      apply({ kind: 'pause' });
    }
  };

  /** Changes the state; times of the command are clock seconds of what is played. */
  function apply(command: Command): void {
    const before = transport;
    transport = afterCommand(before, command, played.timeline, sound.heard());
    if (transport === before) return;
    if (transport.kind === 'preparing') {
      trouble = undefined;
      if (isMoving(before)) sound.stop();
      void startSound(transport);
    } else if (isMoving(before) && command.kind !== 'started' && command.kind !== 'tick') {
      // At the end of a run the last notes ring on; only a command cuts them off.
      sound.stop();
    }
    if (excerpt !== undefined && transport.kind === 'resting') {
      if (excerpt.again && command.kind === 'tick') apply({ kind: 'play', from: 0 });
      else leaveExcerpt();
    }
    onProgress(progress());
    if (isMoving(transport) && frame === 0) frame = requestAnimationFrame(onFrame);
  }

  function leaveExcerpt(): void {
    if (excerpt === undefined) return;
    if (isMoving(transport)) sound.stop();
    const { lesson: kept, lessonAt } = excerpt;
    excerpt = undefined;
    played = paced(lesson, pace);
    const at = played.toClock(lessonAt);
    transport = kept.kind === 'asking' ? { ...kept, at } : { kind: 'resting', at };
  }

  const onClock = (command: Command): Command => {
    const moment = (at: number): number => (at === Infinity ? at : played.toClock(at));
    switch (command.kind) {
      case 'seek':
        return { kind: 'seek', to: moment(command.to) };
      case 'play': {
        const { from, stopAt = Infinity } = command;
        return {
          kind: 'play',
          ...(from === undefined ? {} : { from: moment(from) }),
          stopAt: moment(stopAt),
        };
      }
      default:
        return command;
    }
  };

  return {
    progress,
    send: command => {
      if (excerpt !== undefined) {
        leaveExcerpt();
        onProgress(progress());
        if (command.kind === 'pause') return;
      }
      apply(onClock(command));
    },
    playExcerpt: next => {
      const { at } = progress();
      if (isMoving(transport)) sound.stop();
      excerpt = { ...next, lesson: excerpt?.lesson ?? transport, lessonAt: at };
      played = paced(next.timeline, pace);
      transport = atStart;
      apply({ kind: 'play' });
    },
    setPace: next => {
      if (next.music === pace.music && next.speech === pace.speech) return;
      pace = next;
      const lessonMoment = (at: number): number => played.toLesson(at);
      const at = lessonMoment(positionAt(transport, sound.heard()));
      const stopAt =
        transport.kind === 'resting' || transport.stopAt === Infinity
          ? Infinity
          : lessonMoment(transport.stopAt);
      const wasMoving = isMoving(transport);
      played = paced(excerpt?.timeline ?? lesson, pace);
      if (transport.kind === 'asking') {
        transport = {
          ...transport,
          at: played.toClock(at),
          stopAt: stopAt === Infinity ? stopAt : played.toClock(stopAt),
        };
      } else {
        transport = { kind: 'resting', at: played.toClock(at) };
        if (wasMoving) {
          sound.stop();
          apply(onClock({ kind: 'play', stopAt }));
        }
      }
      onProgress(progress());
    },
  };
}
