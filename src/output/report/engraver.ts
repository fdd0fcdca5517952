import abcjs from 'abcjs';
import type { TuneLine, TuneObject } from 'abcjs';
import { engravingLook, engravingSource, hairpinInside, isHairpin } from '../../timeline/index.js';
import type { DOMWindow } from 'jsdom';
import { compactDrawing } from './compact-drawing.js';
import { around, pathExtent } from './path-extent.js';
import type { Extent } from './path-extent.js';
import { textWidth } from './text-width.js';

/** A note, chord or rest as drawn, with the range of the source that it comes from; `y` of each head from the lowest up. */
export interface DrawnItem {
  readonly from: number;
  readonly to: number;
  /** Left edge with its accidentals, and right edge. */
  readonly left: number;
  readonly right: number;
  readonly heads: readonly { readonly x: number; readonly y: number }[];
}

/** One line of the score as static SVG. Units are those of the engraving, where a staff is 31 high. */
export interface DrawnSystem {
  /** The inside of an SVG element. */
  readonly markup: string;
  readonly extent: Extent;
  /** Upper line of the top staff and lower line of the bottom staff, and their ends. */
  readonly staves: Extent;
  readonly items: readonly DrawnItem[];
  /** Right edges of the bar lines, from left to right. */
  readonly barLines: readonly number[];
}

/** What the parts of abcjs's tune look like that its types leave out. */
interface Item {
  readonly el_type: string;
  readonly startChar?: number;
  readonly endChar?: number;
  readonly abselem?: {
    readonly x: number;
    readonly w: number;
    /** How far accidentals reach to the left of `x`; 0 or negative. */
    readonly extraw: number;
    readonly notePositions?: readonly { readonly x: number; readonly y: number }[];
  };
}
interface NamedStaff {
  readonly clef?: unknown;
  title?: unknown;
}

/** Titles, the names of voices and the tempo stand in the report's own words. */
function musicAlone(tune: TuneObject): TuneObject {
  tune.metaText = {};
  for (const line of tune.lines) {
    const staves: readonly NamedStaff[] = line.staff ?? [];
    for (const staff of staves) delete staff.title;
  }
  return tune;
}

/** What stands before a bar line: its width as narrow as it can be set, and how many bars it is. */
export interface Entry {
  readonly width: number;
  /** Usually 1; 0 where two bar lines stand side by side, more for a rest of several bars. */
  readonly bars: number;
}

/** The entries of a score, part by part: a heading in the music begins a new part. */
export interface Measured {
  readonly parts: readonly (readonly Entry[])[];
}

/** Engraves scores without a browser. */
export interface Engraver {
  readonly measure: (abc: string) => Measured;
  /**
   * @param width of a line
   * @param lineEnds for every part of the score the entries after which its lines end
   */
  readonly engrave: (
    abc: string,
    width: number,
    lineEnds: readonly (readonly number[])[],
  ) => readonly DrawnSystem[];
}

interface ParsedItem {
  readonly el_type: string;
  readonly rest?: { readonly type: string; readonly text?: number | string };
}

/** How many bars stand before each bar line of the upper voice. */
function barsOfEntries(lines: readonly TuneLine[]): readonly number[] {
  const items: readonly ParsedItem[] = lines.flatMap(line => line.staff?.[0]?.voices?.[0] ?? []);
  const entries: number[] = [];
  let bars = 0;
  for (const { el_type, rest } of items) {
    if (el_type === 'note') bars = Math.max(bars, rest?.type === 'multimeasure' ? Number(rest.text ?? 1) : 1);
    if (el_type !== 'bar') continue;
    entries.push(bars);
    bars = 0;
  }
  return bars > 0 ? [...entries, bars] : entries;
}

/** Starts an engraver: a document without a window, in which abcjs draws. */
export async function startEngraver(): Promise<Engraver> {
  const { JSDOM } = await import('jsdom');
  const { window } = new JSDOM('<!doctype html><body><div></div></body>');
  giveTextSizes(window);
  const place = window.document.querySelector('div');
  if (place === null) throw new Error('the document of the engraver has no place to draw in');
  return {
    measure: score => {
      const { text } = engravingSource(score);
      const [metrics] = withDocument(window, () => abcjs.tuneMetrics(text, engravingLook));
      const bars = barsOfEntries(abcjs.parseOnly(text)[0]?.lines ?? []);
      let entry = 0;
      return {
        parts: (metrics?.sections ?? []).map(section =>
          section.measureWidths.map(width => ({ width, bars: bars[entry++] ?? 0 })),
        ),
      };
    },
    engrave: (abc, width, lineEnds) => {
      const { text, restore, restoreBroken } = engravingSource(abc);
      const [tune] = withDocument(window, () => {
        const written = restore(abcjs.parseOnly(text)[0]);
        return abcjs.renderAbc(place, text, {
          ...engravingLook,
          staffwidth: width,
          lineBreaks: lineEnds as unknown as number[],
          afterParsing: parsed => musicAlone(restoreBroken(parsed, written)),
        });
      });
      const lines = tune.lines.filter(line => line.staff !== undefined);
      const drawings = [...place.querySelectorAll('.abcjs-staff-wrapper')];
      const systems = drawings.flatMap((drawing, index) => {
        const line = lines[index];
        return line === undefined ? [] : [drawnSystem(drawing, line)];
      });
      place.replaceChildren();
      return systems;
    },
  };
}

