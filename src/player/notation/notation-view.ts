import type { Layer } from '../../lesson/index.js';
import type { PageEvidence, PageScore, PageStep } from '../../timeline/index.js';
import { html } from '../dom.js';
import { reveal } from '../reveal.js';
import { engrave, type DrawnSystem, type Pause } from './engrave.js';
import { placeScore, type BarPlace, type Placement } from './place-score.js';
import { systemView, type Picked, type SystemView } from './system-view.js';

/** The bars of a step, as indexes into the bars of the score, and what is labelled in them. */
export interface Excerpt {
  readonly firstBar: number;
  readonly lastBar: number;
  readonly layers: ReadonlySet<Layer>;
  /** Positions of the harmonies whose labels are covered. */
  readonly covered: ReadonlySet<number>;
  /** Harmonies that go by another name here. */
  readonly readings: PageStep['readings'];
}

/** What the reader does in the score. */
export interface NotationHandlers {
  readonly pick: (picked: Picked) => void;
  /** A covered label is touched: position of its harmony. */
  readonly uncover: (segment: number) => void;
}

export interface NotationView {
  readonly element: HTMLElement;
  /** Engraves for the present width; called again when the width or the face has changed. */
  readonly layOut: () => void;
  /** The same in small pieces with pauses between them, so that a long score keeps nobody waiting who writes or reads meanwhile. */
  readonly layOutGently: () => Promise<void>;
  readonly showExcerpt: (excerpt: Excerpt) => void;
  /** Shows every line, or those of the excerpt only. */
  readonly showWhole: (whole: boolean) => void;
  /** Marks a bar (an index) and sounding notes (ids); the line of the bar is brought into view where `follow` is true. */
  readonly mark: (bar: number | undefined, notes: readonly number[], follow: boolean) => void;
  readonly markEvidence: (evidence: readonly PageEvidence[]) => void;
  /** Marks what the reader looks at closely; nothing where absent. */
  readonly markChosen: (chosen: Chosen | undefined) => void;
  /** The bar (an index) at or nearest to a point of the window; `undefined` where nothing is drawn. */
  readonly barNear: (clientX: number, clientY: number) => number | undefined;
}

/** Bars (indexes, both inclusive) and perhaps one note that the reader looks at. */
export interface Chosen {
  readonly firstBar: number;
  readonly lastBar: number;
  readonly note?: number;
  /** What of a single bar is meant, where not all of it: in whole notes from the start of the score. */
  readonly stretch?: { readonly from: number; readonly to: number };
  /** The bar whose line is brought into view; the first one where absent, none where `false`. */
  readonly inView?: number | false;
}

/** Points of the page for one unit of the engraving, where a staff is 31 units high: larger on larger sheets. */
const scaleFor = (width: number): number => (width < 480 ? 0.86 : Math.min(1.5, 0.86 + (width - 480) / 1400));

const rowHeights: Readonly<Record<Layer, number>> = {
  figures: 24,
  chords: 22,
  numerals: 27,
  functions: 19,
  keys: 24,
  'non-chord tones': 0,
};

/** Room between an edge within a bar and the note behind it. */
const beforeNote = 6;

/** Lines that are put on the sheet together, with their labels: some 10 ms of work. */
const linesTogether = 4;

interface Laid {
  readonly placement: Placement;
  readonly systems: readonly SystemView[];
  /** Of labels, in the face in which they were laid out. */
  readonly widths: Map<string, number>;
}

