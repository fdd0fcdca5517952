/** One piece of the signal, long enough for two periods of a low voice, in seconds. */
const windowSeconds = 0.03;
/** How far a piece may be shifted to fit the one before it: more than a period of a low voice. */
const searchSeconds = 0.009;
/** Only every so many samples are compared; speech has little above the frequency that this leaves. */
const coarse = 4;

/** The shift near `wanted` at which `source` goes on most like it does from `natural`. */
function bestShift(
  source: Float32Array,
  natural: number,
  wanted: number,
  reach: number,
  size: number,
): number {
  let best = 0;
  let greatest = -Infinity;
  for (let shift = -reach; shift <= reach; shift += coarse) {
    let sum = 0;
    let energy = 1e-9;
    for (let at = 0; at < size; at += coarse) {
      const there = source[wanted + shift + at] ?? 0;
      sum += there * (source[natural + at] ?? 0);
      energy += there * there;
    }
    const likeness = sum / Math.sqrt(energy);
    if (likeness > greatest) {
      greatest = likeness;
      best = shift;
    }
  }
  return best;
}

/**
 * Makes speech longer or shorter by `factor` without changing its pitch: overlapping pieces are laid closer or wider, each shifted a
 * little so that it goes on like the one before (waveform similarity overlap-add; Verhelst and Roelands, ICASSP 1993). Yields now and
 * then, so that a caller can give way; returns the new signal.
 */
export function* stretched(
  source: Float32Array,
  sampleRate: number,
  factor: number,
): Generator<undefined, Float32Array<ArrayBuffer>> {
  const hop = Math.round((windowSeconds * sampleRate) / 2);
  const size = 2 * hop;
  const reach = Math.round(searchSeconds * sampleRate);
  const result = new Float32Array(Math.round(source.length * factor));
  let taken = 0;
  for (let piece = 0; piece * hop < result.length; piece++) {
    const wanted = Math.round((piece * hop) / factor);
    const from = piece === 0 ? 0 : wanted + bestShift(source, taken + hop, wanted, reach, size);
    for (let at = 0; at < size; at++) {
      const to = piece * hop + at;
      if (to >= result.length) break;
      // The first piece has nothing before it to grow out of.
      const weight = piece === 0 && at < hop ? 1 : 0.5 - 0.5 * Math.cos((Math.PI * at) / hop);
      result[to] = (result[to] ?? 0) + weight * (source[from + at] ?? 0);
    }
    taken = from;
    if (piece % 16 === 15) yield undefined;
  }
  return result;
}
