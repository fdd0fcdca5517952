/** Sound is made this far ahead of what is heard, in seconds: enough for a page in the background, whose timers run once a second. */
const ahead = 4;

/** One stretch of sound between a start and a stop. */
export interface Run {
  readonly context: AudioContext;
  readonly music: GainNode;
  readonly speech: GainNode;
  /** The moment of the lesson that it begins with, and the time of the context at which that is heard. */
  readonly from: number;
  readonly zero: number;
  /** Nothing that begins at this moment of the lesson or later belongs to it. */
  readonly until: number;
  readonly isOver: () => boolean;
}

export const pause = (milliseconds: number): Promise<void> =>
  new Promise(resolve => setTimeout(resolve, milliseconds));

/** Waits until `when` on the context's clock is near enough to be prepared. False where the run is over. */
export async function isNear({ context, isOver }: Run, when: number): Promise<boolean> {
  while (!isOver() && when > context.currentTime + ahead) await pause(250);
  return !isOver();
}

/** Plays `buffer` into `bus` at `when`, from `skip` seconds inside it. What is late begins further inside, so that it stays in step. */
export function playAt(
  { context }: Run,
  buffer: AudioBuffer,
  bus: AudioNode,
  when: number,
  skip: number,
): void {
  const late = Math.max(0, context.currentTime - when);
  if (skip + late >= buffer.duration) return;
  const source = new AudioBufferSourceNode(context, { buffer });
  source.connect(bus);
  source.start(when + late, skip + late);
}
