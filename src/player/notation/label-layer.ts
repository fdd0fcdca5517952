import type { Layer } from '../../lesson/index.js';
import type { PageScore, PageSegment, PageStep } from '../../timeline/index.js';
import { svg } from '../dom.js';
import { chordLabel, figuresOf, romanLabel, withAccidentals, type LabelPart } from '../../timeline/index.js';
import { lanesFor } from './lanes.js';
import type { Placement } from './place-score.js';

/** What is labelled: the layers, and the stretch of the score in whole notes. */
export interface LabelRequest {
  readonly layers: ReadonlySet<Layer>;
  readonly start: number;
  readonly end: number;
  /** Positions in `PageScore.segments` whose labels are still covered. */
  readonly covered: ReadonlySet<number>;
  /** Harmonies that go by another name here. */
  readonly readings: PageStep['readings'];
  /** How wide texts are that were measured in the present face: a measure lays the whole page out, and most labels come again and again. */
  readonly widths: Map<string, number>;
}

/** Rows under the staff from top to bottom, with the size of their type and the height of one lane, in units of the engraving. */
const rows = [
  { layer: 'figures', size: 17, height: 24 },
  { layer: 'chords', size: 17, height: 22 },
  { layer: 'numerals', size: 20, height: 27 },
  { layer: 'functions', size: 14, height: 19 },
] as const;
type Row = (typeof rows)[number];

const functionNames = { tonic: 'T', predominant: 'PD', dominant: 'D' } as const;

function partsOf(layer: Row['layer'], segment: PageSegment): readonly LabelPart[] {
  switch (layer) {
    case 'figures':
      return figuresOf(segment.roman);
    case 'chords':
      return [{ kind: 'text', text: chordLabel(segment.chord) }];
    case 'numerals':
      return romanLabel(segment.roman);
    case 'functions':
      return [{ kind: 'text', text: functionNames[segment.function] }];
  }
}

/** Draws one label of a row from `x` on the base line 0 and returns its width. */
function drawParts(
  parent: SVGGElement,
  parts: readonly LabelPart[],
  { layer, size }: Row,
  x: number,
  widths: Map<string, number>,
): number {
  let at = x;
  const put = (text: string, scale: number, rise: number): number => {
    const node = svg('text', { x: at, y: -rise * size, 'font-size': size * scale }, text);
    parent.append(node);
    return widthOf(node, `${layer} ${String(scale)} ${text}`, widths);
  };
  for (const part of parts) {
    switch (part.kind) {
      case 'text':
        at += put(part.text, 1, 0);
        break;
      case 'raised':
        at += put(part.text, part.text === '°' ? 0.9 : 0.68, part.text === '°' ? 0.12 : 0.34);
        break;
      case 'stack':
        at += Math.max(...part.figures.map((figure, index) => put(figure, 0.62, 0.42 - 0.5 * index)));
        break;
    }
  }
  return at - x;
}

/** @param name tells texts from one another that may differ in width */
function widthOf(node: SVGTextElement, name: string, widths: Map<string, number>): number {
  const width = widths.get(name) ?? node.getComputedTextLength();
  // What is hidden has no width, and must not keep others from having theirs.
  if (width > 0) widths.set(name, width);
  return width;
}

interface Shown {
  readonly index: number;
  readonly segment: PageSegment;
  readonly from: number;
  readonly to: number;
  readonly x: number;
}

/** A harmony by the name that it goes by in a step. */
export function asCalled(segment: PageSegment, index: number, readings: PageStep['readings']): PageSegment {
  const called = readings.find(one => one.segment === index);
  return called === undefined ? segment : { ...segment, roman: called.roman, key: called.key };
}

