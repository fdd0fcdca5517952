/**
 * Words by which a sentence does not say that something is so here: denial, comparison, condition, expectation, question, memory of
 * another place. A list of common English; it is meant to be too long rather than too short.
 */
const hedges = [
  'not',
  'no',
  'never',
  'nor',
  'neither',
  'without',
  'instead',
  'rather',
  'unlike',
  'like',
  'than',
  'hardly',
  'almost',
  'nearly',
  'avoids?',
  'avoided',
  'denies',
  'denied',
  'refuses',
  'refused',
  'missing',
  'absent',
  'if',
  'unless',
  'whether',
  'would',
  'could',
  'should',
  'might',
  'may',
  'can',
  'seems?',
  'seemed',
  'sounds as',
  'expect(?:s|ed|ing)?',
  'await(?:s|ed|ing)?',
  'want(?:s|ed|ing)?',
  'hopes?',
  'hoped',
  'promise[sd]?',
  'suggest(?:s|ed)?',
  'hints?',
  'imagine',
  'suppose',
  'compare[sd]?',
  'usual(?:ly)?',
  'often',
  'normally',
  'other',
  'another',
  'before',
  'after',
  'earlier',
  'later',
  'soon',
  'until',
  'last time',
  'first time',
  'next',
  'previous',
  'again',
  'once',
  'remember',
  'recall',
  'back',
  'from',
  'opening',
  'beginning',
  'or',
] as const;
const hedge = new RegExp(`(?<![\\p{L}])(?:${hedges.join('|')})(?![\\p{L}])|n['’]t(?![\\p{L}])`, 'iu');
/** `the half cadence of the first phrase` points at something that was spoken of elsewhere. */
const pointing = /(?<!\p{L})(?:the|that|those)\s+…\s+of(?!\p{L})/iu;
const namedBar = /(?<!\p{L})(?:bars?|measures?|mm?\.)(?!\p{L})/iu;

/** Where the sentence around an offset begins and ends; a full stop inside `m. 5` or `1.5` ends none. */
function sentenceAround(text: string, from: number, to: number): readonly [number, number] {
  const stop = /[.!?;:](?=\s)(?<!\bmm?\.)|\n\n/gu;
  const stops = [...text.matchAll(stop)].map(({ index }) => index + 1);
  return [stops.findLast(at => at <= from) ?? 0, stops.find(at => at >= to) ?? text.length];
}

/**
 * Whether the words from `from` to `to` say outright that something is so in the bars under discussion. Careful rather than clever: a
 * sentence that asks, denies, compares, expects or speaks of other bars asserts nothing here.
 */
export function isAsserted(text: string, from: number, to: number): boolean {
  const [start, end] = sentenceAround(text, from, to);
  const around = `${text.slice(start, from)} … ${text.slice(to, end)}`;
  const speaksOfOtherBars = namedBar.test(around) && !namedBar.test(text.slice(from, to));
  return (
    !hedge.test(around) && !pointing.test(around) && !speaksOfOtherBars && !around.trimEnd().endsWith('?')
  );
}