/** `stepStarts` are bars that a line should rather begin with; `layersOfSteps` what each step shows, so that room is kept. */
export function notationView(
  score: PageScore,
  stepStarts: ReadonlySet<number>,
  layersOfSteps: readonly (readonly Layer[])[],
  handlers: NotationHandlers,
): NotationView {
  const sheet = html('div', { class: 'systems' });
  const measure = html('div', { class: 'engraving-bench', 'aria-hidden': 'true' });
  const element = html('div', { class: 'score' }, sheet, measure);
  const goodEnds = new Set([...stepStarts].map(bar => bar - 1));
  const labelRoom = Math.max(
    0,
    ...layersOfSteps.map(layers => layers.reduce((sum, layer) => sum + rowHeights[layer], 0)),
  );
  let laid: Laid | undefined;
  let laidWidth = 0;
  let excerpt: Excerpt | undefined;
  let whole = true;
  let lineInView = -1;
  let marked = '';
  let harmony: number | undefined;
  let chosen: Chosen | undefined;
  let evidence: readonly PageEvidence[] = [];

  const drawChosen = (): void => {
    if (laid === undefined) return;
    const { placement, systems } = laid;
    const bars =
      chosen === undefined
        ? []
        : placement.bars.slice(chosen.firstBar, chosen.lastBar + 1).filter(place => place !== undefined);
    const note = chosen?.note === undefined ? undefined : placement.notes[chosen.note];
    const stretch = chosen?.stretch;
    const shown = stretch === undefined ? bars : bars.map(place => within(place, stretch, placement));
    for (const system of systems) system.markChosen(note === undefined ? shown : [], note);
  };
  /** The part of a bar that begins and ends with the notes of a stretch. */
  const within = (
    place: BarPlace,
    { from, to }: NonNullable<Chosen['stretch']>,
    { momentAt }: Placement,
  ): BarPlace => {
    const edge = (onset: number): number => (momentAt(onset)?.x ?? place.left) - beforeNote;
    const { start = 0, length = 0 } = score.bars[chosen?.firstBar ?? 0] ?? {};
    return {
      ...place,
      left: from > start + 1e-9 ? edge(from) : place.left,
      right: to < start + length - 1e-9 ? edge(to) : place.right,
    };
  };

  const drawEvidence = (): void => {
    if (laid === undefined) return;
    const { placement, systems } = laid;
    const marks = evidence.flatMap(({ note, role }) => {
      const place = note === undefined ? undefined : placement.notes[note];
      return place === undefined ? [] : [{ note: place, role }];
    });
    for (const system of systems) system.markEvidence(marks);
  };

  sheet.addEventListener('click', event => {
    const cover = event.target instanceof Element ? event.target.closest('[data-segment]') : null;
    if (cover !== null) {
      handlers.uncover(Number(cover.getAttribute('data-segment')));
      return;
    }
    const system = laid?.systems.find(({ element: drawing }) => drawing.contains(event.target as Node));
    const picked = system?.pickAt(event.clientX, event.clientY);
    if (picked !== undefined) handlers.pick(picked);
  });

  /** Draws what stands around the notes of a line. */
  const excerptDrawer = ({ placement, widths }: Laid): ((system: SystemView) => void) => {
    if (excerpt === undefined) return () => undefined;
    const { firstBar, lastBar, layers, covered, readings } = excerpt;
    const places = placement.bars.slice(firstBar, lastBar + 1).filter(place => place !== undefined);
    const last = score.bars[lastBar];
    const start = score.bars[firstBar]?.start ?? 0;
    const end = last === undefined ? start : last.start + last.length;
    return system => {
      const inExcerpt = system.frame(places);
      system.element.toggleAttribute('hidden', !whole && !inExcerpt);
      const labelled = { layers, start, end, covered, readings, widths };
      system.label(inExcerpt ? labelled : undefined, whole ? labelRoom : 0);
      system.markHarmony(harmony);
    };
  };
  /** Drawn while it was hidden, where nothing can be measured. */
  let isBlind = false;
  const drawExcerpt = (): void => {
    if (laid === undefined || excerpt === undefined) return;
    laid.systems.forEach(excerptDrawer(laid));
    lineInView = -1;
    isBlind = sheet.clientWidth === 0;
  };

  const showChosen = (): void => {
    const inView = chosen === undefined ? false : (chosen.inView ?? chosen.firstBar);
    const place = inView === false ? undefined : laid?.placement.bars[inView];
    if (place !== undefined && place.system !== lineInView) bringIntoView(place.system);
  };

  /** Whether nothing is to be done, or it is being done already. */
  const isLaid = (): boolean => sheet.clientWidth === 0 || sheet.clientWidth === laidWidth;
  /** Everything that is to be done for a new width, piece by piece. */
  function* layingOut(width: number): Generator<Pause, void> {
    const units = width / scaleFor(width);
    const drawn: DrawnSystem[] = [];
    try {
      for (const piece of engrave(score.abc, measure, units, goodEnds)) {
        drawn.push(...(piece ?? []));
        yield undefined;
      }
    } catch (error) {
      // The engraver meets scores that it cannot draw; words, sound and steps do without it.
      const reason = error instanceof Error ? error.message : String(error);
      sheet.replaceChildren(html('p', {}, `The score cannot be drawn: ${reason}`));
      measure.replaceChildren();
      return;
    }
    const placement = placeScore(score, drawn);
    const sheetWidth = Math.max(units, ...drawn.map(system => system.right)) + 2;
    const systems: SystemView[] = [];
    const next: Laid = { placement, systems, widths: new Map() };
    measure.replaceChildren();
    sheet.replaceChildren();
    laid = undefined;
    marked = '';
    for (const [index, system] of drawn.entries()) {
      const view = systemView(score, system, placement, index, sheetWidth);
      systems.push(view);
      sheet.append(view.element);
      excerptDrawer(next)(view);
      if (index % linesTogether === linesTogether - 1) yield undefined;
    }
    laid = next;
    lineInView = -1;
    drawChosen();
    drawEvidence();
    showChosen();
  }
  /** Counts what was begun: what is laid out anew stops what is still being laid out. */
  let turn = 0;
  let beingLaid = Promise.resolve();

  /** The harmony that sounds: that of the latest note struck in the bar. */
  const harmonyAt = (bar: number | undefined, notes: readonly number[]): number | undefined => {
    const from = bar === undefined ? undefined : score.bars[bar]?.start;
    if (from === undefined) return undefined;
    const onset = Math.max(from, ...notes.map(id => score.notes[id]?.onset ?? 0));
    return score.segments.findIndex(({ start, end }) => start <= onset && onset < end);
  };

  /** The first line comes with the title above it. */
  const bringIntoView = (first: number, last = first): void => {
    const scroller = element.closest('.music');
    const head = first === 0 ? element.parentElement : laid?.systems[first]?.element;
    const foot = laid?.systems[last]?.element;
    if (scroller === null || head === null || head === undefined || foot === undefined) return;
    reveal(scroller, head, foot);
    lineInView = first === last ? first : -1;
  };

  return {
    element,
    layOut: () => {
      if (isBlind) drawExcerpt();
      if (isLaid()) return;
      turn += 1;
      const work = layingOut((laidWidth = sheet.clientWidth));
      while (work.next().done !== true);
    },
    layOutGently: () => {
      if (isLaid()) return beingLaid;
      const own = ++turn;
      const work = layingOut((laidWidth = sheet.clientWidth));
      beingLaid = (async () => {
        do await new Promise(done => setTimeout(done));
        while (own === turn && work.next().done !== true);
        if (own !== turn) await beingLaid;
      })();
      return beingLaid;
    },
    showExcerpt: next => {
      const sameBars = next.firstBar === excerpt?.firstBar && next.lastBar === excerpt.lastBar;
      // Labels that come after an answer are to be seen.
      const labelled = next.layers.size > 0 && excerpt?.layers.size === 0;
      excerpt = next;
      drawExcerpt();
      if (sameBars && !labelled) return;
      const { bars } = laid?.placement ?? { bars: [] };
      const [first, last] = [bars[next.firstBar]?.system, bars[next.lastBar]?.system];
      if (first !== undefined && last !== undefined) bringIntoView(first, last);
    },
    showWhole: next => {
      whole = next;
      drawExcerpt();
    },
    mark: (bar, notes, follow) => {
      if (laid === undefined) return;
      const wanted = `${bar ?? ''}:${notes.join()}:${follow}`;
      if (wanted === marked) return;
      marked = wanted;
      const { placement, systems } = laid;
      const place = bar === undefined ? undefined : placement.bars[bar];
      const places = notes.flatMap(id => placement.notes[id] ?? []);
      for (const system of systems) {
        system.markBar(place);
        system.markNotes(places);
      }
      const sounds = harmonyAt(bar, notes);
      if (sounds !== harmony) for (const system of systems) system.markHarmony(sounds);
      harmony = sounds;
      if (place !== undefined && follow && place.system !== lineInView) bringIntoView(place.system);
    },
    markEvidence: next => {
      evidence = next;
      drawEvidence();
    },
    markChosen: next => {
      chosen = next;
      drawChosen();
      showChosen();
    },
    barNear: (clientX, clientY) => {
      const lines = (laid?.systems ?? []).map(system => {
        const { top, bottom } = system.element.getBoundingClientRect();
        return { system, distance: Math.max(top - clientY, clientY - bottom, 0) };
      });
      const [nearest] = lines.sort((a, b) => a.distance - b.distance);
      return nearest?.system.barNear(clientX, clientY);
    },
  };
}
