import { printChord, printKey } from '../../harmony/index.js';
import type { Analysis, HarmonicFunction, Segment } from '../../harmony/index.js';
import { add, toNumber } from '../../score/index.js';
import { element, text } from './markup.js';
import type { Markup } from './markup.js';
import { chordLabel, romanLabel, withAccidentals } from '../../timeline/index.js';
import type { PlacedSystem } from './placed-system.js';
import { textWidth } from './text-width.js';

/** Labels under a line of the score and how much room they take. */
export interface Labels {
  readonly markup: Markup;
  readonly height: number;
}

/** Letters of the functions (common practice). */
export const functionLetters: Readonly<Record<HarmonicFunction, string>> = {
  tonic: 'T',
  predominant: 'PD',
  dominant: 'D',
};

/** Rows from the staff down: the size of their type and the height of one lane, in units of the engraving. */
const rows = [
  { name: 'chord', size: 16, height: 20 },
  { name: 'numeral', size: 19, height: 26 },
  { name: 'function', size: 13, height: 17 },
] as const;
type Row = (typeof rows)[number];

const keyHeight = 24;
const gap = 5;

interface Shown {
  readonly segment: Segment;
  readonly x: number;
}

/** Chord, numeral, function and key of every harmony, each under the beat where it begins. */
export function labelsUnder(system: PlacedSystem, { score, segments }: Analysis, top: number): Labels {
  const [first, last] = [score.bars[system.firstBar], score.bars[system.lastBar]];
  if (first === undefined || last === undefined) return { markup: '', height: 0 };
  const [from, to] = [toNumber(first.start), toNumber(add(last.start, last.length))];
  const shown = segments.flatMap((segment): Shown[] => {
    const start = Math.max(from, toNumber(segment.start));
    const x = system.xAt(start);
    return start >= Math.min(to, toNumber(segment.end)) - 1e-9 || x === undefined ? [] : [{ segment, x }];
  });
  let y = top;
  const lines = rows.map(row => {
    const lanes: number[] = [];
    const labels = shown.map(({ segment, x }) => {
      const { markup, width } = label(row, segment);
      const free = lanes.findIndex(end => end + gap <= x);
      const lane = free < 0 ? lanes.length : free;
      lanes[lane] = x + width;
      return element(
        'g',
        {
          class: `label ${row.name}`,
          transform: `translate(${round(x)} ${round(y + row.height * (lane + 0.78))})`,
        },
        markup,
      );
    });
    y += row.height * Math.max(1, lanes.length);
    return labels.join('');
  });
  const keys = keyLine(system, shown, y);
  return { markup: element('g', { class: 'labels' }, ...lines, keys), height: y + keyHeight - top };
}

function label({ name, size }: Row, segment: Segment): { readonly markup: Markup; readonly width: number } {
  switch (name) {
    case 'chord':
      return plain(chordLabel(printChord(segment.chord)), size);
    case 'numeral':
      return numeral(segment.roman, size);
    case 'function':
      return plain(functionLetters[segment.function], size);
  }
}

const plain = (words: string, size: number): { readonly markup: Markup; readonly width: number } => ({
  markup: element('text', { 'font-size': size }, text(words)),
  width: textWidth(words, size),
});

/** A numeral with its figures raised and stacked. */
function numeral(roman: string, size: number): { readonly markup: Markup; readonly width: number } {
  let x = 0;
  const put = (words: string, scale: number, rise: number): Markup =>
    element('text', { x: round(x), y: round(-rise * size), 'font-size': round(size * scale) }, text(words));
  const markup = romanLabel(roman).map(part => {
    switch (part.kind) {
      case 'text': {
        const drawn = put(part.text, 1, 0);
        x += textWidth(part.text, size);
        return drawn;
      }
      case 'raised': {
        const drawn = put(part.text, 0.68, 0.34);
        x += textWidth(part.text, size * 0.68);
        return drawn;
      }
      case 'stack': {
        const drawn = part.figures.map((figure, index) => put(figure, 0.62, 0.42 - 0.5 * index)).join('');
        x += textWidth('6', size * 0.62);
        return drawn;
      }
    }
  });
  return { markup: markup.join(''), width: x };
}

/** A line under every stretch in one key, with its name where it begins. */
function keyLine(system: PlacedSystem, shown: readonly Shown[], y: number): Markup {
  const areas = shown.filter(({ segment }, index) => {
    const before = shown[index - 1]?.segment.key;
    return before === undefined || printKey(before) !== printKey(segment.key);
  });
  return areas
    .map(({ segment, x }, index) => {
      const name = withAccidentals(printKey(segment.key));
      const from = x + textWidth(name, 15) + 6;
      const to = (areas[index + 1]?.x ?? system.staves.right) - 6;
      const line =
        to > from
          ? element('path', { class: 'key-line', d: `M${round(from)} ${round(y + 12)}H${round(to)}v-5` })
          : '';
      return element(
        'g',
        { class: 'label key' },
        element('text', { x: round(x), y: round(y + 17), 'font-size': 15 }, text(name)),
        line,
      );
    })
    .join('');
}

const round = (value: number): number => Math.round(value * 10) / 10;
