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
import type { Fraction, Note, PitchClass } from '../score/index.js';
import { heardIn } from './analyse.js';
import { formulaOf, phrygianBefore } from './cadence-formula.js';
import type { Member } from './cadence-formula.js';
import { closureOf, isDue, opensPhrase, sopranoNotes } from './cadence-signs.js';
import { cadenceTraits } from './cadence-traits.js';
import { chord } from './chord.js';
import { momentAt } from './hearing.js';
import { supportFor } from './judge-chord.js';
import { degreeTone, leadingTone, sameKey } from './key.js';
import { leadsOn } from './leading-on.js';
import type { Analysis, CadenceKind, Chord, Key } from './model.js';
import { beatLength } from './sound.js';
import { firstEndingAfter, segmentAt } from './segment-at.js';
import { ticksOf } from './sound.js';
import { isAugmentedSixth } from './weigh-chord.js';

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
  /** The authentic or deceptive cadence of the list that V, standing there, leads to. */
  readonly leadsTo: CadenceKind | undefined;
  /** A perfect authentic cadence is listed in the bar before. */
  readonly followsClose: boolean;
  /** The chord that the analysis hears before the arrival, and at it. */
  readonly chords: { readonly before: Chord | undefined; readonly arrival: Chord | undefined };
  /** The analysis hears a chord on the tonic there. */
  readonly tonicHeard: boolean;
  /** V is left for I, soon and with nothing that stops between them: a dominant on its way. */
  readonly leadsOn: boolean;
  /** Within the two beats before, the seventh degree sounds a whole step below the tonic and the leading tone does not: V without it is no dominant. */
  readonly lacksLeadingTone: boolean;
  /** The piece begins or ends there on the tonic of another key. */
  readonly isOuterTonic: boolean;
}

function meterAt(analysis: Analysis, onset: Fraction): { readonly beat: Fraction; readonly bar: Fraction } {
  const bar = analysis.score.bars.findLast(candidate => compare(candidate.start, onset) <= 0);
  if (bar === undefined) return { beat: fraction(1, 4), bar: one };
  return {
    beat: fraction(Math.round(beatLength(bar.meter) * bar.meter.unit), bar.meter.unit),
    bar: bar.meter.length,
  };
}

/** The listed cadence that V, sounding at an onset, leads to. */
function goalOf({ segments, cadences }: Analysis, onset: Fraction): CadenceKind | undefined {
  const dominant = firstEndingAfter(segments, onset);
  return cadences.find(
    ({ kind, segments: own }) =>
      (kind.endsWith('authentic') || kind === 'deceptive') && own.slice(0, -1).includes(dominant),
  )?.kind;
}

/** Whether a perfect authentic cadence is listed in the bar before that of an onset. */
function followsClose({ score, cadences }: Analysis, onset: Fraction): boolean {
  const bar = score.bars.findLast(({ start }) => compare(start, onset) <= 0);
  const before = score.bars[(bar?.index ?? 0) - 1];
  return (
    bar !== undefined &&
    before !== undefined &&
    cadences.some(
      ({ kind, onset: closed }) =>
        kind === 'perfect authentic' && compare(before.start, closed) <= 0 && isBefore(closed, bar.start),
    )
  );
}

/** Whether an ending begins at an onset: what is written before it is another ending, which does not lead there. */
const beginsEnding = ({ score }: Analysis, onset: Fraction): boolean =>
  score.bars.some(({ start, ending }) => ending !== undefined && compare(start, onset) === 0);

/** Whether the harmony before an onset closes a phrase with a half cadence: what comes after it opens another. */
function followsHalf({ segments, cadences }: Analysis, onset: Fraction): boolean {
  const before = firstEndingAfter(segments, onset) - 1;
  return cadences.some(cadence => cadence.kind === 'half' && cadence.segments.at(-1) === before);
}

/** Whether a tone sounds from `start` until `end`. */
function sounds(analysis: Analysis, start: Fraction, end: Fraction, tone: PitchClass): boolean {
  const { sound, lattice } = heardIn(analysis);
  const stop = ticksOf(end, sound.ticksPerWhole);
  for (let at = momentAt(lattice.moments, ticksOf(start, sound.ticksPerWhole)); ; at++) {
    const moment = lattice.moments[at];
    if (moment === undefined || moment.start >= stop) return false;
    if (moment.sounding.some(id => sound.tones[id]?.pitchClass === tone)) return true;
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
  const [dominantFrom] = back(add(beat, beat));
  const fits = fitting(analysis, key);
  const heard = heardIn(analysis);
  const soprano = sopranoNotes(heard, onset, beat);
  const here = segmentAt(analysis, onset);
  const delays = here?.roman === 'cad64' && sameKey(here.key, key);
  const last = analysis.segments.findLast(segment => isBefore(segment.start, onset));
  const comesFromDominant =
    last !== undefined &&
    (last.chord.root === degreeTone(key, 5) || last.chord.quality.startsWith('diminished'));
  // An augmented sixth leads to V: its chord holds the leading tone of V, but it is no dominant (Hutchinson, Augmented Sixth Chords).
  const fromAugmentedSixth = last !== undefined && isAugmentedSixth(last.chord);
  // The triad on the fourth degree shares two tones with the dominant ninth chords; without the leading tone it is no dominant.
  const fromSubdominant =
    last !== undefined &&
    sameKey(last.key, key) &&
    last.chord.root === degreeTone(key, 4) &&
    last.chord.tones.length === 3 &&
    !sounds(analysis, dominantFrom, onset, leadingTone(key));
  return {
    onset,
    hasChordsOf: (kind, complete) => {
      const formula = formulaOf(kind, key);
      if (delays && kind !== 'half') return false;
      if (kind.endsWith('authentic') && (fromAugmentedSixth || fromSubdominant)) return false;
      const arrives = fits(after, formula.arrival);
      if (arrives > memberBorder || arrives > fits(after, formula.notArrival)) return false;
      // Over a six-four alone the third of V does not sound.
      if (complete && !sounds(analysis, onset, add(onset, bar), leadingTone(key))) return false;
      const { from, onHeardTonic } = cadenceTraits[kind];
      if (onHeardTonic && here?.chord.root !== key.tonic) return false;
      if (from !== 'anything' && comesFromDominant !== (from === 'dominant')) return false;
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
    opens:
      opensPhrase(heard, analysis.segments, onset) ||
      (!beginsEnding(analysis, onset) && followsHalf(analysis, onset)),
    phrygian: key.mode === 'minor' && fits(before, [phrygianBefore(key)]) <= memberBorder,
    delays,
    leadsTo: goalOf(analysis, onset),
    followsClose: followsClose(analysis, onset),
    leadsOn: leadsOn(heard, analysis.segments, onset, key),
    chords: { before: last?.chord, arrival: here?.chord },
    tonicHeard: here?.chord.root === key.tonic,
    lacksLeadingTone:
      sounds(analysis, dominantFrom, onset, degreeTone({ ...key, mode: 'minor' }, 7)) &&
      !sounds(analysis, dominantFrom, onset, leadingTone(key)),
    isOuterTonic:
      here !== undefined &&
      here.chord.root === here.key.tonic &&
      here.key.tonic !== key.tonic &&
      (here === analysis.segments[0] || here === analysis.segments.at(-1)),
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
