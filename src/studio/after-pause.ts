/** Runs what was asked last, once nothing was asked for a while (in milliseconds). */
export function afterPause(milliseconds: number, run: () => void): () => void {
  let waiting: ReturnType<typeof setTimeout> | undefined;
  return () => {
    clearTimeout(waiting);
    waiting = setTimeout(run, milliseconds);
  };
}
