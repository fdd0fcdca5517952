import type { Evidence, EvidenceRole } from '../../claims/index.js';
import type { ReportedClaim } from '../check-report.js';
import { withAccidentals } from '../../timeline/index.js';
import { element, text } from './markup.js';
import type { Markup } from './markup.js';
import type { PlacedSystem } from './placed-system.js';
import { textWidth } from './text-width.js';
import { outcomeOf } from './verdict-sign.js';
import type { Outcome } from './verdict-sign.js';

/** A claim with the number that it has in the report. */
export interface NumberedClaim extends ReportedClaim {
  readonly number: number;
}

/** How far a sign reaches around the middle of a head. */
const round = 9;
const pointed = 12;

/**
 * The sign of a role around a point, told apart by its shape and not by colour alone; a tone that never sounds has none.
 * @param below how far beneath it the lowest of several heads stands that it goes around
 */
export function roleSign(role: EvidenceRole, x: number, y: number, below = 0): Markup {
  switch (role) {
    case 'supports':
      return capsule(x, y, below, {});
    case 'contradicts':
      return element('path', {
        d: `M${x} ${tenths(y - pointed)}l12 12${sides(below)}l-12 12-12-12${sides(-below)}z`,
      });
    case 'set aside':
      return capsule(x, y, below, { 'stroke-dasharray': '3.5 3' });
    case 'missing':
      return '';
  }
}

const sides = (length: number): string => (length === 0 ? '' : `v${tenths(length)}`);

const capsule = (x: number, y: number, below: number, more: Readonly<Record<string, string>>): Markup =>
  element('rect', {
    x: tenths(x - round),
    y: tenths(y - round),
    width: 2 * round,
    height: tenths(2 * round + below),
    rx: round,
    ...more,
  });

const className: Readonly<Record<EvidenceRole, string>> = {
  supports: 'for',
  contradicts: 'against',
  'set aside': 'aside',
  missing: 'missing',
};

/** A note of a verdict where it is drawn. */
interface Marked {
  readonly evidence: Evidence;
  readonly x: number;
  readonly y: number;
}

/** Heads of one chord stand about a third apart, and no further to the side than a second is set. */
const nextHead = { x: 7, y: 14 };

/** Numbers stand at the same moment where their notes are no further apart than heads of one moment are set. */
const sameMoment = 14;

/** Type of the numbers, and the height of a row of them. */
const numberSize = 12;
const numberRow = 14;

/** Marks in a line of the score, and how much room their numbers take above it. */
export interface Marks {
  readonly markup: Markup;
  readonly height: number;
}

/**
 * The notes that decide the claims of a step, marked in a line of the score, with the numbers of the claims above their moments; those
 * of claims that hold are shown when asked for.
 * @param top above what is drawn of the line
 */
export function evidenceMarks(system: PlacedSystem, claims: readonly NumberedClaim[], top: number): Marks {
  const marked = claims.map(claim => ({ claim, notes: notesOf(system, claim) }));
  const groups = marked.map(({ claim, notes }) =>
    notes.length === 0
      ? ''
      : element(
          'g',
          { class: `of-${String(claim.number)}${claim.verdict.verdict === 'holds' ? ' asked' : ''}` },
          ...chordwise(notes).map(sign),
        ),
  );
  const shown = marked.filter(({ claim }) => claim.verdict.verdict !== 'holds');
  const highest = Math.min(top, ...shown.flatMap(({ notes }) => notes.map(({ y }) => y - pointed)));
  const numbers = numbersAbove(shown, highest, system);
  return {
    markup: element('g', { class: 'marks' }, ...groups, numbers.markup),
    height: top - highest + numbers.height,
  };
}

const notesOf = (system: PlacedSystem, { verdict }: NumberedClaim): readonly Marked[] =>
  verdict.evidence.flatMap(evidence => {
    const head = evidence.note === undefined ? undefined : system.heads.get(evidence.note);
    return head === undefined || className[evidence.role] === 'missing' ? [] : [{ evidence, ...head }];
  });

