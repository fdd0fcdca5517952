import abcjs from 'abcjs';
import type { AbcVisualParams, TuneLine, TuneObject } from 'abcjs';
import { dropUnseenKeys, engravingLook, setLineHeads } from '../../timeline/index.js';
import { breakLines } from './break-lines.js';

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

function drawnSystem(drawing: SVGGElement, line: TuneLine): DrawnSystem {
  const staves = [...drawing.querySelectorAll<SVGGraphicsElement>('.abcjs-staff')].map(staff =>
    staff.getBBox(),
  );
  const right = Math.max(...staves.map(box => box.x + box.width));
  keepWordsInside(drawing, right);
  const all = drawing.getBBox();
  const voices: readonly Item[][] = (line.staff ?? []).flatMap(staff => staff.voices ?? []);
  return {
    drawing,
    top: all.y,
    bottom: all.y + all.height,
    staffTop: Math.min(...staves.map(box => box.y)),
    staffBottom: Math.max(...staves.map(box => box.y + box.height)),
    left: Math.min(...staves.map(box => box.x)),
    right,
    voices: voices.map(drawnItems),
  };
}

/**
 * Engraves the score for lines of `width` units. `endsWell` names the bar lines (by source offset of the bar line's end) after
 * which a new line is welcome. `place` must be in the document, because text is measured; what is drawn in it is taken out again
 * by whoever uses the drawings.
 */
export function engrave(
  abc: string,
  place: HTMLElement,
  width: number,
  lineBreaks: readonly (readonly number[])[],
): readonly DrawnSystem[] {
  const [written] = abcjs.parseOnly(abc);
  const [tune] = abcjs.renderAbc(place, abc, {
    ...look,
    staffwidth: width,
    lineBreaks: lineBreaks as unknown as number[],
    afterParsing: parsed => {
      setLineHeads(parsed, written);
      dropUnseenKeys(parsed);
      return withoutRepeatedNames(parsed);
    },
  });
  const lines = tune.lines.filter(line => line.staff !== undefined);
  const drawings = [...place.querySelectorAll<SVGGElement>('.abcjs-staff-wrapper')];
  return drawings.flatMap((drawing, index) => {
    const line = lines[index];
    return line === undefined ? [] : [drawnSystem(drawing, line)];
  });
}

/** For every section of the score (a heading in the music starts a new one) the bars after which its lines end. */
export function lineBreaksFor(
  abc: string,
  width: number,
  goodEnds: ReadonlySet<number>,
): readonly (readonly number[])[] {
  const sections = abcjs.tuneMetrics(abc, look)[0]?.sections ?? [];
  let bar = 0;
  return sections.map(section => {
    const bars = section.measureWidths.map(narrowest => ({
      width: narrowest * ease,
      mayEnd: narrowest > 8,
      goodEnd: narrowest > 8 && goodEnds.has(bar++),
    }));
    return breakLines(bars, { line: width, firstHead: section.left * 1.2, head: section.left });
  });
}
