import type { EvidenceRole } from '../../claims/index.js';
import type { PageScore } from '../../timeline/index.js';
import { svg } from '../dom.js';
import type { DrawnSystem } from './engrave.js';
import { drawLabels, markHarmony, type LabelRequest } from './label-layer.js';
import { drawToneMarks } from './tone-marks.js';
import type { BarPlace, NotePlace, Placement } from './place-score.js';

/** Room above the staff for the number of the first bar and the upper edge of a frame. */
const headroom = 16;
/** Between the highest note and a frame around it. */
const aboveNotes = 1;
const margin = 6;

/** One line of the score with our own marks and labels around what the engraver drew. */
export interface SystemView {
  readonly element: SVGSVGElement;
  /** Frames these bars as the ones in question; nothing for none. Returns whether any of them stands in this line. */
  readonly frame: (bars: readonly BarPlace[]) => boolean;
  /** Draws labels; keeps at least `room` under the staff, so that lines do not move about from step to step. */
  readonly label: (request: LabelRequest | undefined, room: number) => void;
  /** Marks the labels of the harmony that sounds: its position in `PageScore.segments`. */
  readonly markHarmony: (harmony: number | undefined) => void;
  readonly markBar: (bar: BarPlace | undefined) => void;
  /** Marks what the reader looks at closely: bars by a line over them, a note by corners around it. */
  readonly markChosen: (bars: readonly BarPlace[], note: NotePlace | undefined) => void;
  /** The note or bar at a point of the window. */
  readonly pickAt: (clientX: number, clientY: number) => Picked | undefined;
  /** The bar of this line at or nearest to a point of the window, as an index; `undefined` where none stands in it. */
  readonly barNear: (clientX: number, clientY: number) => number | undefined;
  readonly markNotes: (notes: readonly NotePlace[]) => void;
  readonly markEvidence: (
    evidence: readonly { readonly note: NotePlace; readonly role: EvidenceRole }[],
  ) => void;
}

/** What the reader points at: indexes into the bars and notes of the score. */
export interface Picked {
  readonly bar: number;
  readonly note?: number;
}

/** A note is meant within this distance of its head; a fingertip on a small screen is about this wide. */
const fingertip = 13;

/** The marks of evidence differ in shape, so that colour is never needed to tell them apart. */
function evidenceShape(role: EvidenceRole, x: number, y: number): SVGElement {
  switch (role) {
    case 'supports':
      return svg('circle', { cx: x, cy: y, r: 10 });
    case 'contradicts':
      return svg('rect', { x: x - 9, y: y - 9, width: 18, height: 18, transform: `rotate(45 ${x} ${y})` });
    case 'set aside':
      return svg('circle', { cx: x, cy: y, r: 10, 'stroke-dasharray': '3.5 3' });
    case 'missing':
      return svg('g');
  }
}

