import MarkdownIt from 'markdown-it';
import type { Token } from 'markdown-it';
import { readClaim } from '../claims/index.js';
import type { Code } from '../diagnostics/index.js';
import { claimMarks, markOf } from './claim-mark.js';

/** A claim in narration; offsets are in the Markdown. */
export interface NarrationClaim {
  readonly words: string;
  /** Offsets of the words in `Narration.text`. */
  readonly from: number;
  readonly to: number;
  /** The claim, its white space folded. */
  readonly text: string;
  /** Where each character of the claim stands in the Markdown; one more entry for its end. */
  readonly offsets: readonly number[];
}

export interface NarrationFault {
  readonly code: Code;
  readonly severity: 'error' | 'warning';
  readonly message: string;
  readonly help: string;
  readonly start: number;
  readonly end: number;
}

export interface Narration {
  /** What is shown, as plain text; paragraphs are joined by a blank line. */
  readonly text: string;
  /** What is shown, as safe HTML. */
  readonly html: string;
  readonly claims: readonly NarrationClaim[];
  readonly faults: readonly NarrationFault[];
}

/**
 * Narration is spoken as well as shown, so it has only what can be read aloud: paragraphs, lists, emphasis, links.
 * Everything else of Markdown stays the text that it is.
 */
const markdownReader = new MarkdownIt('zero', { html: false, maxNesting: 20 })
  .enable(['list', 'emphasis', 'link', 'escape', 'entity', 'newline', 'backticks'])
  .use(claimMarks);
markdownReader.validateLink = isWebLink;

function isWebLink(url: string): boolean {
  return /^https?:\/\//i.test(url.trim());
}

/**
 * Reads narration: Markdown with `[words]{claim}`.
 * @param pathOf path in the lesson of the claim with a 0-based number, written into the HTML
 */
export function readNarration(markdown: string, pathOf: (claim: number) => string): Narration {
  const tokens = markdownReader.parse(markdown, {});
  const lines = markdown.split('\n');
  const lineStarts: number[] = [];
  for (let at = 0, line = 0; line < lines.length; at += (lines[line]?.length ?? 0) + 1, line++)
    lineStarts.push(at);

  const claims: NarrationClaim[] = [];
  const faults: NarrationFault[] = [];
  let text = '';
  for (const token of tokens) {
    if (token.type !== 'inline') continue;
    if (text !== '') text += '\n\n';
    const offsets = contentOffsets(token, lines, lineStarts);
    const paragraph = readParagraph(token, offsets, text.length, claims.length, pathOf);
    text += paragraph.text;
    claims.push(...paragraph.claims);
    faults.push(...paragraph.claims.filter(claim => claim.words.trim() === '').map(withoutWords));
    faults.push(...paragraphFaults(token.content, offsets, paragraph.braces));
  }
  return { text, html: markdownReader.renderer.render(tokens, markdownReader.options, {}), claims, faults };
}

/** Where each character of a paragraph stands in the Markdown: each of its lines is the end of a line there. */
function contentOffsets(
  token: Token,
  lines: readonly string[],
  lineStarts: readonly number[],
): readonly number[] {
  const firstLine = token.map?.[0] ?? 0;
  const offsets = token.content.split('\n').flatMap((content, index) => {
    const line = lines[firstLine + index] ?? '';
    const lead = content.length - content.trimStart().length;
    const start = (lineStarts[firstLine + index] ?? 0) + Math.max(0, line.lastIndexOf(content.trim()) - lead);
    return Array.from({ length: content.length + 1 }, (_, at) => start + at);
  });
  return offsets;
}

interface Paragraph {
  readonly text: string;
  readonly claims: readonly NarrationClaim[];
  /** Offsets of the braces that open a claim. */
  readonly braces: ReadonlySet<number>;
}

function readParagraph(
  token: Token,
  offsets: readonly number[],
  base: number,
  before: number,
  pathOf: (claim: number) => string,
): Paragraph {
  const claims: NarrationClaim[] = [];
  const open: number[] = [];
  const braces = new Set<number>();
  let text = '';
  for (const child of token.children ?? []) {
    switch (child.type) {
      case 'softbreak':
        text += ' ';
        break;
      case 'hardbreak':
        text += '\n';
        break;
      case 'claim_open': {
        const mark = markOf(child);
        child.attrSet('class', 'claim');
        child.attrSet('data-claim', pathOf(before + claims.length));
        braces.add(mark.brace);
        open.push(claims.length);
        const claim = foldClaim(token.content, mark.brace + 1, mark.end, offsets);
        claims.push({ words: '', from: base + text.length, to: base + text.length, ...claim });
        break;
      }
      case 'claim_close': {
        const index = open.pop();
        const claim = index === undefined ? undefined : claims[index];
        if (index !== undefined && claim !== undefined) {
          claims[index] = { ...claim, words: text.slice(claim.from - base), to: base + text.length };
        }
        break;
      }
      case 'link_open':
        child.attrSet('rel', 'noopener noreferrer');
        break;
      default:
        text += child.content;
    }
  }
  return { text, claims, braces };
}

