/** Length of one window in seconds. */
const windowSeconds = 0.001;
/** How far before and after the expected moment an onset is looked for, in windows. */
const before = 25;
const after = 35;
/** An attack stands out where the energy grows at least this much. */
const standsOut = 2.5;

const bend = (samples: Float32Array, at: number): number =>
  (samples[at] ?? 0) - 2 * (samples[at - 1] ?? 0) + (samples[at - 2] ?? 0);

/**
 * When a note is heard to begin near `expected` seconds of the recording, while others still ring: the first window of 1 ms in which the
 * energy of the high part of the signal (its second difference, where an attack shows) has left what was there before by a tenth of the way to its
 * greatest value. `undefined` where no attack stands out.
 */
export function onsetNear(samples: Float32Array, sampleRate: number, expected: number): number | undefined {
  const energies = Array.from({ length: before + after }, (_, window) => {
    const start = Math.round((expected + (window - before) * windowSeconds) * sampleRate);
    const end = Math.round((expected + (window + 1 - before) * windowSeconds) * sampleRate);
    let sum = 0;
    for (let at = start; at < end; at++) sum += bend(samples, at) ** 2;
    return sum;
  });
  const rest = Math.max(...energies.slice(0, before - 10));
  const greatest = Math.max(...energies);
  if (greatest === 0 || greatest < rest * standsOut) return undefined;
  const found = energies.findIndex(energy => energy > rest + (greatest - rest) / 10);
  return expected + (found + 0.5 - before) * windowSeconds;
}
