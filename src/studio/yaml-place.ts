/** What is being written at a place of a YAML text that may be unfinished: told from indentation alone, since no parser reads half a line. */
export interface YamlPlace {
  /** Keys and list items around the place, the outermost first; `-` stands for an item of a list. */
  readonly path: readonly string[];
  /** A key or a plain item of a list at its beginning, a value, or text in a block scalar. */
  readonly what: 'key' | 'value' | 'block text';
  /** The key or value as far as it is written. */
  readonly written: string;
}

interface Mark {
  readonly column: number;
  /** The key; `-` for an item of a list. */
  readonly name: string;
}

interface Line {
  readonly marks: readonly Mark[];
  /** What follows the marks. */
  readonly rest: string;
}

const keyAt = /^(?:"(?<double>[^"]*)"|'(?<single>[^']*)'|(?<plain>[\w][\w -]*?)):(?=\s|$)\s*/u;

/** The dashes and keys with which a line begins. */
function readLine(line: string): Line {
  const marks: Mark[] = [];
  let column = line.length - line.trimStart().length;
  for (;;) {
    const rest = line.slice(column);
    const dash = /^-(?=\s|$)\s*/u.exec(rest)?.[0];
    const key = dash === undefined ? keyAt.exec(rest) : null;
    if (dash !== undefined) {
      marks.push({ column, name: '-' });
      column += dash.length;
    } else if (key === null) return { marks, rest };
    else {
      const { double, single, plain } = key.groups ?? {};
      marks.push({ column, name: double ?? single ?? plain ?? '' });
      return { marks, rest: rest.slice(key[0].length) };
    }
  }
}

const isBlank = (line: string): boolean => /^\s*(?:#.*)?$/u.test(line);
const opensBlock = (rest: string): boolean => /^[|>][-+\d]*\s*(?:#.*)?$/u.test(rest);

/** Follows the braces and brackets of a flow collection up to its unfinished end. */
function readFlow(rest: string): YamlPlace {
  const path: string[] = [];
  const open: ('{' | '[')[] = [];
  let isKey = false;
  /** Where the key or value that is being read begins. */
  let from = 0;
  let quote = '';
  const leave = (): void => {
    if (open.length > 0 && !isKey) path.pop();
  };
  /** @returns whether a key stands there */
  const enter = (at: number): boolean => {
    from = at + 1;
    if (open.at(-1) === '[') path.push('-');
    return open.at(-1) === '{';
  };
  for (const [at, sign] of rest.split('').entries()) {
    const isFirst = rest.slice(from, at).trim() === '';
    if (quote !== '') {
      if (sign === quote) quote = '';
    } else if (isFirst && (sign === '"' || sign === "'")) quote = sign;
    else if (isFirst && (sign === '{' || sign === '[')) {
      open.push(sign);
      isKey = enter(at);
    } else if (open.length === 0) continue;
    else if (sign === ',') {
      leave();
      isKey = enter(at);
    } else if (sign === ':' && isKey && /^(?:\s|$)/u.test(rest.slice(at + 1))) {
      path.push(
        rest
          .slice(from, at)
          .trim()
          .replaceAll(/^["']|["']$/gu, ''),
      );
      isKey = false;
      from = at + 1;
    } else if (sign === '}' || sign === ']') {
      leave();
      open.pop();
      isKey = false;
      from = at + 1;
    }
  }
  return { path, what: isKey ? 'key' : 'value', written: rest.slice(from).trimStart() };
}

/**
 * The place at the end of a text.
 * @param before the text up to the place; CRLF is no line end here
 */
export function yamlPlace(before: string): YamlPlace {
  let end = before.lastIndexOf('\n');
  const current = before.slice(end + 1);
  const { marks, rest } = readLine(current);
  const flow = readFlow(rest);
  const path = [...marks.map(({ name }) => name), ...flow.path];
  /** What is around the place stands further left; the key of a list may stand as far left as its dashes. */
  let limit = marks[0]?.column ?? current.length - current.trimStart().length;
  let isItem = marks[0]?.name === '-';
  let isInBlock = false;
  while (end >= 0 && (limit > 0 || isItem)) {
    const start = before.lastIndexOf('\n', end - 1);
    const line = before.slice(start + 1, end);
    end = start;
    if (isBlank(line)) continue;
    const above = readLine(line);
    const around = above.marks.filter(
      ({ column, name }) => column < limit || (isItem && name !== '-' && column === limit),
    );
    const [first] = around;
    if (first === undefined) continue;
    const names = around.map(({ name }) => name);
    if (around.length === above.marks.length && opensBlock(above.rest)) {
      isInBlock = true;
      path.splice(0, path.length, ...names);
    } else path.unshift(...names);
    limit = first.column;
    isItem = first.name === '-';
  }
  if (isInBlock) return { path, what: 'block text', written: current.trimStart() };
  const mayBeKey = (marks.at(-1)?.name ?? '-') === '-' && !/^[[{]/u.test(rest);
  return { path, what: mayBeKey ? 'key' : flow.what, written: flow.written };
}
