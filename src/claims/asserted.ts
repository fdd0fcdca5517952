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
  'was',
  'were',
  'had',
  'will',
  'or',
] as const;
const hedge = new RegExp(`(?<![\\p{L}])(?:${hedges.join('|')})(?![\\p{L}])|n['’]t(?![\\p{L}])`, 'iu');
/** `the half cadence of the first phrase` points at something that was spoken of elsewhere. */
const pointing = /(?<!\p{L})(?:the|that|those)\s+…\s+of(?!\p{L})/iu;
const namedBar = /(?<!\p{L})(?:bars?|measures?|mm?\.)(?!\p{L})/giu;

/** Where the sentence around an offset begins and ends; a full stop inside `m. 5` or `1.5` ends none. */
export function sentenceAround(text: string, from: number, to: number): readonly [number, number] {
  const stop = /[.!?;:](?=\s)(?<!\bmm?\.)|\n\n/gu;
  const stops = [...text.matchAll(stop)].map(({ index }) => index + 1);
  return [stops.findLast(at => at <= from) ?? 0, stops.find(at => at >= to) ?? text.length];
}

/** Words by which the whole sentence speaks of what might be, or of another time. */
const supposing = new RegExp(
  `(?<!\\p{L})(?:${[
    ...[
      'if',
      'unless',
      'whether',
      'would',
      'could',
      'should',
      'might',
      'may',
      'suppose',
      'supposing',
      'imagine',
    ],
    ...[
      'expect(?:s|ed|ing)?',
      'await(?:s|ed|ing)?',
      'wants?',
      'wanted',
      'hopes?',
      'hoped',
      'promise[sd]?',
      'hints?',
    ],
    ...['seems?', 'seemed', 'pretends?', 'pretended', 'perhaps', 'maybe', 'almost', 'nearly', 'as though'],
    ...['usually', 'often', 'normally', 'many', 'some people', 'sometimes', 'elsewhere', 'textbooks?'],
    ...[
      'earlier',
      'later',
      'soon',
      'last time',
      'first time',
      'previous',
      'remember',
      'recall',
      'ago',
      'was',
      'were',
      'had',
    ],
    ...['will(?! (?:hear|see|find|notice))', 'try', 'write', 'play', 'mistaken', 'mistake'],
  ].join('|')})(?!\\p{L})`,
  'iu',
);
/** Words that deny what follows in their clause. */
const denying =
  /(?<!\p{L})(?:not|no|never|nor|neither|without|instead of|rather than|unlike|like|than|hardly|avoids?|avoiding|avoided|den(?:y|ies|ied)|refuses?|refused|lacks?|misses|far from|nothing of|anything but|none of)(?!\p{L})|n['’]t(?!\p{L})/iu;
const denied =
  /^[^,;:.!?]*(?<!\p{L})(?:(?:is|are)\s+(?:\p{L}+\s+)?(?:not|avoided|denied|evaded|missing|absent|refused|withheld)|never|isn['’]t|aren['’]t|doesn['’]t|don['’]t)(?!\p{L})/iu;
const clauseEnd = /[,;:()]|[–—]|(?<!\p{L})(?:but|yet|so|then)(?!\p{L})/giu;
const quoteMark = /[“”"„«»]/gu;

/** `You might think so, but the phrase closes in D`: what is supposed ends there. */
const untilBut = /^.*[,;–—]\s+but\s/isu;
const fromBut = /[,;–—]\s+but\s.*$/isu;
/** `Two bars later` is a place, not another time. */
const barsLater = /(?<!\p{L})\S+\s+(?:bars?|measures?)\s+later(?!\p{L})/giu;

const isQuoted = (text: string, from: number): boolean =>
  [...text.slice(0, from).matchAll(quoteMark)].length % 2 === 1;
const isAsked = (text: string, start: number, end: number): boolean =>
  /\?["”’»)]?\s*$/u.test(text.slice(start, end + 1));

/** Whether the speaker says the words from `from` to `to` as such: in no question, no quotation and no condition. */
export function isVoiced(text: string, from: number, to: number): boolean {
  const [start, end] = sentenceAround(text, from, to);
  return (
    !isQuoted(text, from) &&
    !isAsked(text, start, end) &&
    !/^\W*(?:(?:and|but|now)\s+)?(?:if|suppose|supposing|imagine)(?!\p{L})/iu.test(text.slice(start, from))
  );
}

/**
 * Whether the words from `from` to `to` are said of the music at all, however carefully: not what a question asks, a supposition supposes,
 * a clause denies, or somebody is quoted with.
 */
export function isSaid(text: string, from: number, to: number): boolean {
  const [start, end] = sentenceAround(text, from, to);
  const before = text.slice(start, from);
  const after = text.slice(to, end);
  const stops = [...before.matchAll(clauseEnd)].map(({ index, 0: stop }) => index + stop.length);
  const clause = before.slice(stops.at(-1) ?? 0);
  // `A suspension is a note that ...`: what a term means.
  const defined =
    /^\s*(?:Any|Every|Each)(?!\p{L})/u.test(text.slice(start, to)) ||
    (/^\s*An?(?!\p{L})/u.test(text.slice(start, to)) &&
      /^\s+(?:is|are)\s+(?:an?|the|called|when|what|always|one)(?!\p{L})/u.test(after));
  return (
    !isAsked(text, start, end) &&
    !isQuoted(text, from) &&
    !defined &&
    !supposing.test(
      `${before.replace(untilBut, '')} … ${after.replace(fromBut, '')}`.replace(barsLater, ' '),
    ) &&
    !denying.test(clause) &&
    !denied.test(after)
  );
}

/**
 * Whether the words from `from` to `to` say outright that something is so in the bars under discussion. Careful rather than clever: a
 * sentence that asks, denies, compares, expects or speaks of other bars asserts nothing here.
 */
export function isAsserted(text: string, from: number, to: number): boolean {
  const [start, end] = sentenceAround(text, from, to);
  const around = `${text.slice(start, from)} … ${text.slice(to, end)}`;
  // One bar that the sentence names is where it is said; of several, the words must name theirs.
  const bars = [...around.matchAll(namedBar)].length;
  const speaksOfOtherBars = bars > 1 && text.slice(from, to).search(namedBar) < 0;
  return (
    isSaid(text, from, to) &&
    !hedge.test(around) &&
    !pointing.test(around) &&
    !speaksOfOtherBars &&
    !around.trimEnd().endsWith('?')
  );
}
