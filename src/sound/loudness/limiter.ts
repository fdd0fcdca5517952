import { interpolatedPeak, staysUnder, truePeakTaps } from './true-peak.js';

/** How far the limiter looks ahead, in seconds: the gain is down when the peak comes. */
const lookAheadSeconds = 0.005;
/** How long the gain takes to come back by two thirds, in seconds. Common practice for speech: 50 ms to 200 ms. */
const releaseSeconds = 0.1;

/**
 * Lowers peaks so that the true peak stays under `ceiling` (full scale 1). Below it the sound is multiplied by 1 and only that. The
 * output is as long as the input and in step with it.
 */
export async function* limit(
  blocks: AsyncIterable<Float32Array>,
  ceiling: number,
  sampleRate: number,
): AsyncGenerator<Float32Array> {
  const ahead = Math.round(lookAheadSeconds * sampleRate);
  // The filter of the true peak is centred half its length back, so its value belongs to a sample before the newest one.
  const delay = ahead + truePeakTaps / 2;
  const history = delay + truePeakTaps;
  const gains = gainComputer(ceiling, ahead, 1 - Math.exp(-1 / (releaseSeconds * sampleRate)));
  let samples = new Float32Array(history);
  let skip = delay;

  const process = (block: Float32Array): Float32Array => {
    samples = joined(samples.subarray(samples.length - history), block);
    const out = samples.slice(history - delay, history - delay + block.length);
    if (!gains.isOpen() || !staysUnder(samples, ceiling)) {
      for (let i = 0; i < block.length; i += 1) {
        out[i] = (out[i] ?? 0) * gains.next(interpolatedPeak(samples, history + i, ceiling));
      }
    }
    const dropped = Math.min(skip, block.length);
    skip -= dropped;
    return out.subarray(dropped);
  };

  for await (const block of blocks) {
    const done = process(block);
    if (done.length > 0) yield done;
  }
  yield process(new Float32Array(delay));
}

interface GainComputer {
  /** True while the gain is 1 and no peak lies ahead. */
  readonly isOpen: () => boolean;
  /** Takes the peak of the newest sample and gives the gain of the sample `ahead` before it. */
  readonly next: (peak: number) => number;
}

/**
 * The gain is the least that any peak in the window ahead needs, comes back exponentially, and is averaged over the same window: so it
 * slides down in time and has arrived when the peak comes.
 */
function gainComputer(ceiling: number, ahead: number, recovery: number): GainComputer {
  const needed = new Float64Array(ahead + 1).fill(1);
  const recent = new Float64Array(ahead).fill(1);
  let [gain, sum, count, sincePeak, sinceLowered] = [1, ahead, 0, Infinity, Infinity];
  return {
    isOpen: () => sinceLowered > ahead,
    next: peak => {
      needed[count % needed.length] = peak > ceiling ? ceiling / peak : 1;
      sincePeak = peak > ceiling ? 0 : sincePeak + 1;
      const least = sincePeak > ahead ? 1 : needed.reduce((a, b) => Math.min(a, b));
      gain = Math.min(least, gain + (1 - gain) * recovery);
      if (1 - gain < 1e-5) gain = 1;
      sinceLowered = gain < 1 ? 0 : sinceLowered + 1;
      const slot = count % ahead;
      sum += gain - (recent[slot] ?? 1);
      recent[slot] = gain;
      count += 1;
      if (sinceLowered > ahead) sum = ahead;
      return sum / ahead;
    },
  };
}

function joined(before: Float32Array, after: Float32Array): Float32Array<ArrayBuffer> {
  const all = new Float32Array(before.length + after.length);
  all.set(before);
  all.set(after, before.length);
  return all;
}
