import {
  add,
  compare,
  fraction,
  greatest,
  isBefore,
  one,
  pitchClassOf,
  subtract,
  zero,
} from '../score/index.js';
import type { Fraction, Note } from '../score/index.js';
import { heardIn } from './analyse.js';
import { formulaOf, phrygianBefore } from './cadence-formula.js';
import type { Member } from './cadence-formula.js';
import { closureOf, isDue, opensPhrase, sopranoNotes } from './cadence-signs.js';
import { chord } from './chord.js';
import { momentAt } from './hearing.js';
import { supportFor } from './judge-chord.js';
import { degreeTone, leadingTone, sameKey } from './key.js';
import type { Analysis, CadenceKind, Key } from './model.js';
import { beatLength } from './sound.js';
import { firstEndingAfter, segmentAt } from './segment-at.js';
import { ticksOf } from './sound.js';

/** A chord that is behind the best reading by no more than this can be the member of a cadence. */
const memberBorder = 1;

/** A chord of arrival that was as good as the best reading a beat before has been reached already. */
const already = 0.3;

/** An onset at which a cadence may arrive, heard in a key. */
export interface CadenceSite {
  readonly onset: Fraction;
  /**
   * Whether the two chords of a cadence stand there. `complete` asks the arrival for its third: where only a bar is named, a six-four on
   * the dominant's bass is not yet the half cadence; where a beat is named, the six-four and its resolution count as one dominant (OMT).
   */
  readonly hasChordsOf: (kind: CadenceKind, complete: boolean) => boolean;
  readonly soprano: Note | undefined;
  readonly sopranoOnTonic: boolean;
  /** How strongly a phrase closes there when it is a cadence of that kind, see `closureOf`. */
  readonly closure: (kind: CadenceKind) => number;
  /** A predominant or a six-four before V made a close due, and V stood in root position to make it. */
  readonly due: boolean;
  /** The notation says that a phrase begins there, so that what comes before belongs to another. */
  readonly opens: boolean;
  /** The bass steps down into V by a semitone, under iv6. */
  readonly phrygian: boolean;
  /** A cadential six-four of that key sounds there: it delays V and is no tonic. */
  readonly delays: boolean;
  /** The close that V, standing there, leads to: how strongly a phrase ends on it, 0 where it leads to none. */
  readonly leadsToClose: number;
  /** The analysis hears a chord on the tonic there. */
  readonly tonicHeard: boolean;
  /** V is left for I, soon and without a rest between them: a dominant on its way. */
  readonly leadsOn: boolean;
}

function meterAt(analysis: Analysis, onset: Fraction): { readonly beat: Fraction; readonly bar: Fraction } {
  const bar = analysis.score.bars.findLast(candidate => compare(candidate.start, onset) <= 0);
  if (bar === undefined) return { beat: fraction(1, 4), bar: one };
  return {
    beat: fraction(Math.round(beatLength(bar.meter) * bar.meter.unit), bar.meter.unit),
    bar: bar.meter.length,
  };
}

/** Strength of the authentic cadence whose V sounds at an onset, 0 where there is none. */
function closeAfter(analysis: Analysis, onset: Fraction): number {
  const dominant = firstEndingAfter(analysis.segments, onset);
  const close = analysis.cadences.find(
    ({ kind, segments }) => kind.endsWith('authentic') && segments.slice(0, -1).includes(dominant),
  );
  return close?.strength ?? 0;
}

/** Whether the harmony before an onset closes a phrase with a half cadence: what comes after it opens another. */
function followsHalf({ segments, cadences }: Analysis, onset: Fraction): boolean {
  const before = firstEndingAfter(segments, onset) - 1;
  return cadences.some(cadence => cadence.kind === 'half' && cadence.segments.at(-1) === before);
}

/**
 * Whether V, standing at an onset, moves to I without a rest in the upper line: before its bar ends, or after it has turned into V7 within a beat
 * (a seventh that comes so soon says that the music goes on).
 */
function leadsOn(analysis: Analysis, onset: Fraction, key: Key): boolean {
  const { segments } = analysis;
  const first = firstEndingAfter(segments, onset);
  let last = first;
  while (segments[last + 1]?.chord.root === degreeTone(key, 5)) last++;
  const goal = segments[last + 1];
  const triad = segments[first];
  const bar = analysis.score.bars.findLast(candidate => compare(candidate.start, onset) <= 0);
  if (goal === undefined || triad === undefined || bar === undefined) return false;
  const inBar = isBefore(goal.start, add(bar.start, bar.length));
  const soonSeventh =
    last > first &&
    segments[last]?.chord.quality.startsWith('dominant') === true &&
    compare(triad.end, add(onset, meterAt(analysis, onset).beat)) <= 0;
  return (
    (inBar || soonSeventh) &&
    goal.chord.root === key.tonic &&
    goal.chord.inversion < 2 &&
    !restsBefore(analysis, onset, goal.start)
  );
}

function restsBefore(analysis: Analysis, onset: Fraction, end: Fraction): boolean {
  const upper = analysis.score.voices[0]?.id;
  return analysis.score.rests.some(
    rest => rest.voice === upper && isBefore(onset, rest.onset) && isBefore(rest.onset, end),
  );
}

/** Whether the leading tone, the third of V, sounds before `end`: over a six-four alone it does not. */
function thirdFollows(analysis: Analysis, onset: Fraction, end: Fraction, key: Key): boolean {
  const { sound, lattice } = heardIn(analysis);
  const third = leadingTone(key);
  const stop = ticksOf(end, sound.ticksPerWhole);
  for (let at = momentAt(lattice.moments, ticksOf(onset, sound.ticksPerWhole)); ; at++) {
    const moment = lattice.moments[at];
    if (moment === undefined || moment.start >= stop) return false;
    if (moment.sounding.some(id => sound.tones[id]?.pitchClass === third)) return true;
  }
}

