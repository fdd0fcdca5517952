import type { Bar, Score } from '../score/index.js';
import { ticksOf } from './sound.js';
import type { Sound, Tone } from './sound.js';

/** Bars of the written order at which units of form begin and end: sections that are repeated, and stretches that come again. */
export interface Units {
  /** The bar with which the piece proper opens: behind an introduction, in which the other voices sound before the upper one enters. */
  readonly opens: number;
  readonly begins: readonly boolean[];
  readonly ends: readonly boolean[];
  /** Ends behind which another section begins. */
  readonly endsOfSections: readonly boolean[];
}

/** Notes of the upper line from which something is known again. */
const fewestNotes = 4;

/** Bars that are looked back over: what returns after more has mostly come nearer by as well. */
const lookBack = 64;

interface LineNote {
  /** Ticks from the beginning of the bar. */
  readonly at: number;
  readonly step: number;
}

/** Steps on the staff in an octave. */
const octave = 7;

/** The upper line in each bar. */
function linesOf(bars: readonly Bar[], { tones, ticksPerWhole }: Sound): readonly (readonly LineNote[])[] {
  const upper = tones.filter(({ voice }) => voice === 0);
  let at = 0;
  return bars.map(bar => {
    const start = ticksOf(bar.start, ticksPerWhole);
    const end = start + ticksOf(bar.length, ticksPerWhole);
    // Sorted from low to high: of what begins together the highest stays.
    const tops = new Map<number, Tone>();
    for (let tone = upper[at]; tone !== undefined && tone.on < end; tone = upper[++at])
      tops.set(tone.on, tone);
    return [...tops.values()].map(({ on, step }) => ({ at: on - start, step }));
  });
}

/** Bars after which what is written next is never played: the last one, and those that a repeat leaves for good. */
function leftAfter({ bars, playingOrder }: Score): ReadonlySet<number> {
  const left = new Set(bars.map(({ index }) => index));
  playingOrder.forEach(({ bar }, at) => {
    if (playingOrder[at + 1]?.bar === bar + 1) left.delete(bar);
  });
  return left;
}

/** Bars with which a section begins: what a repeat goes back to, and what is written after it. Endings belong to the section before. */
function sectionsOf({ bars, playingOrder }: Score): ReadonlySet<number> {
  const begun = playingOrder.flatMap(({ bar }, at) => {
    const next = playingOrder[at + 1]?.bar ?? bar + 1;
    return next === bar + 1 ? [] : [next, bar + 1];
  });
  return new Set(begun.filter(bar => bars[bar]?.ending === undefined));
}

/**
 * The bar with which the upper voice enters, the first full one where it has not waited for the others (common practice: the accompaniment alone
 * introduces a song); what enters with the second half of a bar is an upbeat to the next.
 */
function openingOf({ bars }: Score, { tones, ticksPerWhole }: Sound): number {
  const full = bars.findIndex(({ number }) => number > 0);
  const enters = tones.find(({ voice }) => voice === 0)?.on ?? 0;
  const at = bars.findLastIndex(({ start }) => ticksOf(start, ticksPerWhole) <= enters);
  const bar = bars[at];
  if (bar === undefined || at <= full) return full;
  const late = 2 * (enters - ticksOf(bar.start, ticksPerWhole)) >= ticksOf(bar.length, ticksPerWhole);
  return late && at + 1 < bars.length ? at + 1 : at;
}

/** Notes at the beginning of two bars that are alike, the second bar `shift` steps higher. */
function alike(one: readonly LineNote[], other: readonly LineNote[], shift: number): number {
  const differs = one.findIndex(
    ({ at, step }, place) => at !== other[place]?.at || step + shift !== other[place].step,
  );
  return differs < 0 ? one.length : differs;
}

/**
 * Where units of form begin and end: with a section that is repeated, and where the upper line takes up again what stood earlier and did not do so in
 * the bar before (Open Music Theory, The period: the consequent begins like the antecedent). One bar is enough for the bar that opens the piece, else
 * two; on another step the line must have a rhythm to be known by.
 */
export function unitsOf(score: Score, sound: Sound): Units {
  const lines = linesOf(score.bars, sound);
  const sections = sectionsOf(score);
  const left = leftAfter(score);
  const opens = openingOf(score, sound);
  const lineOf = (bar: number): readonly LineNote[] => lines[bar] ?? [];
  const isCopy = (earlier: number, later: number, shift: number): boolean => {
    const [one, other] = [lineOf(earlier), lineOf(later)];
    return one.length > 0 && one.length === other.length && alike(one, other, shift) === one.length;
  };
  const beginsAgain = (earlier: number, later: number): boolean => {
    const [first] = lineOf(earlier);
    const [again] = lineOf(later);
    if (first === undefined || again === undefined) return false;
    const shift = again.step - first.step;
    if (isCopy(earlier - 1, later - 1, shift)) return false;
    let bars = 0;
    let notes = 0;
    while (earlier + bars < later && isCopy(earlier + bars, later + bars, shift))
      notes += lineOf(later + bars++).length;
    // What is alike in the bar that is no copy any more counts among the notes.
    if (earlier + bars < later) notes += alike(lineOf(earlier + bars), lineOf(later + bars), shift);
    const onStep = shift % octave === 0;
    const opensPiece = onStep && earlier === opens;
    return bars >= (opensPiece ? 1 : 2) && notes >= fewestNotes && (onStep || notes > bars);
  };
  const begins = score.bars.map(({ index }) => {
    if (sections.has(index) || index === opens) return true;
    for (let earlier = index - 2; earlier >= Math.max(0, index - lookBack); earlier--)
      if (beginsAgain(earlier, index)) return true;
    return false;
  });
  const ends = score.bars.map(({ index }) => begins[index + 1] === true || left.has(index));
  const endsOfSections = score.bars.map(
    ({ index }) => index + 1 < score.bars.length && sections.has(index + 1),
  );
  return { opens, begins, ends, endsOfSections };
}
