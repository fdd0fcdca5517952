import abcjs from 'abcjs';
import type { AbcVisualParams, TuneLine, TuneObject } from 'abcjs';
import { engravingLook, engravingSource, hairpinInside, isHairpin } from '../../timeline/index.js';
import { breakLines } from './break-lines.js';
import { lineGroups } from './line-groups.js';
import { shorterLines } from './shorter-lines.js';

/** A note head as drawn. Coordinates are those of the engraving. */
export interface DrawnHead {
  readonly x: number;
  readonly y: number;
  readonly shape: SVGElement;
}

/** A note, chord, rest or bar line as drawn, with the range of the source that it comes from. */
export interface DrawnItem {
  readonly kind: 'note' | 'bar';
  readonly from: number;
  readonly to: number;
  /** Left edge of the note heads, and how far the accidentals before them reach. */
  readonly x: number;
  readonly leftmost: number;
  readonly width: number;
  /** From the lowest to the highest; empty for a rest or a bar line. */
  readonly heads: readonly DrawnHead[];
}

/** One line of the score. */
export interface DrawnSystem {
  readonly drawing: SVGGElement;
  /** Everything drawn. */
  readonly top: number;
  readonly bottom: number;
  /** The staves alone: upper line of the top staff, lower line of the bottom staff, and their ends. */
  readonly staffTop: number;
  readonly staffBottom: number;
  readonly left: number;
  readonly right: number;
  /** The highest head or end of a stem. */
  readonly notesTop: number;
  /** Voice by voice, each from left to right. */
  readonly voices: readonly (readonly DrawnItem[])[];
}

/** What the parts of abcjs's tune look like that its types leave out. */
interface Drawn {
  readonly x: number;
  readonly w: number;
  /** How far accidentals reach to the left of `x`; 0 or negative. */
  readonly extraw: number;
  readonly heads: readonly { readonly graphelem?: SVGElement }[];
  readonly notePositions?: readonly { readonly x: number; readonly y: number }[];
}
interface Item {
  readonly el_type: string;
  readonly startChar?: number;
  readonly endChar?: number;
  readonly abselem?: Drawn;
}

interface NamedStaff {
  readonly clef?: unknown;
  title?: unknown;
}

/** How much wider than its narrowest possible setting a bar looks at ease. */
const ease = 1.7;
/** What the engraver parses where a tune is there already: `afterParsing` puts that in its place. */
const emptyTune = 'X:1\nK:C\n';
/** The score is told in words beside the drawing. */
const look: AbcVisualParams = { ...engravingLook, ariaLabel: '' };

/** Titles stand in the page's own head, and a voice is named once, at the first line. */
function withoutRepeatedNames(tune: TuneObject): TuneObject {
  tune.metaText = tune.metaText.tempo === undefined ? {} : { tempo: tune.metaText.tempo };
  for (const [index, line] of tune.lines.entries()) {
    const staves: readonly NamedStaff[] = line.staff ?? [];
    const names = new Set(staves.map(staff => JSON.stringify(staff.title)));
    if (index > 0 || names.size < 2) for (const staff of staves) delete staff.title;
  }
  return tune;
}

const drawnItems = (voice: readonly Item[]): readonly DrawnItem[] =>
  voice.flatMap((item): DrawnItem[] => {
    const { abselem, startChar, endChar } = item;
    if ((item.el_type !== 'note' && item.el_type !== 'bar') || abselem === undefined) return [];
    if (startChar === undefined || endChar === undefined) return [];
    const heads = abselem.heads.flatMap((head, index): DrawnHead[] => {
      const place = abselem.notePositions?.[index];
      return head.graphelem === undefined || place === undefined ? [] : [{ ...place, shape: head.graphelem }];
    });
    return [
      {
        kind: item.el_type,
        from: startChar,
        to: endChar,
        x: abselem.x,
        leftmost: abselem.x + Math.min(0, abselem.extraw),
        width: abselem.w,
        heads,
      },
    ];
  });

/** Words that begin at a line's last note (`a tempo`) would reach beyond the sheet; they are moved back to end with the staff. */
function keepWordsInside(drawing: SVGGElement, right: number): void {
  for (const words of drawing.querySelectorAll('text')) {
    const box = words.getBBox();
    const over = box.x + box.width - right;
    if (over > 0) words.setAttribute('transform', `translate(${-over} 0)`);
  }
}

function keepHairpinsInside(drawing: SVGGElement, left: number, right: number): void {
  const dynamics = [
    ...drawing.querySelectorAll<SVGGraphicsElement>('.abcjs-dynamics path, path.abcjs-dynamics'),
  ].map(path => ({ path, signs: path.getAttribute('d') ?? '' }));
  const letters = dynamics
    .filter(({ signs }) => !isHairpin(signs))
    .map(({ path }) => {
      const { x, y, width, height } = path.getBBox();
      return { left: x, right: x + width, top: y, bottom: y + height };
    });
  for (const { path, signs } of dynamics) path.setAttribute('d', hairpinInside(signs, left, right, letters));
}

/** Half a space: what a head reaches above its middle. */
const headAbove = 5;
/** Stems are drawn as thin boxes, `M x y L x y ...`; that of the sign before a tempo is no note. */
const stemEnds = (drawing: SVGGElement): readonly number[] =>
  [...drawing.querySelectorAll('.abcjs-stem')]
    .filter(stem => stem.closest('.abcjs-tempo') === null)
    .flatMap(stem => [...(stem.getAttribute('d') ?? '').matchAll(/[ML]\s*\S+\s+([\d.-]+)/g)])
    .map(([, y]) => Number(y));

