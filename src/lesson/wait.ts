/** `1 s`, `1.5s`, `2 seconds`, `500 ms`; up to a minute. */
export const waitPattern =
  /^(?:(?:[1-5]?\d(?:\.\d+)?|60) ?(?:s|seconds?)|(?:[1-5]?\d{1,4}|60000) ?(?:ms|milliseconds?))$/;

/** Seconds of a `wait`: a plain number counts seconds. */
export function readWait(value: string | number): number {
  if (typeof value === 'number') return value;
  const amount = Number.parseFloat(value);
  return /\d ?m/.test(value) ? amount / 1000 : amount;
}
