/** A word of the shown text as it stands between white space, with what punctuation says about pauses. */
export interface Token {
  /** Everything between white space. */
  readonly whole: string;
  /** Without the punctuation around it. */
  readonly core: string;
  /** Offsets of the core in the shown text. */
  readonly from: number;
  readonly to: number;
  readonly pause: Pause;
  /** First word of a sentence. */
  readonly startsSentence: boolean;
}

/** The silence after a word, from none to the end of a paragraph. */
export type Pause = 'none' | 'short' | 'sentence' | 'question' | 'paragraph';

const opening = /^["'“‘([{«*_]+/u;
const closing = /["'”’)\]}»*_,.;:!?…]+$/u;
/** Full stops and strokes that belong to the word. */
const keepsEnd =
  /^([A-Z]\.){2,}$|^(m|mm|b|bb|op|Op|no|No|K|rit|rall|accel|etc|vs|cf|e\.g|i\.e)\.$|^[a-g][#b♯♭]?['’]{1,5}$/u;

function pauseOf(end: string, gap: string): Pause {
  if (/\n\s*\n/u.test(gap)) return 'paragraph';
  if (/\?/u.test(end)) return 'question';
  if (/[.!…]/u.test(end)) return 'sentence';
  return /[,;:]/u.test(end) ? 'short' : 'none';
}

/** Splits shown text into tokens. */
export function tokensOf(text: string): readonly Token[] {
  const found = [...text.matchAll(/\S+/gu)];
  const tokens: Token[] = [];
  found.forEach((match, index) => {
    const whole = match[0];
    const next = found[index + 1];
    const gap = next === undefined ? '' : text.slice(match.index + whole.length, next.index);
    const head = opening.exec(whole)?.[0] ?? '';
    const inner = whole.slice(head.length);
    const bare = inner.replace(/[,;:!?)\]}"”]+$/u, '');
    const core = keepsEnd.test(bare) ? bare : inner.replace(closing, '');
    const from = match.index + head.length;
    const end = inner.slice(core.length);
    const before = tokens.at(-1)?.pause;
    tokens.push({
      whole,
      core,
      from,
      to: from + core.length,
      pause: pauseOf(end, gap),
      startsSentence:
        before === undefined || before === 'sentence' || before === 'question' || before === 'paragraph',
    });
  });
  return tokens;
}
