/** What a bar line or the start of an ending says (ABC 2.1, sections 4.8 to 4.10). */
export interface BarLine {
  /** How often the music before the line is played in all; 1 where nothing is repeated. */
  readonly times: number;
  readonly startsRepeat: boolean;
  /** Anything but a plain line: it ends an ending, and a repeat without a start goes back to it. */
  readonly strong: boolean;
  /** The passes on which the music after the line is played. */
  readonly ending?: readonly number[];
  /** Range of the sign in the source. */
  readonly start: number;
  readonly end: number;
}

/** More passes than this are a slip, not music. */
export const mostPasses = 99;

const sign = /(:*)(\[?\|[|\]]*|\]|\[(?=[\d"]))?(:*)/y;

/** The numbers of an ending such as `1`, `1,3` or `1-3`; `undefined` where it holds none or one beyond all reason. */
export function readEnding(text: string): readonly number[] | undefined {
  const numbers: number[] = [];
  for (const [, first = '', last] of text.matchAll(/(\d+)(?:-(\d+))?/g)) {
    const to = Number(last ?? first);
    if (to > mostPasses) return undefined;
    for (let number = Number(first); number <= to; number++) numbers.push(number);
  }
  return numbers.length === 0 ? undefined : numbers;
}

/** Reads the bar line that stands between two offsets of the music code, behind chord symbols and decorations of its own. */
export function readBarLine(
  music: string,
  from: number,
  to: number,
  endingText: string | undefined,
): BarLine {
  const covered = music.slice(from, to).replace(/"[^"]*"|![^!]*!/g, text => ' '.repeat(text.length));
  const start = from + Math.max(0, covered.search(/[:|[\]]/));
  sign.lastIndex = start;
  const [text = '', before = '', bar = '', after = ''] = sign.exec(music) ?? [];
  // `::` stands for `:|` and `|:` in one.
  const double = bar === '' && before.length > 1;
  const repeats = double ? Math.ceil(before.length / 2) : before.length;
  const ending = endingText === undefined ? undefined : readEnding(endingText);
  return {
    times: Math.min(repeats + 1, mostPasses),
    startsRepeat: double || after !== '',
    strong: (bar !== '|' && bar !== '[') || before !== '' || after !== '',
    ...(ending === undefined ? {} : { ending }),
    start,
    end: Math.max(to, start + text.length),
  };
}
