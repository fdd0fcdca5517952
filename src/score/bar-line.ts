/** What a bar line or the start of an ending says (ABC 2.1, sections 4.8 to 4.10). */
export interface BarLine {
  /** How often the music before the line is played in all; 1 where nothing is repeated. */
  readonly times: number;
  readonly startsRepeat: boolean;
  /** A line that ends an ending: anything but a plain thin line. */
  readonly strong: boolean;
  readonly ending?: readonly number[];
  readonly start: number;
  readonly end: number;
}

const sign = /(:*)(\[?\|[|\]]*|\]|\[(?=[\d"]))?(:*)/y;
/** More passes than this are an input error, not music. */
export const mostPasses = 99;

/** The numbers of an ending such as `1`, `1,3` or `1-3`; empty where the text holds none. */
export function readEnding(text: string): readonly number[] {
  const numbers: number[] = [];
  for (const [, first = '', last] of text.matchAll(/(\d+)(?:-(\d+))?/g)) {
    const from = Number(first);
    const to = Math.min(Number(last ?? first), mostPasses);
    for (let number = from; number <= to; number++) numbers.push(number);
  }
  return numbers;
}

/** Reads the bar line that stands between two offsets of the music code. */
export function readBarLine(
  music: string,
  start: number,
  end: number,
  endingText: string | undefined,
): BarLine {
  const covered = music.slice(start, end).replace(/"[^"]*"|![^!]*!/g, text => ' '.repeat(text.length));
  const first = covered.search(/[:|[\]]/);
  sign.lastIndex = start + Math.max(0, first);
  const match = sign.exec(music);
  const [text = '', before = '', bar = '', after = ''] = match ?? [];
  const both = bar === '' && before.length >= 2;
  const times = both ? Math.ceil(before.length / 2) + 1 : before.length + 1;
  const numbers = endingText === undefined ? [] : readEnding(endingText);
  return {
    times: Math.min(times, mostPasses),
    startsRepeat: both || after !== '',
    strong: bar !== '|' || before !== '' || after !== '',
    ...(numbers.length === 0 ? {} : { ending: numbers }),
    start: start + Math.max(0, first),
    end: Math.max(end, start + Math.max(0, first) + text.length),
  };
}