type SpanOfSite = readonly [start: Fraction, end: Fraction];

/** Answers how well chords fit the spans around an onset, each question once: the least that any of them is behind the best reading. */
function fitting(
  analysis: Analysis,
  key: Key,
): (spans: readonly SpanOfSite[], members: readonly Member[]) => number {
  const known = new Map<string, number>();
  const ask = ([start, end]: SpanOfSite, [root, quality, bass]: Member): number => {
    if (!isBefore(start, end)) return Infinity;
    const { behind, bassFits } = supportFor(analysis, {
      start,
      end,
      tones: chord(root, quality).tones,
      key,
      ...(bass === undefined ? {} : { bass }),
    });
    return bassFits ? behind : Infinity;
  };
  return (spans, members) =>
    Math.min(
      ...spans.flatMap(([start, end]) =>
        members.map(member => {
          const question = `${start.n}/${start.d} ${end.n}/${end.d} ${member.join(' ')}`;
          const answer = known.get(question) ?? ask([start, end], member);
          known.set(question, answer);
          return answer;
        }),
      ),
    );
}

function lookAt(analysis: Analysis, onset: Fraction, key: Key): CadenceSite {
  const { beat, bar } = meterAt(analysis, onset);
  const half = { n: beat.n, d: beat.d * 2 };
  const back = (by: Fraction): SpanOfSite => [greatest(zero, subtract(onset, by)), onset];
  const after: readonly SpanOfSite[] = [add(onset, beat), add(onset, half)].map(end => [onset, end]);
  const before = [back(beat), back(add(beat, beat)), back(half)];
  const fits = fitting(analysis, key);
  const heard = heardIn(analysis);
  const soprano = sopranoNotes(heard, onset, beat);
  const here = segmentAt(analysis, onset);
  const delays = here?.roman === 'cad64' && sameKey(here.key, key);
  const last = analysis.segments.findLast(segment => isBefore(segment.start, onset));
  const comesFromDominant =
    last !== undefined &&
    (last.chord.root === degreeTone(key, 5) || last.chord.quality.startsWith('diminished'));
  return {
    onset,
    hasChordsOf: (kind, complete) => {
      const formula = formulaOf(kind, key);
      if (delays && kind !== 'half') return false;
      const arrives = fits(after, formula.arrival);
      if (arrives > memberBorder || arrives > fits(after, formula.notArrival)) return false;
      if (complete && !thirdFollows(analysis, onset, add(onset, bar), key)) return false;
      // Of the rarer closes the chords alone say little: the harmonies around them must agree.
      if (kind === 'plagal' && (comesFromDominant || here?.chord.root !== key.tonic)) return false;
      if ((kind === 'deceptive' || kind === 'evaded') && !comesFromDominant) return false;
      if (formula.before.length === 0) return fits(before.slice(0, 1), formula.arrival) > already;
      const leads = fits(before, formula.before);
      return leads <= memberBorder && leads <= fits(before, formula.notBefore);
    },
    soprano: soprano[0],
    sopranoOnTonic: soprano.some(note => pitchClassOf(note.pitch) === key.tonic),
    closure: kind => closureOf(heard, analysis.segments, onset, kind, key),
    due:
      isDue(analysis.segments, onset, key) &&
      fits(before, formulaOf('perfect authentic', key).before) <= memberBorder,
    opens: opensPhrase(heard, analysis.segments, onset) || followsHalf(analysis, onset),
    phrygian: key.mode === 'minor' && fits(before, [phrygianBefore(key)]) <= memberBorder,
    delays,
    leadsToClose: closeAfter(analysis, onset),
    leadsOn: leadsOn(analysis, onset, key),
    tonicHeard: here?.chord.root === key.tonic,
  };
}

/** Sites kept at a time: a claim and the probes around it ask about the same few. */
const keptSites = 200;
const sitesBy = new WeakMap<Analysis, Map<string, CadenceSite>>();

/** The site of a possible cadence at an onset in a key. */
export function cadenceSite(analysis: Analysis, onset: Fraction, key: Key): CadenceSite {
  const known = sitesBy.get(analysis) ?? new Map<string, CadenceSite>();
  sitesBy.set(analysis, known);
  const name = `${onset.n}/${onset.d} ${key.tonic} ${key.mode}`;
  const site = known.get(name) ?? lookAt(analysis, onset, key);
  if (known.size >= keptSites) known.clear();
  known.set(name, site);
  return site;
}

/** Onsets of a span at which a chord of arrival can stand: beats with something struck; for a moment, the moment itself. */
export function arrivalsBetween(analysis: Analysis, start: Fraction, end: Fraction): readonly Fraction[] {
  const { sound, lattice } = heardIn(analysis);
  const { moments } = lattice;
  const from = ticksOf(start, sound.ticksPerWhole);
  const to = ticksOf(end, sound.ticksPerWhole);
  if (to <= from) return [start];
  const onsets: Fraction[] = [];
  for (let at = momentAt(moments, from); at < moments.length && onsets.length < 32; at++) {
    const moment = moments[at];
    if (moment === undefined || moment.start >= to) break;
    if (moment.start >= from && moment.struck.length > 0 && moment.level <= 2)
      onsets.push(fraction(moment.start, sound.ticksPerWhole));
  }
  return onsets;
}