function drawnSystem(drawing: SVGGElement, line: TuneLine): DrawnSystem {
  const staves = [...drawing.querySelectorAll<SVGGraphicsElement>('.abcjs-staff')].map(staff =>
    staff.getBBox(),
  );
  const right = Math.max(...staves.map(box => box.x + box.width));
  const items: readonly Item[][] = (line.staff ?? []).flatMap(staff => staff.voices ?? []);
  const voices = items.map(drawnItems);
  const notes = voices.flat().filter(({ kind }) => kind === 'note');
  keepHairpinsInside(drawing, Math.min(...notes.map(({ leftmost }) => leftmost)), right);
  keepWordsInside(drawing, right);
  const all = drawing.getBBox();
  return {
    drawing,
    top: all.y,
    bottom: all.y + all.height,
    staffTop: Math.min(...staves.map(box => box.y)),
    staffBottom: Math.max(...staves.map(box => box.y + box.height)),
    left: Math.min(...staves.map(box => box.x)),
    right,
    notesTop: Math.min(
      ...notes.flatMap(({ heads }) => heads.map(({ y }) => y - headAbove)),
      ...stemEnds(drawing),
    ),
    voices,
  };
}

/** A pause between two pieces of the work, in which the page may see to the reader. */
export type Pause = undefined;

/** Lines of the source that are measured at a time, and lines that are engraved at a time: some 20 ms of work. */
export const linesTogether = { measured: 12, engraved: 4 };

/** A line of the source with more than twice as many bars is cut into lines of these. */
const barsInLine = 4;

/** The engraver's own measuring, which the types of abcjs leave out. */
interface Measures {
  readonly getMeasureWidths: (
    tune: TuneObject,
  ) => readonly { readonly left: number; readonly measureWidths: readonly number[] }[];
}

/** Some lines of a tune as a tune of its own; where more follow, its last line is not set as the last one of a piece. */
const excerpt = (tune: TuneObject, lines: readonly TuneLine[], isLast: boolean): TuneObject => ({
  ...tune,
  lines: [...lines, ...(isLast ? [] : [{} as TuneLine])],
  // The tempo stands over the first staff alone.
  metaText: lines.includes(tune.lines.find(line => line.staff !== undefined) ?? {}) ? tune.metaText : {},
  getMeterFraction: () => tune.getMeterFraction(),
});

/**
 * Engraves the score for lines of `width` units, group of lines by group of lines. `goodEnds` names the bars after which a new line is
 * welcome. `place` must be in the document, because text is measured; what is drawn in it is taken out again by whoever uses the
 * drawings, before the next group is asked for.
 */
export function* engrave(
  abc: string,
  place: HTMLElement,
  width: number,
  goodEnds: ReadonlySet<number>,
  together = linesTogether,
): Generator<Pause | readonly DrawnSystem[], void> {
  const { text, restore, restoreBroken } = engravingSource(abc);
  const parsed = (options: AbcVisualParams): TuneObject => abcjs.parseOnly(text, options)[0];
  const written = restore(parsed(look));
  yield undefined;
  const measured = restore(parsed(look));
  yield undefined;
  const lineBreaks = yield* lineBreaksFor(measured, place, width, goodEnds, together.measured);
  const broken = { ...look, staffwidth: width, lineBreaks: lineBreaks as unknown as number[] };
  const tune = withoutRepeatedNames(restoreBroken(parsed(broken), written));
  yield undefined;
  const groups = lineGroups(tune.lines, together.engraved);
  for (const [index, lines] of groups.entries()) {
    abcjs.renderAbc(place, emptyTune, {
      ...look,
      staffwidth: width,
      afterParsing: empty => Object.assign(empty, excerpt(tune, lines, index === groups.length - 1)),
    });
    const staves = lines.filter(line => line.staff !== undefined);
    const drawings = [...place.querySelectorAll<SVGGElement>('.abcjs-staff-wrapper')];
    yield drawings.flatMap((drawing, line) => {
      const drawn = staves[line];
      return drawn === undefined ? [] : [drawnSystem(drawing, drawn)];
    });
  }
}

/** For every section of the score (a heading in the music starts a new one) the bars after which its lines end. */
function* lineBreaksFor(
  tune: TuneObject,
  place: HTMLElement,
  width: number,
  goodEnds: ReadonlySet<number>,
  together: number,
): Generator<Pause, readonly (readonly number[])[]> {
  const [empty] = abcjs.renderAbc(place, emptyTune, look);
  const { getMeasureWidths } = empty.engraver as unknown as Measures;
  const sections: { left: number; measureWidths: number[] }[] = [];
  const all = shorterLines(tune.lines, barsInLine);
  for (let at = 0; at < all.length; at += together) {
    const lines = all.slice(at, at + together);
    const isLast = at + together >= all.length;
    const measured = getMeasureWidths.call(empty.engraver, excerpt(tune, lines, isLast));
    const [first] = measured;
    const before = sections.at(-1);
    // A section may reach beyond the lines that were measured together.
    const goesOn = before !== undefined && all[at - 1]?.staff !== undefined && lines[0]?.staff !== undefined;
    if (goesOn && first !== undefined) {
      before.left = first.left;
      before.measureWidths.push(...first.measureWidths);
    }
    for (const { left, measureWidths } of goesOn ? measured.slice(1) : measured)
      sections.push({ left, measureWidths: [...measureWidths] });
    yield undefined;
  }
  let bar = 0;
  return sections.map(({ left, measureWidths }) => {
    const bars = measureWidths.map(narrowest => ({
      width: narrowest * ease,
      mayEnd: narrowest > 8,
      goodEnd: narrowest > 8 && goodEnds.has(bar++),
    }));
    return breakLines(bars, { line: width, firstHead: left * 1.2, head: left });
  });
}
