import type { Timeline } from '../timeline/index.js';
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
  readonly transport: Transport;
  /** Seconds of the lesson. */
  readonly at: number;
  readonly step: number;
  /** False while the sound for this moment is still on its way. */
  readonly heard: boolean;
  /** Why the sound failed, in the browser's words. */
  readonly trouble?: string;
}

export interface LessonPlayer {
  readonly send: (command: Command) => void;
  readonly progress: () => Progress;
}

/**
 * Runs the transport on the clock of the sound: commands change its state, the state starts and stops the sound, and `onProgress`
 * hears every change and, while the lesson runs, every frame.
 */
export function lessonPlayer(
  timeline: Timeline,
  sound: Sound,
  onProgress: (progress: Progress) => void,
): LessonPlayer {
  let transport: Transport = atStart;
  let trouble: string | undefined;
  let frame = 0;

  const progress = (): Progress => {
    const now = sound.heard();
    const at = positionAt(transport, now);
    const heard = transport.kind !== 'preparing' && (transport.kind !== 'running' || now >= transport.since);
    return {
      transport,
      at,
      step: stepAt(timeline, at),
      heard,
      ...(trouble === undefined ? {} : { trouble }),
    };
  };

  const isMoving = (state: Transport): boolean => state.kind === 'running' || state.kind === 'preparing';

  const onFrame = (): void => {
    frame = 0;
    send({ kind: 'tick' });
    onProgress(progress());
    if (isMoving(transport)) frame = requestAnimationFrame(onFrame);
  };

  const startSound = async (prepared: Transport): Promise<void> => {
    try {
      const since = await sound.start(prepared.at, endOfRun(timeline, prepared.at));
      if (transport === prepared) send({ kind: 'started', since });
    } catch (error) {
      if (error instanceof Interrupted || transport !== prepared) return;
      trouble = error instanceof Error ? error.message : String(error);
      send({ kind: 'pause' });
    }
  };

  function send(command: Command): void {
    const before = transport;
    transport = afterCommand(before, command, timeline, sound.heard());
    if (transport === before) return;
    if (transport.kind === 'preparing') {
      trouble = undefined;
      if (isMoving(before)) sound.stop();
      void startSound(transport);
    } else if (isMoving(before) && command.kind !== 'started' && command.kind !== 'tick') {
      // At the end of a run the last notes ring on; only a command cuts them off.
      sound.stop();
    }
    onProgress(progress());
    if (isMoving(transport) && frame === 0) frame = requestAnimationFrame(onFrame);
  }

  return { send, progress };
}
