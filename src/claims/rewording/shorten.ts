import { hasTradeWord } from '../trade-words.js';

/** A sentence without some of its words. */
export interface Shortened {
  readonly sentence: string;
  /** The words that were left out, as they stand. */
  readonly leftOut: string;
}

/** Words in a row that may be left out; without more of them it is another sentence. */
const mostLeftOut = 8;
/** Words of a sentence that a reader can follow. */
const mostWords = 40;
/** Sentences that are tried; each is read, and an author waits for it. */
const mostTried = 90;
/** A denial, a limit or a comparison: without it the sentence says something else. */
const decisive =
  /^(?:not|no|nor|never|neither|none|nothing|only|without|instead|except|but|all|every|each|both|once|twice|more|less|fewer|than|mainly|mostly|nearly|almost|hardly|scarcely|seldom|rarely|sometimes|ever|different|same|other|\p{L}+n['’]t|\p{L}*(?:lowered|flattened|raised|sharpened)|first|second|third|fourth|fifth|last|final|[b♭#♯]\d)$/iu;
/** What an author can do without most easily is what the sentence ends with. */
const lossAtTheEnd = 0.6;
/** Words that say little: to do without them costs nearly nothing. */
const light = /^(?:the|an?|and|so|as|its?|own|of|in|at|on|to|with|that|which|then|there|here|\p{L}+ly)$/iu;

/** What more is said may begin with; what stands behind a symbol otherwise belongs to it: `D moll`, `V7 half-open`. */
const link =
  /^(?:of|in|at|on|to|with|that|which|and|as|for|from|by|over|under|between|before|after|into|through|instead|all|again|\p{L}+(?:ing|ed|s|ly))$/iu;
const isSymbol = (word: string | undefined): boolean =>
  word !== undefined && /^(?:[A-Ha-h][#♯♭b]?\d?|\P{Ll}*\d\S*|[b♭#♯]?[IViv]+\S*)$/u.test(word);

/**
 * What is left of a sentence when some words in a row are left out, the least loss first. A sentence that is read without them says less
 * than its author does: it may be offered, never checked in its place.
 */
export function* shortened(text: string): Generator<Shortened> {
  const words = text.trim().split(/\s+/u);
  if (words.length > mostWords) return;
  const lossOf = (word: string): number =>
    light.test(word) ? 0.3 : hasTradeWord(word) || /\d/u.test(word) ? 1.5 : 1;
  const losses = words.flatMap((_, from) =>
    words.slice(from, from + mostLeftOut).map((_word, more) => {
      const out = words.slice(from, from + more + 1);
      const loss = out.reduce((sum, word) => sum + lossOf(word), 0);
      return { from, out, loss: from + out.length === words.length ? loss * lossAtTheEnd : loss };
    }),
  );
  const possible = losses
    .filter(({ from, out }) => !isSymbol(words[from - 1]) || link.test(out[0] ?? ''))
    .filter(
      ({ out }) =>
        words.length - out.length >= 3 && !out.some(word => decisive.test(word.replace(/[,;.:]$/u, ''))),
    )
    .sort((a, b) => a.loss - b.loss)
    .slice(0, mostTried);
  for (const { from, out } of possible)
    yield {
      sentence: [...words.slice(0, from), ...words.slice(from + out.length)].join(' ').replace(/[,;:]$/u, ''),
      leftOut: out.join(' '),
    };
}
