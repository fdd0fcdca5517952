/** Runs what concerns one file one after another. */
export type Turns = <T>(file: string, act: () => Promise<T>) => Promise<T>;

export function turns(): Turns {
  const last = new Map<string, Promise<unknown>>();
  return (file, act) => {
    const before = last.get(file) ?? Promise.resolve();
    const now = before.then(act, act);
    last.set(file, now);
    const leave = (): void => {
      if (last.get(file) === now) last.delete(file);
    };
    now.then(leave, leave);
    return now;
  };
}
