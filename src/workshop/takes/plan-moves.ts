/** A text, or what its take was made for. Words on one line. */
export interface Worded {
  readonly id: string;
  readonly words: string;
}

/** A take that goes to another text, with all its recordings. */
export interface Move {
  readonly from: string;
  readonly to: string;
}

/**
 * Where takes belong after texts were inserted, removed or put in another order, which changes their ids: each to the text that has its
 * words. A take whose text has its words already stays. One that stands in the place of another goes to a place that becomes free; nothing
 * is left without a place, so the moves are an exchange of ids.
 *
 * @param texts of the lesson, in order
 * @param takes what each was made for
 */
export function planMoves(texts: readonly Worded[], takes: readonly Worded[]): readonly Move[] {
  const wordsOf = new Map(texts.map(({ id, words }) => [id, words]));
  const strays = takes.filter(({ id, words }) => wordsOf.get(id) !== words);
  const settled = new Set(takes.filter(take => !strays.includes(take)).map(({ id }) => id));
  const targets = new Set<string>();
  const moves: Move[] = [];
  for (const { id, words } of strays) {
    const target = texts.find(text => text.words === words && !settled.has(text.id) && !targets.has(text.id));
    if (target === undefined) continue;
    targets.add(target.id);
    moves.push({ from: id, to: target.id });
  }
  const sources = new Set(moves.map(({ from }) => from));
  const free = [...sources].filter(id => !targets.has(id));
  const inTheWay = takes.filter(({ id }) => targets.has(id) && !sources.has(id));
  return [
    ...moves,
    ...inTheWay.flatMap(({ id }, index) => {
      const to = free[index];
      return to === undefined ? [] : [{ from: id, to }];
    }),
  ];
}

/** How many takes go to the words that they were made for. */
export const comeHome = (texts: readonly Worded[], takes: readonly Worded[]): number =>
  planMoves(texts, takes).filter(
    ({ from, to }) => takes.find(({ id }) => id === from)?.words === texts.find(({ id }) => id === to)?.words,
  ).length;
