/** Beats before a recording begins, in seconds apart; common practice: three, at an easy pace. */
const beats = 3;
const apart = 0.75;
/** A tick that is over long before the next beat, in seconds, and soft: nobody should start. */
const tick = { length: 0.04, frequency: 880, amplitude: 0.06 };

function soundTick(context: AudioContext, at: number): void {
  const tone = new OscillatorNode(context, { frequency: tick.frequency });
  const swell = new GainNode(context, { gain: 0 });
  swell.gain.setValueAtTime(tick.amplitude, at);
  swell.gain.exponentialRampToValueAtTime(tick.amplitude / 1000, at + tick.length);
  tone.connect(swell).connect(context.destination);
  tone.start(at);
  tone.stop(at + tick.length);
}

/**
 * Counts three, two, one.
 * @param told hears how many beats are left, 0 when it is time
 * @returns whether it came to its end; the signal stops it
 */
export function countIn(
  context: AudioContext,
  told: (left: number) => void,
  signal: AbortSignal,
): Promise<boolean> {
  return new Promise(resolve => {
    let left = beats;
    const beat = (): void => {
      if (signal.aborted) return;
      told(left);
      if (left === 0) {
        resolve(true);
        return;
      }
      soundTick(context, context.currentTime);
      left -= 1;
      waiting = setTimeout(beat, apart * 1000);
    };
    let waiting: ReturnType<typeof setTimeout> | undefined;
    signal.addEventListener('abort', () => {
      clearTimeout(waiting);
      resolve(false);
    });
    beat();
  });
}
