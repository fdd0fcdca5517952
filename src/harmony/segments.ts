import { fraction, printPitchClass } from '../score/index.js';
import type { Fraction, NoteId, Score } from '../score/index.js';
import { bassSpans } from './bass-line.js';
import { bassOf } from './chord.js';
import { embellishes } from './common-tone.js';
import { foreignTones, tonesBetween } from './foreign-tones.js';
import { sameKey } from './key.js';
import type { KeyFits } from './key-fit.js';
import type { KeyPath } from './key-path.js';
import { splitLateSeventh, withSeventhOfFigure } from './late-tones.js';
import { longestStretch } from './lattice.js';
import type { Lattice } from './lattice.js';
import type { Chord, Key, NonChordTone, Rival, Segment } from './model.js';
import type { Moment } from './moments.js';
import { readingsOf, romanFor, romanOf } from './readings.js';
import type { Reading } from './readings.js';
import type { Sound, Tone } from './sound.js';
import type { Units } from './units.js';

/** What the earlier stages heard. */
export interface Heard {
  readonly score: Score;
  readonly sound: Sound;
  readonly lattice: Lattice;
  readonly fits: KeyFits;
  readonly units: Units;
}

interface Span {
  readonly from: number;
  readonly to: number;
  readonly chord: Chord;
  readonly key: Key;
  /** Position in the path, for rivals and confidence. */
  readonly step: number;
}

/**
 * A triad whose third does not sound has that of the chord on the same root that follows at once (common practice: a suspension 4-3 belongs to
 * the chord that it resolves into).
 */
function withThirds(spans: readonly Span[], { sound, lattice }: Heard): readonly Span[] {
  const sounds = ({ from, to }: Span, pitchClass: number | undefined): boolean =>
    lattice.moments
      .slice(from, to)
      .some(({ sounding }) => sounding.some(id => sound.tones[id]?.pitchClass === pitchClass));
  return spans.reduceRight<Span[]>((later, span) => {
    const [next] = later;
    const joins =
      next !== undefined &&
      next.chord.root === span.chord.root &&
      next.key === span.key &&
      span.chord.tones.length === 3 &&
      !sounds(span, span.chord.tones[1]) &&
      sounds(next, next.chord.tones[1]);
    return joins ? [{ ...next, from: span.from }, ...later.slice(1)] : [span, ...later];
  }, []);
}

function spansOf(heard: Heard, path: KeyPath): readonly Span[] {
  const { sound, lattice } = heard;
  const merged: { from: number; to: number; chord: Chord; key: Key; step: number }[] = [];
  path.path.forEach(({ edge, key }, step) => {
    const of = lattice.edges[edge];
    const inKey = path.keys[key];
    const chord = of === undefined ? undefined : lattice.chords[of.chord];
    if (of === undefined || inKey === undefined || chord === undefined) return;
    const last = merged[merged.length - 1];
    if (last !== undefined && last.chord === chord && last.key === inKey) last.to = of.to;
    else merged.push({ from: of.from, to: of.to, chord, key: inKey, step });
  });
  const joined: Span[] = [];
  for (const span of merged) {
    const last = joined[joined.length - 1];
    const whole = last?.key === span.key ? withSeventhOfFigure(sound, lattice, last, span) : undefined;
    if (last === undefined || whole === undefined) joined.push(span);
    else joined[joined.length - 1] = { ...last, to: span.to, chord: whole };
  }
  return withThirds(joined, heard).flatMap(span =>
    splitLateSeventh(sound, lattice.moments, span).flatMap(part =>
      bassSpans(sound, lattice, part.from, part.to, part.chord).map(piece => ({
        ...span,
        from: piece.from,
        to: piece.to,
        chord: { ...part.chord, inversion: piece.inversion },
      })),
    ),
  );
}

