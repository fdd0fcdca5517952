import type { Analysis } from '../../harmony/index.js';
import {
  compare,
  equals,
  greatest,
  isBefore,
  least,
  letters,
  midiOf,
  pitchClassOf,
  spell,
  staffStepOf,
} from '../../score/index.js';
import type { Bar, Fraction, Note, PitchClass, Score, Voice } from '../../score/index.js';
import type { Range } from '../model.js';
import { endOf } from '../place/beats.js';
import { liesIn } from '../segments.js';
import { inversionsOf } from './harmonies.js';
import type { Harmony } from './harmonies.js';
import { soundingIn } from './sounding.js';

/**
 * What a voice plays of one chord in a bar or less, as an accompaniment does: the tones of the chord one by one, a bass note and the chords struck
 * after it, or one tone in two octaves by turns (common practice: Alberti bass, arpeggio, waltz bass, broken octaves). It stands for its chord as long
 * as it lasts, and its lines go on in the next figure.
 */
export interface Figure extends Range {
  readonly kind: 'broken chord' | 'after-beats' | 'broken octave';
  /** When its chord gives way, which may be after its bar. */
  readonly lasts: Fraction;
  /** By onset; of `after-beats` the first is the bass. */
  readonly notes: readonly [Note, ...Note[]];
}

/** Notes that are struck together, in one voice. */
export type Group = readonly [Note, ...Note[]];

/** Notes in the order of their onsets, those of one onset together. */
export function groupsOf(notes: readonly Note[]): readonly Group[] {
  const groups: [Note, ...Note[]][] = [];
  for (const note of notes) {
    const last = groups.at(-1);
    if (last !== undefined && equals(last[0].onset, note.onset)) last.push(note);
    else groups.push([note]);
  }
  return groups;
}

const isHigher = (note: Note, other: Note): boolean => midiOf(note.pitch) > midiOf(other.pitch);
const isChord = (group: Group): boolean => group.length > 1;

/** Bass notes that are struck alone, each with the chords above it that follow in the bar. */
function afterBeatsIn(groups: readonly Group[], bar: Bar): readonly Figure[] {
  const found: Figure[] = [];
  for (let at = 0; at < groups.length; at++) {
    const [bass, ...others] = groups[at] ?? [];
    if (bass === undefined || others.length > 0) continue;
    const rest = groups.slice(at + 1);
    const stop = rest.findIndex(group => !isChord(group) || !group.every(note => isHigher(note, bass)));
    const chords = stop < 0 ? rest : rest.slice(0, stop);
    if (chords.length === 0) continue;
    const end = rest[chords.length]?.[0].onset ?? endOf(bar);
    found.push({
      kind: 'after-beats',
      notes: [bass, ...chords.flat()],
      start: bass.onset,
      end,
      lasts: end,
    });
    at += chords.length;
  }
  return found;
}

/** A bar that goes from octave to octave all through: each tone with its octave. */
function octavesIn(groups: readonly Group[], bar: Bar): readonly Figure[] {
  const runs: [Note, ...Note[]][] = [];
  for (const [note] of groups) {
    const last = runs.at(-1);
    if (last !== undefined && pitchClassOf(last[0].pitch) === pitchClassOf(note.pitch)) last.push(note);
    else runs.push([note]);
  }
  const isBroken = (run: readonly Note[]): boolean => new Set(run.map(({ pitch }) => midiOf(pitch))).size > 1;
  if (groups.length < 4 || groups.some(isChord) || !runs.every(isBroken)) return [];
  return runs.map((notes, at) => {
    const end = runs[at + 1]?.[0].onset ?? endOf(bar);
    return { kind: 'broken octave', notes, start: notes[0].onset, end, lasts: end };
  });
}

/** Whether tones are those of one triad or seventh chord, as far as their letters say it. */
function standInThirds(tones: readonly PitchClass[]): boolean {
  const steps = tones.map(tone => letters.indexOf(spell(tone).letter));
  return (
    new Set(steps).size === tones.length &&
    tones.length <= 4 &&
    steps.some(root => steps.every(step => ((step - root + letters.length) % letters.length) % 2 === 0))
  );
}

/** The tones that sound of a harmony in a bar. */
function soundingOf(harmony: Range, bar: Bar, { score }: Analysis): readonly PitchClass[] {
  const range = { start: greatest(harmony.start, bar.start), end: least(harmony.end, endOf(bar)) };
  return [...new Set(soundingIn(score, range).map(({ pitch }) => pitchClassOf(pitch)))];
}

/** Whether two harmonies stand on one triad: a new inversion, or a seventh that is added. */
const isSameTriad = (a: Harmony, b: Harmony): boolean => {
  const [one, other] = [a, b].map(({ segments }) => segments[0].chord.tones.slice(0, 3).join(' '));
  return one === other;
};

/**
 * The harmonies of a bar. Two are one where together they are the tones of one chord and not each is a whole triad, or where they stand on one triad
 * and a voice strikes no three notes of each: VII and V are one V7 when it is broken over the bar, and a falling arpeggio has one bass (common practice).
 */
