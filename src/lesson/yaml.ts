import { isAlias, isMap, isScalar, isSeq } from 'yaml';
import type { ParsedNode, Scalar as YamlScalar } from 'yaml';
import { placeOf } from '../diagnostics/index.js';
import type { Diagnostic, Result, SourceText, Span } from '../diagnostics/index.js';
import type { TextStyle } from './text-offsets.js';
import { textOffsets } from './text-offsets.js';
import type { Entry, Scalar, Tree } from './tree.js';
import { columnHelp } from './yaml-fault.js';
import { parseWithRepairs } from './yaml-repairs.js';

/** Longest lesson that is read, in UTF-16 units: some four thousand claims. */
export const maximumLessonLength = 250_000;
/** Values after aliases are resolved; far above any lesson that fits into `maximumLessonLength` without them. */
const maximumValues = 100_000;

/**
 * Reads YAML 1.2 with the place of every value. Syntax errors do not stop the reading: the tree holds what could be
 * understood, and each line with an error is reported once.
 */
export function readTree(source: SourceText): Result<Tree | undefined> {
  if (source.text.length > maximumLessonLength) {
    return {
      value: undefined,
      diagnostics: [
        {
          code: 'L0011',
          severity: 'error',
          message: `the lesson has ${source.text.length} characters, more than the ${maximumLessonLength} that are read`,
          span: { source, start: 0, end: 0 },
          help: 'split it into several lessons',
        },
      ],
    };
  }
  const { document, diagnostics } = parseWithRepairs(source);
  const state: Conversion = {
    source,
    anchors: new Map(),
    open: new Set(),
    diagnostics: [...diagnostics],
    values: 0,
  };
  const value = document.contents === null ? undefined : convert(state, document.contents);
  return { value, diagnostics: firstOfEachLine(state.diagnostics) };
}

interface Conversion {
  readonly source: SourceText;
  readonly anchors: Map<string, ParsedNode>;
  /** Anchors that are being resolved, to notice one that contains itself. */
  readonly open: Set<string>;
  readonly diagnostics: Diagnostic[];
  values: number;
}

function convert(state: Conversion, node: ParsedNode | null): Tree {
  const { source } = state;
  const start = node?.range[0] ?? 0;
  // A collection ends where the next key begins; what is underlined ends with its last word.
  const span: Span = {
    source,
    start,
    end: start + source.text.slice(start, node?.range[1]).trimEnd().length,
  };
  const nothing: Scalar = { kind: 'scalar', value: null, written: '', span, offsets: () => [span.start] };
  if (node === null) return nothing;
  if (++state.values > maximumValues) {
    if (state.values === maximumValues + 1) {
      state.diagnostics.push({
        code: 'L0012',
        severity: 'error',
        message: 'references between places make the lesson too large',
        span,
      });
    }
    return nothing;
  }
  if (!isAlias(node) && node.anchor !== undefined) state.anchors.set(node.anchor, node);
  if (isAlias(node)) {
    const target = state.anchors.get(node.source);
    if (target === undefined || state.open.has(node.source)) {
      state.diagnostics.push({
        code: 'L0007',
        severity: 'error',
        message: `no place of the file is named \`&${node.source}\` before this`,
        span,
        notes: ['at the beginning of a value `*` refers to another place of the file'],
        help: 'put the whole text in double quotes, or below the key after `|`',
      });
      return nothing;
    }
    state.open.add(node.source);
    const value = convert(state, target);
    state.open.delete(node.source);
    return value;
  }
  if (isSeq(node)) return { kind: 'list', items: node.items.map(item => convert(state, item)), span };
  if (isMap(node)) {
    const entries = new Map<string, Entry>();
    for (const pair of node.items) {
      const range = pair.key.range;
      const key: Span = { source, start: range[0], end: range[1] };
      const name = isScalar(pair.key)
        ? (pair.key.source ?? String(pair.key.value))
        : source.text.slice(key.start, key.end);
      const first = entries.get(name);
      if (first === undefined) entries.set(name, { key, value: convert(state, pair.value) });
      else state.diagnostics.push(duplicateKey(name, key, first.key));
    }
    return { kind: 'mapping', entries, span };
  }
  return convertScalar(state, node);
}

function duplicateKey(name: string, key: Span, first: Span): Diagnostic {
  return {
    code: 'L0009',
    severity: 'error',
    message: `\`${name}\` stands here twice`,
    span: key,
    label: 'second time',
    related: [{ span: first, message: 'first time' }],
    help: 'keep one of the two',
  };
}