/** Notes that do the same for the verdict and stand in one chord, from the highest down: one sign goes around them. */
function chordwise(notes: readonly Marked[]): readonly (readonly Marked[])[] {
  const chords: Marked[][] = [];
  for (const note of [...notes].sort((a, b) => a.y - b.y)) {
    const chord = chords.find(
      ([first, ...rest]) =>
        first?.evidence.role === note.evidence.role &&
        Math.abs(first.x - note.x) <= nextHead.x &&
        note.y - (rest.at(-1) ?? first).y <= nextHead.y,
    );
    if (chord === undefined) chords.push([note]);
    else chord.push(note);
  }
  return chords;
}

function sign(chord: readonly Marked[]): Markup {
  const [highest, lowest] = [chord[0], chord.at(-1)];
  if (highest === undefined || lowest === undefined) return '';
  const { role } = highest.evidence;
  const middle = (Math.min(...chord.map(({ x }) => x)) + Math.max(...chord.map(({ x }) => x))) / 2;
  const about = chord.map(({ evidence: { pitch, why } }) => `${pitch}${why === '' ? '' : `: ${why}`}`);
  return element(
    'g',
    { class: className[role] },
    roleSign(role, tenths(middle), tenths(highest.y), tenths(lowest.y - highest.y)),
    element('title', {}, text(withAccidentals(about.join('\n')))),
  );
}

/** Claims with the same outcome and numbers one after the other are told together from three on: `4–7`. */
interface Run {
  readonly outcome: Outcome;
  readonly first: number;
  readonly last: number;
}

function runsOf(claims: Iterable<NumberedClaim>): readonly Run[] {
  const runs: Run[] = [];
  for (const claim of [...claims].sort((a, b) => a.number - b.number)) {
    const { number } = claim;
    const outcome = outcomeOf(claim);
    const before = runs.at(-1);
    if (before?.outcome === outcome && before.last === number - 1)
      runs[runs.length - 1] = { ...before, last: number };
    else runs.push({ outcome, first: number, last: number });
  }
  return runs;
}

const runText = ({ first, last }: Run): string => {
  if (first === last) return String(first);
  return `${String(first)}${last === first + 1 ? ' ' : '–'}${String(last)}`;
};

interface Moment {
  readonly x: number;
  readonly claims: Set<NumberedClaim>;
}

/**
 * The numbers of the claims above each moment that decides them, within the line; where those of neighbours would touch, a row higher.
 */
function numbersAbove(
  marked: readonly { readonly claim: NumberedClaim; readonly notes: readonly Marked[] }[],
  top: number,
  { extent, staves }: PlacedSystem,
): Marks {
  const moments: Moment[] = [];
  const all = marked.flatMap(({ claim, notes }) => notes.map(({ x }) => ({ x, claim })));
  for (const { x, claim } of all.sort((a, b) => a.x - b.x)) {
    const last = moments.at(-1);
    if (last !== undefined && x - last.x <= sameMoment) last.claims.add(claim);
    else moments.push({ x, claims: new Set([claim]) });
  }
  const rows: number[] = [];
  const texts = moments.map(({ x, claims }) => {
    const runs = runsOf(claims);
    const width = textWidth(runs.map(runText).join(' '), numberSize);
    const left = Math.max(extent.left, Math.min(x - width / 2, staves.right - width));
    const free = rows.findIndex(end => end + 5 <= left);
    const row = free < 0 ? rows.length : free;
    rows[row] = left + width;
    return element(
      'text',
      { x: tenths(left), y: tenths(top - 3 - row * numberRow), 'font-size': numberSize },
      runs.map(run => element('tspan', { class: run.outcome }, runText(run))).join(' '),
    );
  });
  return { markup: texts.join(''), height: rows.length * numberRow };
}

const tenths = (value: number): number => Math.round(value * 10) / 10;
