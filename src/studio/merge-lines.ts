import { diff3Merge, diffComm } from 'node-diff3';

/** Lines that both sides have changed in different ways. */
export interface Conflict {
  readonly kind: 'conflict';
  readonly here: readonly string[];
  readonly onDisk: readonly string[];
  /** The lines from which both grew; absent where the common text is not known. */
  readonly before?: readonly string[];
  /** Number of the first line in the text here, 1-based. */
  readonly line: number;
}

/** A part of the merged text. */
export type MergedPart = { readonly kind: 'lines'; readonly lines: readonly string[] } | Conflict;

const linesOf = (text: string): string[] => text.split('\n');

/** Number of lines that all the texts begin with. */
function sameHead(texts: readonly (readonly string[])[]): number {
  const most = Math.min(...texts.map(({ length }) => length));
  const [first = []] = texts;
  let same = 0;
  while (same < most && texts.every(text => text[same] === first[same])) same++;
  return same;
}

/** Number of lines that all the texts end with, apart from those that they begin with. */
function sameTail(texts: readonly (readonly string[])[], head: number): number {
  const most = Math.min(...texts.map(({ length }) => length)) - head;
  const [first = []] = texts;
  let same = 0;
  while (same < most && texts.every(text => text.at(-1 - same) === first.at(-1 - same))) same++;
  return same;
}

/**
 * Merges two texts that grew from a third, line by line (Khanna, Kunal and Pierce, "A formal investigation of diff3", 2007). Line ends are LF.
 * @param before the text from which both grew; `undefined` where it is not known, so that every difference is a conflict
 */
export function mergeLines(before: string | undefined, here: string, onDisk: string): readonly MergedPart[] {
  const sides = [here, onDisk, ...(before === undefined ? [] : [before])].map(linesOf);
  // Most of the text is the same on all sides; the comparison of the rest takes time that grows with its square.
  const head = sameHead(sides);
  const tail = sameTail(sides, head);
  const [mine = [], theirs = [], old] = sides.map(lines => lines.slice(head, lines.length - tail));
  const own = sides[0] ?? [];
  const middle = old === undefined ? twoWay(mine, theirs, head) : threeWay(mine, old, theirs, head);
  return [
    { kind: 'lines' as const, lines: own.slice(0, head) },
    ...middle,
    { kind: 'lines' as const, lines: own.slice(own.length - tail) },
  ].filter(part => part.kind === 'conflict' || part.lines.length > 0);
}

const threeWay = (here: string[], before: string[], onDisk: string[], head: number): readonly MergedPart[] =>
  diff3Merge<string>(here, before, onDisk, { excludeFalseConflicts: true }).flatMap(
    ({ ok, conflict }): readonly MergedPart[] => [
      ...(ok === undefined ? [] : [{ kind: 'lines' as const, lines: ok }]),
      ...(conflict === undefined
        ? []
        : [
            {
              kind: 'conflict' as const,
              here: conflict.a,
              onDisk: conflict.b,
              before: conflict.o,
              line: head + conflict.aIndex + 1,
            },
          ]),
    ],
  );

function twoWay(here: string[], onDisk: string[], head: number): readonly MergedPart[] {
  let line = head + 1;
  return diffComm(here, onDisk).map((part): MergedPart => {
    const at = line;
    if (part.common !== undefined) {
      line += part.common.length;
      return { kind: 'lines', lines: part.common };
    }
    line += part.buffer1.length;
    return { kind: 'conflict', here: part.buffer1, onDisk: part.buffer2, line: at };
  });
}

/** What becomes of a conflict. */
export type Side = 'here' | 'onDisk' | 'both';

export const conflictsOf = (parts: readonly MergedPart[]): readonly Conflict[] =>
  parts.filter(part => part.kind === 'conflict');

/** The merged text, with one answer for each conflict in their order; what has no answer stays as it is here. */
export function mergedText(parts: readonly MergedPart[], answers: readonly Side[] = []): string {
  let conflict = 0;
  return parts
    .flatMap(part => {
      if (part.kind === 'lines') return part.lines;
      const side = answers[conflict++] ?? 'here';
      if (side === 'both') return [...part.here, ...part.onDisk];
      return side === 'here' ? part.here : part.onDisk;
    })
    .join('\n');
}
