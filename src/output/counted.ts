/** `1 claim`, `3 claims`, `2 harmonies`. */
export const counted = (count: number, noun: string, plural = `${noun}s`): string =>
  `${count} ${count === 1 ? noun : plural}`;
