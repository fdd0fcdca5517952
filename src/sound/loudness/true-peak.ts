/**
 * Interpolation filter of BS.1770-4, Annex 2: four phases of twelve taps for four times the sample rate. The coefficients are from
 * memory; the signals 15 to 23 of EBU Tech 3341 check them in the tests.
 */
const firstPhase = [
  0.001708984375, 0.010986328125, -0.0196533203125, 0.033203125, -0.0594482421875, 0.1373291015625, 0.97216796875, -0.102294921875, 0.047607421875,
  -0.026611328125, 0.014892578125, -0.00830078125,
] as const; // prettier-ignore
const secondPhase = [
  -0.0291748046875, 0.029296875, -0.0517578125, 0.089111328125, -0.16650390625, 0.465087890625, 0.77978515625, -0.2003173828125, 0.1015625,
  -0.0582275390625, 0.0330810546875, -0.0189208984375,
] as const; // prettier-ignore
const phases: readonly (readonly number[])[] = [
  firstPhase,
  secondPhase,
  [...secondPhase].reverse(),
  [...firstPhase].reverse(),
];

export const truePeakTaps = firstPhase.length;
/** No interpolated value can be greater than the greatest sample times this. */
const greatestGain = Math.max(...phases.map(phase => phase.reduce((sum, tap) => sum + Math.abs(tap), 0)));

/**
 * The greatest interpolated value between the samples at `at` and `at - 11`, where `window` holds them (older first). Returns the greatest
 * sample itself where it is so small that the interpolated ones must stay under `floor`.
 */
export function interpolatedPeak(samples: Float32Array, at: number, floor = 0): number {
  let greatest = 0;
  for (let i = at - truePeakTaps + 1; i <= at; i += 1)
    greatest = Math.max(greatest, Math.abs(samples[i] ?? 0));
  if (greatest * greatestGain <= floor) return greatest;
  let peak = 0;
  for (const phase of phases) {
    let value = 0;
    for (let tap = 0; tap < truePeakTaps; tap += 1) value += (phase[tap] ?? 0) * (samples[at - tap] ?? 0);
    peak = Math.max(peak, Math.abs(value));
  }
  return peak;
}

/** Whether no interpolated value of these samples can reach `ceiling`, judged by the greatest sample alone. */
export function staysUnder(samples: Float32Array, ceiling: number): boolean {
  const limit = ceiling / greatestGain;
  for (const sample of samples) if (sample > limit || sample < -limit) return false;
  return true;
}

/** True peak of a sound in dBTP (full scale 0); `-Infinity` for silence. */
export function measureTruePeak(channels: readonly Float32Array[]): number {
  let peak = 0;
  for (const samples of channels) {
    for (let at = 0; at < samples.length + truePeakTaps - 1; at += 1)
      peak = Math.max(peak, interpolatedPeak(samples, at, peak));
  }
  return 20 * Math.log10(peak);
}
