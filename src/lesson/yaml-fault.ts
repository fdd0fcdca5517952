import { lineText, placeOf } from '../diagnostics/index.js';
import type { Code, Diagnostic, SourceText, Span } from '../diagnostics/index.js';
import type { YAMLError } from 'yaml';

/** A syntax error in an author's words. */
export interface YamlFault {
  readonly diagnostic: Diagnostic;
  /** Overwrites what made the parser lose its way with something harmless of the same length. */
  readonly repair?: { readonly start: number; readonly text: string };
}

export const columnHelp = 'items of one list, and keys of one mapping, begin in the same column';
const quoteHelp = 'put the whole text in double quotes, or below the key after `|`';

/** Characters that mean something to YAML where a value begins, with what they mean. */
const openers: Readonly<Record<string, string>> = {
  '[': 'begins a list',
  '{': 'begins a mapping',
  '"': 'begins a text that ends at the next `"`',
  "'": "begins a text that ends at the next `'`",
  '*': 'refers to another place of the file',
  '&': 'names this place of the file',
  '!': 'names a type',
  '>': 'begins a text on the next line',
  '|': 'begins a text on the next line',
};

/** Whether the parser came to the end of a line or the file and missed the end of a quoted text, list or mapping. */
export function isUnclosed(error: YAMLError): boolean {
  return (
    (error.code === 'MISSING_CHAR' && /closing/.test(error.message)) ||
    /^Flow \w+ in block/.test(error.message)
  );
}

/**
 * Turns an error of the YAML parser into a finding that an author without knowledge of YAML can act on.
 * @param opened offset of the quotation mark or bracket that is never closed, where `isUnclosed`
 */
