/** What a clock shows: a second counts once it is over, as in the list of chapters. */
const wholeSeconds = (seconds: number): number => Math.max(0, Math.floor(seconds));

/** `3:07` for 187 seconds. */
export function clockTime(seconds: number): string {
  const whole = wholeSeconds(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** `3 minutes 7 seconds`, as it is read aloud. */
export function spokenTime(seconds: number): string {
  const whole = wholeSeconds(seconds);
  const unit = (count: number, name: string): string =>
    count === 0 ? '' : `${count} ${name}${count === 1 ? '' : 's'}`;
  return (
    [unit(Math.floor(whole / 60), 'minute'), unit(whole % 60, 'second')]
      .filter(part => part !== '')
      .join(' ') || '0 seconds'
  );
}