/** The numeral of a diminished seventh chord that embellishes the tonic or the dominant that comes next, if it is one. */
function commonToneReading(span: Span, next: Span | undefined): Reading | undefined {
  if (!embellishes(span.chord, next?.chord)) return undefined;
  const plain = { name: 'CTo', majorSeventh: false, cost: 0 } as const;
  const of = next?.chord.root;
  if (of === span.key.tonic) return { ...plain, function: 'tonic' };
  return of === span.key.tonic + 1
    ? { ...plain, function: 'dominant', target: 'V', targetRoot: 1 }
    : undefined;
}

/**
 * Which of a chord's readings the next harmony bears out: the first whose target comes, else the likeliest. A triad on the tonic that does not
 * go to a target is the tonic, whatever its mode (common practice: the Picardy third is I).
 */
function chooseReading(span: Span, next: Span | undefined): Reading {
  const commonTone = commonToneReading(span, next);
  if (commonTone !== undefined) return commonTone;
  const readings = readingsOf(span.chord, span.key);
  const borneOut = readings.find(
    reading =>
      reading.targetRoot !== undefined &&
      next !== undefined &&
      next.chord.root === span.key.tonic + reading.targetRoot &&
      reading.cost < 1,
  );
  const [first] = readings;
  const isTonic = span.chord.root === span.key.tonic && span.chord.tones.length === 3;
  const plain = isTonic ? readings.find(({ targetRoot }) => targetRoot === undefined) : undefined;
  const chosen = first?.targetRoot === undefined ? first : (borneOut ?? plain ?? first);
  return chosen as Reading;
}

/** The six-four on the dominant's bass before the dominant, on a beat no weaker than it (Open Music Theory, cadential six-four). */
function isCadential(span: Span, next: Span | undefined, moments: readonly Moment[]): boolean {
  if (next === undefined || span.chord.inversion !== 2 || span.chord.root !== span.key.tonic) return false;
  const dominant = span.key.tonic + 1;
  const level = moments[span.from]?.level ?? 4;
  const nextLevel = moments[next.from]?.level ?? 4;
  return (
    next.chord.root === dominant &&
    bassOf(next.chord) === dominant &&
    (next.chord.quality === 'major' || next.chord.quality.startsWith('dominant')) &&
    level <= nextLevel
  );
}

const timeOf = (ticks: number, sound: Sound): Fraction => fraction(ticks, sound.ticksPerWhole);

/** The chord at a time, by binary search over the spans. */
function chordByTime(
  spans: readonly Span[],
  moments: readonly Moment[],
): (ticks: number) => Chord | undefined {
  const starts = spans.map(span => moments[span.from]?.start ?? 0);
  return ticks => {
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((starts[middle] ?? 0) <= ticks) low = middle;
      else high = middle - 1;
    }
    return spans[low]?.chord;
  };
}

/** Members of the chord, foreign tones by name, and tones that no rule explains. */
function sortTones(
  heard: Heard,
  span: Span,
  chordAt: (ticks: number) => Chord | undefined,
): {
  readonly named: readonly NonChordTone[];
  readonly unexplained: readonly NoteId[];
  readonly members: readonly NoteId[];
} {
  const { sound, lattice } = heard;
  const first = (tone: Tone): NoteId => tone.notes[0] as NoteId;
  const members = tonesBetween(sound, lattice.moments, span.from, span.to).filter(tone =>
    span.chord.tones.includes(tone.pitchClass),
  );
  const foreign = foreignTones(sound, lattice, { ...span, tones: span.chord.tones }, chordAt);
  return {
    members: members.map(first),
    named: foreign.flatMap(({ named }) => (named === undefined ? [] : [named])),
    unexplained: foreign.flatMap(({ tone, named }) => (named === undefined ? [first(tone)] : [])),
  };
}

