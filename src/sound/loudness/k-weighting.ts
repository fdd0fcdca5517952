/** A second-order filter: y = b0 x + b1 x' + b2 x'' - a1 y' - a2 y''. */
export interface Biquad {
  readonly b0: number;
  readonly b1: number;
  readonly b2: number;
  readonly a1: number;
  readonly a2: number;
}

/**
 * The two filters of K-weighting: the head as a shelf, then a high-pass. ITU-R BS.1770-4, Annex 1, gives the coefficients for 48 kHz
 * (tables 1 and 2); the analogue values below give those at 48 kHz and their equal at any other rate (B. De Man, "Evaluation of
 * implementations of the EBU R128 loudness measurement", AES 145, 2018).
 */
export function kWeighting(sampleRate: number): readonly [Biquad, Biquad] {
  const shelf = (): Biquad => {
    const [frequency, gain, q] = [1681.974450955533, 3.999843853973347, 0.7071752369554196];
    const k = Math.tan((Math.PI * frequency) / sampleRate);
    const high = 10 ** (gain / 20);
    const band = high ** 0.4996667741545416;
    const a0 = 1 + k / q + k * k;
    return {
      b0: (high + (band * k) / q + k * k) / a0,
      b1: (2 * (k * k - high)) / a0,
      b2: (high - (band * k) / q + k * k) / a0,
      a1: (2 * (k * k - 1)) / a0,
      a2: (1 - k / q + k * k) / a0,
    };
  };
  const highPass = (): Biquad => {
    const [frequency, q] = [38.13547087602444, 0.5003270373238773];
    const k = Math.tan((Math.PI * frequency) / sampleRate);
    const a0 = 1 + k / q + k * k;
    return { b0: 1, b1: -2, b2: 1, a1: (2 * (k * k - 1)) / a0, a2: (1 - k / q + k * k) / a0 };
  };
  return [shelf(), highPass()];
}
