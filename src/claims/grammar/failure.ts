/** The furthest place that reading reached and what could have stood there. */
export interface Failure {
  readonly at: number;
  /** In the order in which they were tried, without repeats: `` `until` ``, ``a key such as `D major` ``. */
  readonly expected: readonly string[];
}

export const nothingTried: Failure = { at: -1, expected: [] };

export const failureAt = (at: number, ...expected: readonly string[]): Failure => ({ at, expected });

/** The one that came further; of two at the same place, both. */
export function furthest(a: Failure, b: Failure): Failure {
  if (a === b) return a;
  if (a.at !== b.at) return a.at > b.at ? a : b;
  const added = b.expected.filter(each => !a.expected.includes(each));
  return added.length === 0 ? a : { at: a.at, expected: [...a.expected, ...added] };
}
