const two = (value: number): string => String(value).padStart(2, '0');

/** Hours, minutes, seconds and a remainder of milliseconds; `separator` is `.` in WebVTT and `,` in SRT. */
export function timeCode(seconds: number, separator: '.' | ','): string {
  const milliseconds = Math.max(0, Math.round(seconds * 1000));
  const whole = Math.floor(milliseconds / 1000);
  const hours = Math.floor(whole / 3600);
  return `${two(hours)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}${separator}${String(milliseconds % 1000).padStart(3, '0')}`;
}

/** `1:05`, `1:02:05`: for people. */
export function clockTime(seconds: number): string {
  const whole = Math.max(0, Math.floor(seconds));
  const [hours, minutes] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60];
  return hours > 0
    ? `${String(hours)}:${two(minutes)}:${two(whole % 60)}`
    : `${String(minutes)}:${two(whole % 60)}`;
}