/** abcjs looks for a browser's globals; it gets them while it draws and no longer, so that nothing else takes this for a browser. */
function withDocument<T>(window: DOMWindow, draw: () => T): T {
  const lent = { window, document: window.document, navigator: window.navigator };
  const before = Object.keys(lent).map(
    name => [name, Object.getOwnPropertyDescriptor(globalThis, name)] as const,
  );
  for (const [name, value] of Object.entries(lent))
    Object.defineProperty(globalThis, name, { value, configurable: true, writable: true });
  // It also prints remarks for its makers, which must not end in a report.
  const { log } = console;
  console.log = () => undefined;
  try {
    return draw();
  } finally {
    console.log = log;
    for (const [name, own] of before) {
      if (own === undefined) Reflect.deleteProperty(globalThis, name);
      else Object.defineProperty(globalThis, name, own);
    }
  }
}

/** Nothing is laid out here, so texts get the size that they would have, about. */
function giveTextSizes(window: DOMWindow): void {
  const getBBox = function (this: Element): { x: number; y: number; width: number; height: number } {
    const size = Number(this.getAttribute('font-size') ?? 16);
    const lines = [...this.children].map(line => line.textContent);
    const widths = (lines.length === 0 ? [this.textContent] : lines).map(line => textWidth(line, size));
    return { x: 0, y: 0, width: Math.max(0, ...widths), height: size * 1.2 * Math.max(1, lines.length) };
  };
  Object.defineProperty(window.SVGElement.prototype, 'getBBox', { value: getBBox });
}

function drawnSystem(drawing: Element, line: TuneLine): DrawnSystem {
  const paths = (within: string): readonly Extent[] =>
    [...drawing.querySelectorAll(`${within} path, path${within === '' ? '' : within}`)].flatMap(
      path => pathExtent(path.getAttribute('d') ?? '') ?? [],
    );
  const texts = [...drawing.querySelectorAll('text')].map((text): Extent => {
    const [x, y] = ['x', 'y'].map(name => Number(text.getAttribute(name) ?? 0));
    const size = Number(text.getAttribute('font-size') ?? 16);
    const width = textWidth(text.textContent, size);
    return { left: x ?? 0, right: (x ?? 0) + width, top: (y ?? 0) - size, bottom: (y ?? 0) + size * 0.3 };
  });
  const voices: readonly Item[][] = (line.staff ?? []).flatMap(staff => staff.voices ?? []);
  const drawn = voices.flat().filter(item => item.abselem !== undefined);
  const items = drawn.filter(({ el_type }) => el_type === 'note').flatMap(drawnItem);
  const staves = around(paths('.abcjs-staff'));
  const dynamics = [...drawing.querySelectorAll('.abcjs-dynamics path, path.abcjs-dynamics')].map(path => ({
    path,
    signs: path.getAttribute('d') ?? '',
  }));
  const letters = dynamics.flatMap(({ signs }) => (isHairpin(signs) ? [] : (pathExtent(signs) ?? [])));
  const from = Math.min(...items.map(({ left }) => left));
  for (const { path, signs } of dynamics)
    path.setAttribute('d', hairpinInside(signs, from, staves.right, letters));
  return {
    extent: around([...paths(''), ...texts]),
    staves,
    items,
    barLines: (voices[0] ?? [])
      .flatMap(({ el_type, abselem }) =>
        el_type === 'bar' && abselem !== undefined ? [abselem.x + abselem.w] : [],
      )
      .sort((a, b) => a - b),
    markup: compactDrawing(drawing),
  };
}

function drawnItem({ startChar, endChar, abselem }: Item): readonly DrawnItem[] {
  if (startChar === undefined || endChar === undefined || abselem === undefined) return [];
  const { x, w, extraw, notePositions = [] } = abselem;
  return [
    { from: startChar, to: endChar, left: x + Math.min(0, extraw), right: x + w, heads: notePositions },
  ];
}
