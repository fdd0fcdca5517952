import type { MarkdownIt, StateInline, Token } from 'markdown-it';

/** Where the claim of `[words]{claim}` stands in the text of its paragraph. */
export interface ClaimMark {
  /** Offset of the brace that opens the claim. */
  readonly brace: number;
  /** Offset of the brace that closes it. */
  readonly end: number;
}

/** The mark that a `claim_open` token carries. */
export function markOf(token: Token): ClaimMark {
  return { brace: Number(token.meta?.['brace']), end: Number(token.meta?.['end']) };
}

/** Adds `[words]{claim}` to Markdown: tokens `claim_open` and `claim_close` around the words. */
export function claimMarks(markdown: MarkdownIt): void {
  markdown.inline.ruler.before('link', 'claim', readClaimMark);
}

function readClaimMark(state: StateInline, silent: boolean): boolean {
  if (state.src[state.pos] !== '[') return false;
  const labelEnd = state.md.helpers.parseLinkLabel(state, state.pos);
  if (labelEnd < 0 || state.src[labelEnd + 1] !== '{') return false;
  const end = state.src.indexOf('}', labelEnd + 2);
  if (end < 0 || end >= state.posMax) return false;
  if (!silent) {
    const { posMax } = state;
    const mark: ClaimMark = { brace: labelEnd + 1, end };
    state.push('claim_open', 'span', 1).meta = { ...mark };
    state.pos += 1;
    state.posMax = labelEnd;
    state.md.inline.tokenize(state);
    state.posMax = posMax;
    state.push('claim_close', 'span', -1);
  }
  state.pos = end + 1;
  return true;
}
