/** Lessons of any size for benchmarks: a piece of eight-bar periods in C major for two hands, and claims about every bar of it. */

interface PlainBar {
  readonly right: string;
  readonly left: string;
  readonly roman: string;
  readonly bass: string;
}

const close: PlainBar = { right: 'c8', left: 'C,4 C,,4', roman: 'I', bass: 'C' };
const walk: readonly PlainBar[] = [
  { right: "c2eg c'2ge", left: 'C,2G,2 E,2G,2', roman: 'I', bass: 'C' },
  { right: 'A2ce a2ec', left: 'A,,2E,2 C,2E,2', roman: 'vi', bass: 'A' },
  { right: 'd2fa d2af', left: 'F,,2A,,2 D,2F,2', roman: 'ii6', bass: 'F' },
  { right: 'g2fd B2dg', left: 'G,,2D,2 F,2G,2', roman: 'V7', bass: 'G' },
];
const barAt = (number: number): PlainBar => (number % 8 === 0 ? close : (walk[(number - 1) % 4] ?? close));
const numbers = (from: number, to: number): readonly number[] =>
  Array.from({ length: to - from + 1 }, (_, index) => from + index);

/** The piece in ABC notation, four bars to a line, one line for each hand. */
export function plainScore(bars: number): string {
  const line = (hand: 'right' | 'left', from: number): string => {
    const last = Math.min(bars, from + 3);
    const music = numbers(from, last).map(number => barAt(number)[hand]);
    return `[V:${hand === 'right' ? 'R' : 'L'}] ${music.join(' | ')} ${last === bars ? '|]' : '|'}\n`;
  };
  const starts = numbers(0, Math.ceil(bars / 4) - 1).map(index => index * 4 + 1);
  const music = starts.map(from => line('right', from) + line('left', from)).join('');
  return `X:1\nT:A plain piece\nM:4/4\nL:1/8\nQ:1/4=100\n%%score {R L}\nV:R clef=treble\nV:L clef=bass\nK:C\n${music}`;
}

const kinds: readonly ((bar: number) => string)[] = [
  bar => `bar ${String(bar)} is ${barAt(bar).roman}`,
  bar => `the bass of bar ${String(bar)} beat 1 is ${barAt(bar).bass}`,
  bar => `bar ${String(bar)} has no F#`,
];

function period(first: number, last: number, count: number): string {
  const [from, to] = [String(first), String(last)];
  const own = numbers(first, last);
  const claims = [`bars ${from}-${to} are in C major`, ...kinds.flatMap(kind => own.map(kind))].slice(
    0,
    count - 1,
  );
  return `  - title: Bars ${from} to ${to}
    bars: ${from}-${to}
    say: |
      These bars stay at home, and the bass walks. Listen to [the last of them]{bar ${to} is I}, and to how it closes.
    show: [chords, numerals]
    claims:
${claims.map(claim => `      - ${claim}\n`).join('')}`;
}

/** A lesson over the piece, which it expects beside it as `score`, with a number of claims spread over its bars. */
export function plainLesson(score: string, bars: number, claims: number): string {
  let made = 0;
  const steps = numbers(0, Math.ceil(bars / 8) - 1).map(index => {
    const last = Math.min(bars, index * 8 + 8);
    const count = Math.round((claims * last) / bars) - made;
    made += count;
    return period(index * 8 + 1, last, count);
  });
  return `format: 1\ntitle: A plain piece\nscore: ${score}\nhome: C major\nsteps:\n${steps.join('\n')}`;
}