/** Other readings that were in the running over most of a stretch, and what spoke against them. */
function rivalsOf(
  { lattice, sound }: Heard,
  path: KeyPath,
  span: Span,
  edgesFrom: readonly (readonly number[])[],
): readonly Rival[] {
  const { moments } = lattice;
  const start = moments[span.from]?.start ?? 0;
  const end = moments[span.to - 1]?.end ?? 0;
  const nearest = new Map<string, { chord: Chord; key: Key; behind: number }>();
  // An edge that covers half of the span reaches over its middle, so its start is at most its greatest length before it.
  const nearby = edgesFrom.slice(Math.max(0, span.from - longestStretch), span.to).flat();
  for (const at of nearby) {
    const edge = lattice.edges[at];
    if (edge === undefined || edge.to <= span.from) continue;
    const overlap =
      Math.min(end, moments[edge.to - 1]?.end ?? 0) - Math.max(start, moments[edge.from]?.start ?? 0);
    if (overlap * 2 < end - start) continue;
    const chord = lattice.chords[edge.chord];
    if (chord === undefined || (chord.root === span.chord.root && chord.quality === span.chord.quality))
      continue;
    const name = `${chord.root} ${chord.quality}`;
    path.keys.forEach((key, k) => {
      const behind = path.excess(at, k);
      if (behind < (nearest.get(name)?.behind ?? 1.2)) nearest.set(name, { chord, key, behind });
    });
  }
  const sounding = tonesBetween(sound, moments, span.from, span.to);
  return [...nearest.values()]
    .sort((a, b) => a.behind - b.behind)
    .slice(0, 3)
    .map(({ chord, key, behind }) => {
      const bass = chord.tones.indexOf(bassOf(span.chord));
      const placed = { ...chord, inversion: Math.max(0, bass) };
      const missing = chord.tones
        .filter(tone => !sounding.some(other => other.pitchClass === tone))
        .map(printPitchClass);
      const left = [...new Set(sounding.map(tone => tone.pitchClass))]
        .filter(tone => !chord.tones.includes(tone))
        .map(printPitchClass);
      const faults = [
        missing.length > 0
          ? `its ${missing.join(' and ')} never ${missing.length > 1 ? 'sound' : 'sounds'}`
          : '',
        left.length > 0 ? `${left.join(' and ')} would be foreign to it` : '',
      ].filter(text => text !== '');
      return {
        chord: placed,
        key,
        roman: romanFor(placed, key),
        behind: Math.max(0, behind),
        reason:
          faults.length > 0
            ? faults.join(', and ')
            : 'it holds the same tones but leads less well into what follows',
      };
    });
}

/** Turns the best path into segments: chords cut at bass changes, numerals, function, foreign tones, rivals, confidence. */
export function segmentsOf(heard: Heard, path: KeyPath): readonly Segment[] {
  const { lattice, sound } = heard;
  const { moments } = lattice;
  const spans = spansOf(heard, path);
  const edgesFrom: number[][] = moments.map(() => []);
  lattice.edges.forEach((edge, index) => edgesFrom[edge.from]?.push(index));
  const chordAt = chordByTime(spans, moments);
  return spans.map((span, at): Segment => {
    const next = spans[at + 1];
    const reading = chooseReading(span, next !== undefined && sameKey(next.key, span.key) ? next : undefined);
    const cadential = isCadential(span, next, moments);
    const { named, unexplained, members } = sortTones(heard, span, chordAt);
    const rivals = rivalsOf(heard, path, span, edgesFrom);
    const margin = rivals[0]?.behind ?? 1.2;
    const explained =
      (members.length + named.length * 0.5) / Math.max(1, members.length + named.length + unexplained.length);
    return {
      start: timeOf(moments[span.from]?.start ?? 0, sound),
      end: timeOf(moments[span.to - 1]?.end ?? 0, sound),
      chord: span.chord,
      key: span.key,
      roman: cadential ? 'cad64' : romanOf(reading, span.chord),
      function: cadential ? 'dominant' : reading.function,
      bass: bassOf(span.chord),
      chordTones: members,
      nonChordTones: named,
      unexplained,
      confidence: Math.round(100 * explained * (0.5 + 0.5 * Math.min(1, margin / 1.2))) / 100,
      rivals,
    };
  });
}