function withoutWords(claim: NarrationClaim): NarrationFault {
  return {
    code: 'L0301',
    severity: 'error',
    message: 'there are no words in the brackets before this claim',
    help: 'write the words that make the claim: `[words]{claim}`; a claim without words goes under `claims:`',
    start: claim.offsets[0] ?? 0,
    end: claim.offsets.at(-1) ?? 0,
  };
}

/** A claim may go over several lines of the narration; each stretch of white space counts as one space. */
function foldClaim(
  content: string,
  start: number,
  end: number,
  offsets: readonly number[],
): Pick<NarrationClaim, 'text' | 'offsets'> {
  let text = '';
  const places: number[] = [];
  for (let at = start; at < end; at++) {
    const char = content[at] ?? '';
    const blank = /\s/.test(char);
    if (blank && (text === '' || text.endsWith(' '))) continue;
    text += blank ? ' ' : char;
    places.push(offsets[at] ?? 0);
  }
  if (text.endsWith(' ')) {
    text = text.slice(0, -1);
    places.pop();
  }
  const last = places.at(-1);
  places.push(last === undefined ? (offsets[start] ?? 0) : last + 1);
  return { text, offsets: places };
}

/** Marks that were meant to be something and are not. */
function paragraphFaults(
  content: string,
  offsets: readonly number[],
  braces: ReadonlySet<number>,
): readonly NarrationFault[] {
  const faults: NarrationFault[] = [];
  const fault = (
    start: number,
    end: number,
    what: Pick<NarrationFault, 'code' | 'severity' | 'message' | 'help'>,
  ) => faults.push({ ...what, start: offsets[start] ?? 0, end: (offsets[end - 1] ?? 0) + 1 });

  for (const match of content.matchAll(/(?<!\\)\](\s*)\{/g)) {
    const brace = match.index + match[0].length - 1;
    if (braces.has(brace)) continue;
    const closed = content.includes('}', brace);
    const spaced = match[1] !== '';
    fault(match.index, brace + 1, {
      code: 'L0301',
      severity: 'error',
      message: spaced
        ? 'there is a space between the words and their claim'
        : closed
          ? 'these words have no `[` where they begin'
          : 'the claim that begins here has no `}` at its end',
      help: 'write `[words]{claim}`, or `\\]` for a bracket that is only a bracket',
    });
  }
  for (const match of content.matchAll(/(?<![\]\\`]\s*)\{([^{}]*)\}/g)) {
    // Braces may mean something else to an author, unless a claim stands in them.
    if (braces.has(match.index) || 'problem' in readClaim(match[1]?.trim() ?? '')) continue;
    fault(match.index, match.index + match[0].length, {
      code: 'L0301',
      severity: 'error',
      message: 'the words before this claim do not end with a `]`',
      help: 'write `[words]{claim}`; a claim without words goes under `claims:`',
    });
  }
  for (const match of content.matchAll(/(!?)\[[^[\]\n]*\]\(\s*([^()\s]*)/g)) {
    if (match[1] === '!') {
      fault(match.index, match.index + match[0].length, {
        code: 'L0304',
        severity: 'error',
        message: 'narration cannot show a picture',
        help: 'say it in words; the bars of the step are shown beside the narration',
      });
    } else if (!isWebLink(match[2] ?? '')) {
      fault(match.index, match.index + match[0].length, {
        code: 'L0302',
        severity: 'error',
        message: 'only a link to a web page can stand in narration',
        help: 'begin the address with `https://`; for a claim write `[words]{claim}` with braces',
      });
    }
  }
  for (const match of content.matchAll(/<[a-z][^<>\n]*>/gi)) {
    fault(match.index, match.index + match[0].length, {
      code: 'L0303',
      severity: 'warning',
      message: `\`${match[0]}\` is shown and spoken as it stands: narration has no HTML`,
      help: 'use `*stress*` and `**strong stress**` of Markdown',
    });
  }
  return faults;
}