export function yamlFault(source: SourceText, error: YAMLError, opened: number | undefined): YamlFault {
  const at = Math.min(error.pos[0], Math.max(0, source.text.length - 1));
  const here: Span = { source, start: at, end: Math.max(at, Math.min(error.pos[1], source.text.length)) };
  const value = valueAt(source, at);
  const first = source.text[value.start] ?? '';
  const found = (code: Code, span: Span, message: string, rest: Partial<Diagnostic> = {}): YamlFault => ({
    diagnostic: { code, severity: 'error', message, span, ...rest },
  });

  if (isUnclosed(error)) {
    const start = opened ?? at;
    const what = /["']/.test(source.text[start] ?? '') ? 'a quotation mark' : 'a bracket';
    const fault = found('L0015', { source, start, end: start + 1 }, `${what} is opened and never closed`, {
      help: 'close it where the text or list ends',
    });
    return { ...fault, repair: overwriting(start, lineEnd(source, start)) };
  }
  switch (error.code) {
    case 'TAB_AS_INDENT':
      return found('L0008', here, 'this line is indented with a tab', {
        help: 'indent with spaces; most editors can replace tabs by spaces',
      });
    case 'BAD_SCALAR_START':
      return found(
        'L0003',
        here,
        `a text cannot begin with ${source.text[at] === '`' ? 'a backquote' : `\`${source.text[at] ?? ''}\``}`,
        { help: quoteHelp },
      );
    case 'BAD_DQ_ESCAPE':
      return found(
        'L0013',
        here,
        'a backslash in double quotes begins a special character, and this one is not known',
        {
          help: 'write `\\\\` for a backslash, or use single quotes',
        },
      );
    case 'TAG_RESOLVE_FAILED':
      return found(
        'L0006',
        here,
        `\`${source.text.slice(at, here.end)}\` names a type that a lesson does not have`,
        {
          notes: ['a text that begins with `!` is taken for the name of a type'],
          help: quoteHelp,
        },
      );
    case 'MULTIPLE_DOCS':
      return found('L0010', { source, start: at, end: lineEnd(source, at) }, 'a second lesson begins here', {
        help: 'remove the line `---`, or move what follows to a file of its own',
      });
    case 'RESOURCE_EXHAUSTION':
      return found('L0012', { source, start: at, end: at }, 'lists and mappings are nested too deeply');
    case 'UNEXPECTED_TOKEN': {
      const meaning = openers[first];
      if (meaning === undefined) break;
      const fault = found('L0005', value, `a text cannot begin with \`${first}\` and go on after it`, {
        notes: [`at the beginning of a value \`${first}\` ${meaning}`],
        help: quoteHelp,
      });
      return { ...fault, repair: overwriting(value.start, value.end) };
    }
    case 'BLOCK_AS_IMPLICIT_KEY': {
      const colon = source.text.slice(value.start, value.end + 1).search(/:\s/);
      if (colon < 0) return found('L0001', nextLine(source, at), wordingOf(error), { help: columnHelp });
      const span = { source, start: value.start + colon, end: value.start + colon + 1 };
      const fault = found('L0002', span, 'a colon with a space after it cannot stand in an unquoted text', {
        label: 'taken for the end of a key',
        help: quoteHelp,
      });
      return { ...fault, repair: overwriting(value.start, value.end) };
    }
    case 'MULTILINE_IMPLICIT_KEY':
    case 'MISSING_CHAR': {
      const { line, column } = placeOf(source, at);
      const glued = /^\s*(?:-\s+)*([a-z][\w-]*):(?=\S)/.exec(lineText(source, line));
      if (glued === null) break;
      const colon = at - column + glued[0].length;
      const fault = found(
        'L0014',
        { source, start: colon, end: colon + 1 },
        `\`${glued[1] ?? ''}:\` has no space after its colon`,
        { help: 'put a space after the colon' },
      );
      return { ...fault, repair: { start: colon + 1, text: ' ' } };
    }
    default:
  }
  const blank = /^[^\S\n]*/.exec(source.text.slice(here.start, lineEnd(source, here.start)))?.[0].length ?? 0;
  const start = here.start + blank;
  return found(
    'L0001',
    { source, start, end: here.end > start ? here.end : lineEnd(source, start) },
    wordingOf(error),
    { help: columnHelp },
  );
}

const overwriting = (start: number, end: number): NonNullable<YamlFault['repair']> => ({
  start,
  text: 'x'.repeat(end - start),
});

function lineEnd(source: SourceText, offset: number): number {
  const end = source.text.indexOf('\n', offset);
  return end < 0 ? source.text.length : end;
}

/** What stands on the next line with text: a value ends where a key that is indented further begins. */
function nextLine(source: SourceText, offset: number): Span {
  const end = lineEnd(source, offset);
  const start = end + Math.max(0, source.text.slice(end).search(/\S/));
  return { source, start, end: Math.max(start, lineEnd(source, start)) };
}

/** The rest of a line after its dashes and its key. */
function valueAt(source: SourceText, offset: number): Span {
  const { line } = placeOf(source, offset);
  const lead = /^\s*(?:-\s+)*(?:[\w-]+:(?:\s+|$))?/.exec(lineText(source, line))?.[0].length ?? 0;
  const start = (source.lineStarts[line - 1] ?? 0) + lead;
  return { source, start, end: lineEnd(source, start) };
}

function wordingOf(error: YAMLError): string {
  switch (error.code) {
    case 'BAD_INDENT':
    case 'BLOCK_AS_IMPLICIT_KEY':
      return 'this line is not indented like its neighbours';
    case 'MULTILINE_IMPLICIT_KEY':
      return 'this is read as a key that goes over several lines';
    case 'MISSING_CHAR':
      return /Sequence item/.test(error.message)
        ? 'this stands in a list and does not begin with a dash'
        : 'a key is followed by a colon, and there is none here';
    case 'UNEXPECTED_TOKEN':
      return /block-seq-ind/.test(error.message)
        ? 'a list begins on the line after its key'
        : 'this cannot stand here';
    default:
      return `this is not valid YAML: ${error.message.charAt(0).toLowerCase()}${error.message.slice(1)}`;
  }
}
