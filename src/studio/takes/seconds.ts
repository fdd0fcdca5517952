/** A length or a place in a recording: `3.2 s`. */
export const inSeconds = (seconds: number): string => `${seconds.toFixed(1)} s`;

/** A time of the running order: `1:05`. */
export function clock(seconds: number): string {
  const whole = Math.round(seconds);
  return `${String(Math.floor(whole / 60))}:${String(whole % 60).padStart(2, '0')}`;
}
