import type { Score } from '../../score/index.js';
import { barsText } from '../../timeline/index.js';
import { element, text } from './markup.js';
import type { Markup } from './markup.js';
import type { PlacedSystem } from './placed-system.js';

const margin = 8;
/** Room above the staff for the number of the first bar. */
const headroom = 16;

/** What is put around the music of a line. */
export interface Around {
  /** Drawn from `marksBottom(system)` up. */
  readonly marks?: { readonly markup: Markup; readonly height: number };
  /** Drawn from `labelTop(system)` down. */
  readonly labels?: { readonly markup: Markup; readonly height: number };
}

/** Where labels under a line begin. */
export const labelTop = ({ extent, staves }: PlacedSystem): number =>
  Math.max(extent.bottom, staves.bottom + 6) + 6;

const leftEdge = ({ extent }: PlacedSystem): number => Math.min(extent.left, 0) - 2;

/** How wide a line is with its brace and margin. */
export const systemWidth = (system: PlacedSystem): number => system.staves.right - leftEdge(system) + margin;

/** Where what stands above a line ends. */
export const marksBottom = ({ extent, staves }: PlacedSystem): number =>
  Math.min(extent.top, staves.top - headroom);

/**
 * One line of the score as an SVG element.
 * @param widest width of the widest line of the report, which fills its column; the others keep its scale
 */
export function systemSvg(
  score: Score,
  system: PlacedSystem,
  music: Markup,
  widest: number,
  around: Around = {},
): Markup {
  const { extent, staves, firstBar, lastBar } = system;
  const left = leftEdge(system);
  const width = systemWidth(system);
  const top = marksBottom(system) - (around.marks?.height ?? 0) - margin;
  const bottom =
    around.labels === undefined ? extent.bottom + margin : labelTop(system) + around.labels.height;
  const [first, last] = [score.bars[firstBar]?.label ?? '', score.bars[lastBar]?.label ?? ''];
  return element(
    'svg',
    {
      class: 'system',
      viewBox: [left, top, width, bottom - top].map(value => Math.round(value * 10) / 10).join(' '),
      width: `${String(Math.min(100, Math.round((1000 * width) / widest) / 10))}%`,
      role: 'img',
      fill: 'currentColor',
      stroke: 'currentColor',
      'aria-label': barsText({ first, last }),
    },
    music,
    // A pickup has no number in print (common practice).
    first === '0'
      ? ''
      : element(
          'text',
          { class: 'bar-number', x: 0, y: Math.round(staves.top - 9), 'font-size': 13 },
          text(first),
        ),
    around.marks?.markup ?? '',
    around.labels?.markup ?? '',
  );
}
