/** Edits between two words: insertions, deletions, replacements and swapped neighbours (optimal string alignment distance). */
function editDistance(a: string, b: string): number {
  const row = (length: number, first: number): number[] =>
    Array.from({ length }, (_, i) => (i === 0 ? first : 0));
  let beforeLast = row(b.length + 1, 0);
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const current = row(b.length + 1, i);
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let best = Math.min((last[j] ?? 0) + 1, (current[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, (beforeLast[j - 2] ?? 0) + 1);
      current[j] = best;
    }
    [beforeLast, last] = [last, current];
  }
  return last[b.length] ?? 0;
}

/**
 * The known word that was probably meant, or `undefined` where none is near: at most a third of the letters may differ.
 * @example nearestWord('tilte', ['title', 'tempo']) // 'title'
 */
export function nearestWord(word: string, known: readonly string[]): string | undefined {
  const wanted = word.trim().toLowerCase();
  if (wanted.length > 60) return undefined;
  let best: { readonly word: string; readonly distance: number } | undefined;
  for (const candidate of known) {
    const distance = editDistance(wanted, candidate.toLowerCase());
    const allowed = Math.max(1, Math.floor(Math.max(wanted.length, candidate.length) / 3));
    if (
      distance <= allowed &&
      distance < candidate.length &&
      (best === undefined || distance < best.distance)
    ) {
      best = { word: candidate, distance };
    }
  }
  return best?.word;
}

/** The help line for a word that is not known, or `undefined` where no known word is near. */
export function didYouMean(word: string, known: readonly string[]): string | undefined {
  const near = nearestWord(word, known);
  return near === undefined ? undefined : `did you mean \`${near}\`?`;
}
