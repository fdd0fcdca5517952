/**
 * Levels of the two sources. Measured with the loudness meter of src/sound (ITU-R BS.1770) over the sample lesson: the synthesiser comes
 * at -36 LUFS, the embedded voice at -13; with these factors both come at -21.
 */
export const musicLevel = 5.6;
export const speechLevel = 0.41;

/** Under spoken words music is lowered by 20 dB (WCAG 2.2, success criterion 1.4.7), with ramps in seconds as in the mixed audio. */
const loweredTo = 0.1;
const rampDown = 0.3;
const rampUp = 0.6;

/** Plans the lowering of a gain; `spans` are in the time of the context, and what lies before `now` is past. */
export function planLowering(
  gain: AudioParam,
  spans: readonly { readonly start: number; readonly end: number }[],
  now: number,
): void {
  for (const { start, end } of spans) {
    if (end + rampUp <= now) continue;
    if (start - rampDown > now) {
      gain.setValueAtTime(1, start - rampDown);
      gain.linearRampToValueAtTime(loweredTo, start);
    } else {
      gain.setValueAtTime(loweredTo, now);
    }
    gain.setValueAtTime(loweredTo, Math.max(now, end));
    gain.linearRampToValueAtTime(1, Math.max(now, end) + rampUp);
  }
}

/** Straight up to this height, then bending, so that the loudest chords do not crackle. */
const kneeAt = 0.8;

/** A curve for a WaveShaperNode: what is under the knee passes as it is, nothing goes over 1. The input is halved before it. */
export function softCeiling(): Float32Array<ArrayBuffer> {
  const curve = new Float32Array(4097);
  for (let at = 0; at < curve.length; at++) {
    const input = ((at / (curve.length - 1)) * 2 - 1) * 2;
    const size = Math.abs(input);
    const bent = kneeAt + (1 - kneeAt) * Math.tanh((size - kneeAt) / (1 - kneeAt));
    curve[at] = Math.sign(input) * (size <= kneeAt ? size : bent);
  }
  return curve;
}