const wholeChords = (
  harmonies: readonly Harmony[],
  groups: readonly Group[],
  bar: Bar,
  analysis: Analysis,
): readonly Harmony[] =>
  harmonies.reduce<readonly Harmony[]>((found, harmony) => {
    const before = found.at(-1);
    if (before === undefined) return [harmony];
    const [own, earlier] = [harmony, before].map(each => soundingOf(each, bar, analysis));
    const isPart =
      [own, earlier].some(tones => (tones?.length ?? 0) < 3) ||
      (isSameTriad(harmony, before) &&
        [harmony, before].some(each => groups.filter(([{ onset }]) => liesIn(onset, each)).length < 3));
    if (!isPart || !standInThirds([...new Set([...(own ?? []), ...(earlier ?? [])])]))
      return [...found, harmony];
    const [first, ...others] = before.segments;
    const joined: Harmony = {
      ...before,
      end: harmony.end,
      segments: [first, ...others, ...harmony.segments],
    };
    return [...found.slice(0, -1), joined];
  }, []);

/** Whether notes that come one by one break a chord: mostly by leap, for a voice that goes by step has a tune. */
function breaksByNotes(notes: readonly [Note, ...Note[]]): boolean {
  const [first, ...others] = notes;
  const leaps = others.filter(
    (note, at) => Math.abs(staffStepOf(note.pitch) - staffStepOf((notes[at] ?? first).pitch)) > 1,
  );
  const isEven = others.length > 2 && others.every(({ duration }) => equals(duration, first.duration));
  // By step it goes between seventh and root alone.
  const rocks = isEven && new Set(notes.map(({ pitch }) => midiOf(pitch))).size === 2;
  return rocks || leaps.length >= (isEven ? 1 : 2);
}

const printed = (group: Group): string => group.map(({ pitch }) => midiOf(pitch)).join(' ');

/** The tones of a harmony one by one, or two and two as in a tremolo. */
function brokenChordIn(groups: readonly Group[], harmony: Harmony, bar: Bar): readonly Figure[] {
  const [first, ...others] = groups.flat();
  const tones = harmony.segments.flatMap(({ chord }) => chord.tones);
  if (first === undefined) return [];
  const notes = [first, ...others] as const;
  if (!notes.every(({ pitch }) => tones.includes(pitchClassOf(pitch)))) return [];
  const isBroken = groups.every(isChord)
    ? new Set(groups.map(printed)).size > 1
    : !groups.some(isChord) && breaksByNotes([...notes]);
  if (!isBroken) return [];
  return [
    {
      kind: 'broken chord',
      notes: [...notes],
      start: first.onset,
      end: least(harmony.end, endOf(bar)),
      lasts: harmony.end,
    },
  ];
}

function figuresInBar(
  notes: readonly Note[],
  bar: Bar,
  harmonies: readonly Harmony[],
  analysis: Analysis,
): readonly Figure[] {
  const groups = groupsOf(notes);
  const struckAfter = afterBeatsIn(groups, bar);
  if (struckAfter.length > 0) return struckAfter;
  const octaves = octavesIn(groups, bar);
  if (octaves.length > 0) return octaves;
  return wholeChords(harmonies, groups, bar, analysis).flatMap(harmony =>
    brokenChordIn(
      groups.filter(([{ onset }]) => liesIn(onset, harmony)),
      harmony,
      bar,
    ),
  );
}

/** The figures of a voice in time order, and of each note the one that it is struck in. */
interface Figures {
  readonly all: readonly Figure[];
  readonly byNote: ReadonlyMap<Note, Figure>;
}

const known = new WeakMap<Analysis, Map<Voice['id'], Figures>>();

function figuresIn(voice: Voice['id'], analysis: Analysis): Figures {
  const ofScore = known.get(analysis) ?? new Map<Voice['id'], Figures>();
  known.set(analysis, ofScore);
  const before = ofScore.get(voice);
  if (before !== undefined) return before;
  const byBar = new Map<number, Note[]>();
  for (const note of analysis.score.notes) {
    if (note.voice !== voice || note.grace || note.tiedFrom !== undefined) continue;
    const inBar = byBar.get(note.bar);
    if (inBar === undefined) byBar.set(note.bar, [note]);
    else inBar.push(note);
  }
  const harmonies = inversionsOf(analysis.segments);
  let first = 0;
  const all = [...byBar].flatMap(([index, notes]) => {
    const bar = analysis.score.bars[index];
    if (bar === undefined) return [];
    // Bars and harmonies both go on in time.
    while (compare(harmonies[first]?.end ?? endOf(bar), bar.start) <= 0) first++;
    let last = first;
    while (isBefore(harmonies[last]?.start ?? endOf(bar), endOf(bar))) last++;
    return figuresInBar(notes, bar, harmonies.slice(first, last), analysis);
  });
  const found: Figures = {
    all,
    byNote: new Map(all.flatMap(figure => figure.notes.map(note => [note, figure] as const))),
  };
  ofScore.set(voice, found);
  return found;
}

/** All figures of a voice, in time order. */
export const figuresOf = (voice: Voice['id'], analysis: Analysis): readonly Figure[] =>
  figuresIn(voice, analysis).all;

/** The figure that a note is struck in. */
export const figureOf = (note: Note, analysis: Analysis): Figure | undefined =>
  figuresIn(note.voice, analysis).byNote.get(note);

/** Of several staves the top one has the tune, the others accompany it; one staff alone is an accompaniment as well. */
export function isAccompaniment(voice: Voice['id'], { voices }: Score): boolean {
  const own = voices.find(({ id }) => id === voice);
  return own !== undefined && (own.staff > 0 || voices.every(({ staff }) => staff === 0));
}