/** `sheetWidth` is the width of the widest line, so that all are drawn at one scale. */
export function systemView(
  score: PageScore,
  drawn: DrawnSystem,
  placement: Placement,
  index: number,
  sheetWidth: number,
): SystemView {
  const frameTop = Math.min(drawn.staffTop - headroom, drawn.notesTop - aboveNotes);
  const top = Math.min(drawn.top, frameTop) - margin;
  const bottom = Math.max(drawn.bottom, drawn.staffBottom + margin);
  const labelTop = bottom + margin;
  const ground = svg('g', { class: 'ground' });
  const marks = svg('g', { class: 'marks' });
  const chosen = svg('g', { class: 'chosen' });
  const evidenceMarks = svg('g', { class: 'evidence' });
  const labels = svg('g', { class: 'labels' });
  const element = svg('svg', {
    class: 'system',
    // As the engraver's own drawing has it.
    fill: 'currentColor',
    stroke: 'currentColor',
    'aria-hidden': 'true',
    focusable: 'false',
  });
  const frame = svg('g', { class: 'frame' });
  const barGround = svg('g', { class: 'bar-now' });
  ground.append(frame, barGround);
  const firstBar = placement.bars.findIndex(bar => bar?.system === index);
  const number = score.bars[firstBar]?.label ?? '';
  // The first line needs no number: it starts the piece.
  const numberMark =
    index === 0
      ? ''
      : svg('text', { class: 'bar-number', x: 0, y: drawn.staffTop - 9, 'font-size': 13 }, number);
  element.append(ground, drawn.drawing, numberMark, evidenceMarks, marks, chosen, labels);
  let sounding: readonly NotePlace[] = [];

  const setHeight = (labelsHeight: number): void => {
    const height = labelTop - top + labelsHeight + margin;
    element.setAttribute('viewBox', `0 ${top} ${sheetWidth} ${height}`);
    // What a browser leaves undrawn while it is out of view keeps its place by this alone.
    element.style.aspectRatio = `${sheetWidth} / ${height}`;
  };
  setHeight(0);
  /** A point of the window in units of the drawing. */
  const inDrawing = (clientX: number, clientY: number): DOMPoint | undefined => {
    const matrix = element.getScreenCTM();
    return matrix === null ? undefined : new DOMPoint(clientX, clientY).matrixTransform(matrix.inverse());
  };

  return {
    element,
    frame: bars => {
      frame.replaceChildren();
      const here = bars.filter(bar => bar.system === index);
      if (here.length === 0) return false;
      const left = Math.min(...here.map(bar => bar.left));
      const right = Math.max(...here.map(bar => bar.right));
      frame.append(
        svg('rect', { x: left, y: frameTop, width: right - left, height: bottom - frameTop, rx: 3 }),
      );
      return true;
    },
    label: (request, room) => {
      labels.replaceChildren();
      if (request !== undefined) drawToneMarks(labels, score, placement, index, request, drawn.drawing);
      const height =
        request === undefined ? 0 : drawLabels(labels, score, placement, index, request, labelTop);
      setHeight(Math.max(room, height));
    },
    markHarmony: harmony => {
      markHarmony(labels, harmony);
    },
    markBar: bar => {
      barGround.replaceChildren();
      if (bar?.system !== index) return;
      const width = bar.right - bar.left;
      barGround.append(
        svg('rect', { x: bar.left, y: frameTop, width, height: bottom - frameTop }),
        svg('rect', { class: 'bar-now-edge', x: bar.left, y: frameTop, width, height: 3 }),
      );
    },
    markChosen: (bars, note) => {
      chosen.replaceChildren();
      const here = bars.filter(bar => bar.system === index);
      if (here.length > 0) {
        const left = Math.min(...here.map(bar => bar.left)) + 2;
        const right = Math.max(...here.map(bar => bar.right)) - 2;
        chosen.append(
          svg('path', { d: `M${left} ${bottom - 1}v4H${right}v-4` }),
          svg('path', { d: `M${left} ${frameTop + 5}v-4H${right}v4` }),
        );
      }
      if (note?.system === index) {
        const { x, y } = note.head;
        const corner = (sx: number, sy: number): string =>
          `M${x + 12 * sx} ${y + 5 * sy}v${5 * sy}h${-5 * sx}`;
        chosen.append(
          svg('path', { d: [corner(1, 1), corner(1, -1), corner(-1, 1), corner(-1, -1)].join('') }),
        );
      }
    },
    pickAt: (clientX, clientY) => {
      const point = inDrawing(clientX, clientY);
      if (point === undefined) return undefined;
      const { x, y } = point;
      const bar = placement.bars.findIndex(
        place => place?.system === index && place.left <= x && x <= place.right,
      );
      let nearest: { readonly note: number; readonly distance: number } | undefined;
      for (const [note, place] of placement.notes.entries()) {
        if (place?.system !== index) continue;
        const distance = Math.hypot(place.head.x - x, place.head.y - y);
        if (distance <= fingertip && distance < (nearest?.distance ?? Infinity)) nearest = { note, distance };
      }
      if (nearest !== undefined) return { bar: score.notes[nearest.note]?.bar ?? bar, note: nearest.note };
      return bar < 0 ? undefined : { bar };
    },
    barNear: (clientX, clientY) => {
      const point = inDrawing(clientX, clientY);
      if (point === undefined) return undefined;
      let nearest: { readonly bar: number; readonly distance: number } | undefined;
      for (const [bar, place] of placement.bars.entries()) {
        if (place?.system !== index) continue;
        const distance = Math.max(place.left - point.x, point.x - place.right, 0);
        if (distance < (nearest?.distance ?? Infinity)) nearest = { bar, distance };
      }
      return nearest?.bar;
    },
    markNotes: notes => {
      for (const note of sounding) note.head.shape.classList.remove('sounding');
      sounding = notes.filter(note => note.system === index);
      for (const note of sounding) note.head.shape.classList.add('sounding');
      marks.replaceChildren(
        ...sounding.map(({ head }) =>
          svg('ellipse', { class: 'halo', cx: head.x, cy: head.y, rx: 10, ry: 8.5 }),
        ),
      );
    },
    markEvidence: evidence => {
      evidenceMarks.replaceChildren(
        ...evidence
          .filter(({ note }) => note.system === index)
          .map(({ note, role }) => {
            const shape = evidenceShape(role, note.head.x, note.head.y);
            shape.setAttribute('class', `evidence-mark ${role.replace(' ', '-')}`);
            return shape;
          }),
      );
    },
  };
}
