/** A stretch of sound that is being heard. */
export interface Listening {
  /** Where it is, in seconds of the recording. */
  readonly at: () => number;
  readonly stop: () => void;
}

/**
 * Plays a stretch of a recording.
 * @param over called when it has come to its end or was stopped
 */
export function listenTo(
  context: AudioContext,
  sound: AudioBuffer,
  { from, to }: { readonly from: number; readonly to: number },
  over: () => void,
): Listening {
  const source = new AudioBufferSourceNode(context, { buffer: sound });
  source.connect(context.destination);
  const began = context.currentTime;
  source.addEventListener('ended', over);
  source.start(began, from, Math.max(0, to - from));
  return {
    at: () => Math.min(to, from + context.currentTime - began),
    stop: () => {
      source.stop();
    },
  };
}