function convertScalar(state: Conversion, node: YamlScalar.Parsed): Scalar {
  const { source } = state;
  const [start, end] = node.range;
  const token = node.srcToken;
  let [from, to, style]: [number, number, TextStyle] = [start, end, 'plain'];
  if (token?.type === 'block-scalar') {
    const header = token.props.reduce(
      (length, prop) => length + ('source' in prop ? prop.source.length : 0),
      0,
    );
    from = token.offset + header + token.source.search(/\S|$/);
    to = Math.max(from, token.offset + header + token.source.trimEnd().length);
    style = 'block';
  } else if (token?.type === 'double-quoted-scalar' || token?.type === 'single-quoted-scalar') {
    [from, to] = [start + 1, Math.max(start + 1, end - 1)];
    style = token.type === 'double-quoted-scalar' ? 'double-quoted' : 'single-quoted';
  } else if (token?.type === 'scalar') {
    const cut = cutByComment(source, token.end ?? [], { source, start, end });
    if (cut !== undefined) state.diagnostics.push(cut);
    const dash = dashWithin(source, start, end);
    if (dash !== undefined) {
      state.diagnostics.push(strayDash(dash));
      to = start + source.text.slice(start, dash.start).trimEnd().length;
    }
  }
  const value = scalarValue(
    to < end && style === 'plain' ? source.text.slice(from, to).replace(/\s*\n\s*/g, ' ') : node.value,
  );
  const text = typeof value === 'string' ? value : '';
  const offsets = (): readonly number[] => textOffsets(source.text, from, to, text, style);
  const control = style === 'double-quoted' ? text.search(controlCharacter) : -1;
  if (control >= 0) state.diagnostics.push(unwantedEscape(source, offsets()[control] ?? from));
  return {
    kind: 'scalar',
    value,
    written: typeof value === 'string' ? value : source.text.slice(from, to),
    span: { source, start: from, end: to },
    offsets,
  };
}

function scalarValue(value: unknown): Scalar['value'] {
  return typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean' ? value : null;
}

/** Characters that nobody wants in a lesson. */
const controlCharacter = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F]/;

/** `\\flat` in double quotes is a form feed and `lat`. */
function unwantedEscape(source: SourceText, start: number): Diagnostic {
  return {
    code: 'L0013',
    severity: 'error',
    message: `\`${source.text.slice(start, start + 2)}\` in double quotes is a control character`,
    span: { source, start, end: start + 2 },
    help: 'write `\\\\` for a backslash, or use single quotes',
  };
}

/** A remark begins with `#` and a space; `#ivo7` and `# minor` after an unquoted text were meant as part of it. */
function cutByComment(
  source: SourceText,
  after: readonly { readonly type: string; readonly offset: number; readonly source: string }[],
  text: Span,
): Diagnostic | undefined {
  for (const token of after) {
    if (token.type === 'newline') return undefined;
    if (token.type === 'comment' && /^#(?:[\p{L}\p{N}]|\s*(?:major|minor)\b)/u.test(token.source)) {
      return {
        code: 'L0004',
        severity: 'error',
        message: `the text ends before \`#\`: the rest of the line is taken for a remark`,
        span: { source, start: token.offset, end: token.offset + token.source.length },
        label: 'not read',
        notes: [`what is left is \`${source.text.slice(text.start, text.end)}\``],
        help: 'put the whole text in double quotes; if this is a remark, put a space after `#`',
      };
    }
  }
  return undefined;
}

/** A line of an unquoted text that begins with a dash: it was meant as the next item of the list. */
function dashWithin(source: SourceText, start: number, end: number): Span | undefined {
  const match = /\n[^\S\n]*(?=-[^\S\n])/.exec(source.text.slice(start, end));
  if (match === null) return undefined;
  const dash = start + match.index + match[0].length;
  const lineEnd = source.text.indexOf('\n', dash);
  return { source, start: dash, end: lineEnd < 0 || lineEnd > end ? end : lineEnd };
}

const strayDash = (span: Span): Diagnostic => ({
  code: 'L0001',
  severity: 'error',
  message: 'this line is not indented like its neighbours: its dash goes on with the text above',
  span,
  label: 'not read',
  help: `${columnHelp}; a text that holds such a line goes into double quotes, or below its key after \`|\``,
});

/** One fault often makes the parser stumble several times on its line; the first report says it. */
function firstOfEachLine(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const sorted = [...diagnostics].sort((a, b) => (a.span?.start ?? 0) - (b.span?.start ?? 0));
  const lines = new Set<number>();
  return sorted.filter(({ span, code }) => {
    if (span === undefined || code === 'L0009') return true;
    const { line } = placeOf(span.source, span.start);
    if (lines.has(line)) return false;
    lines.add(line);
    return true;
  });
}