/** Draws the labels of one system below `top` into `parent` and returns the height that they take. */
export function drawLabels(
  parent: SVGGElement,
  score: PageScore,
  placement: Placement,
  system: number,
  request: LabelRequest,
  top: number,
): number {
  const here = score.segments.flatMap((heard, index): Shown[] => {
    const segment = asCalled(heard, index, request.readings);
    const from = Math.max(segment.start, request.start);
    const to = Math.min(segment.end, request.end);
    if (to - from < 1e-9) return [];
    const moment = placement.momentAt(from);
    return moment === undefined || moment.system !== system
      ? []
      : [{ index, segment, from, to, x: moment.x }];
  });
  if (here.length === 0 || request.layers.size === 0) return 0;
  const isCovered = ({ index }: Shown): boolean => request.covered.has(index);
  const shown = here.filter(one => !isCovered(one));
  const covers = here.filter((one, index) => isCovered(one) && coversLabel(here, index, request.layers));
  drawCovers(parent, covers, top);
  let y = top;
  if (shown.length === 0) return coverSize + 4;
  for (const row of rows) {
    if (!request.layers.has(row.layer)) continue;
    const drawn = shown.map(({ index, segment, x }) => {
      const group = svg('g', { class: `label label-${row.layer}`, 'data-harmony': index });
      parent.append(group);
      return { group, x, width: drawParts(group, partsOf(row.layer, segment), row, x, request.widths) };
    });
    const lanes = lanesFor(drawn, 5);
    for (const [index, { group }] of drawn.entries())
      group.setAttribute('transform', `translate(0 ${y + row.height * ((lanes[index] ?? 0) + 0.75)})`);
    y += row.height * (Math.max(...lanes) + 1);
  }
  if (request.layers.has('keys')) y += drawKeys(parent, shown, placement, y, request.widths);
  return y - top;
}

/** Whether a harmony has a label in one of the layers: a key is named where it begins, and a non-chord tone at its note. */
function coversLabel(here: readonly Shown[], index: number, layers: ReadonlySet<Layer>): boolean {
  if (rows.some(({ layer }) => layers.has(layer))) return true;
  return layers.has('keys') && here[index - 1]?.segment.key !== here[index]?.segment.key;
}

/** Marks the labels of the harmony that sounds; `undefined` where none does. */
export function markHarmony(labels: SVGGElement, harmony: number | undefined): void {
  for (const label of labels.querySelectorAll('[data-harmony]'))
    label.classList.toggle('now', label.getAttribute('data-harmony') === String(harmony));
}

/** Height of a cover, in units of the engraving. */
const coverSize = 22;

/** What hides a label until it is uncovered: an empty box with a question mark. */
function drawCovers(parent: SVGGElement, covered: readonly Shown[], top: number): void {
  for (const { index, x } of covered)
    parent.append(
      svg(
        'g',
        { class: 'cover', 'data-segment': index },
        svg('rect', { x: x - 3, y: top, width: coverSize + 2, height: coverSize, rx: 3 }),
        svg('text', { x: x + 4, y: top + 16, 'font-size': 15 }, '?'),
      ),
    );
}

/** A line under every stretch in one key, with its name where it begins. */
function drawKeys(
  parent: SVGGElement,
  shown: readonly Shown[],
  placement: Placement,
  y: number,
  widths: Map<string, number>,
): number {
  for (const [index, first] of shown.entries()) {
    if (shown[index - 1]?.segment.key === first.segment.key) continue;
    const next = shown.slice(index).findIndex(({ segment }) => segment.key !== first.segment.key);
    const last = shown[next < 0 ? shown.length - 1 : index + next - 1] ?? first;
    const bar = placement.bars.findLast(
      place => place !== undefined && place.system === system(placement, first) && place.left <= last.x,
    );
    const right = (next < 0 ? bar?.right : shown[index + next]?.x) ?? first.x;
    const group = svg('g', { class: 'label label-keys' });
    parent.append(group);
    const name = svg('text', { x: first.x, y: y + 17, 'font-size': 15 }, withAccidentals(first.segment.key));
    group.append(name);
    const from = first.x + widthOf(name, `keys ${first.segment.key}`, widths) + 6;
    if (right - 6 > from)
      group.append(svg('path', { class: 'key-line', d: `M${from} ${y + 12.5}H${right - 6}v-5` }));
  }
  return 24;
}

const system = (placement: Placement, { from }: Shown): number | undefined =>
  placement.momentAt(from)?.system;
