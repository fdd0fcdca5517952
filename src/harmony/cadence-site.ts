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
import { formulaOf } from './cadence-formula.js';
import type { Member } from './cadence-formula.js';
import { closureOf, sopranoNotes } from './cadence-signs.js';
import { chord } from './chord.js';
import { momentAt } from './hearing.js';
import { supportFor } from './judge-chord.js';
import { leadingTone } from './key.js';
import type { Analysis, CadenceKind, Key } from './model.js';
import { beatLength } from './moments.js';
import { ticksOf } from './sound.js';

/** A chord that is behind the best reading by no more than this can be the member of a cadence. */
const memberBorder = 1;

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
  /** See `closureOf`. */
  readonly closure: number;
}

function meterAt(analysis: Analysis, onset: Fraction): { readonly beat: Fraction; readonly bar: Fraction } {
  const bar = analysis.score.bars.findLast(candidate => compare(candidate.start, onset) <= 0);
  if (bar === undefined) return { beat: fraction(1, 4), bar: one };
  return {
    beat: fraction(Math.round(beatLength(bar.meter) * bar.meter.unit), bar.meter.unit),
    bar: bar.meter.length,
  };
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

/** Answers what chords fit the spans around an onset; each question once. */
function fitting(
  analysis: Analysis,
  key: Key,
): (spans: readonly SpanOfSite[], members: readonly Member[]) => boolean {
  const known = new Map<string, boolean>();
  const fits = ([start, end]: SpanOfSite, [root, quality, bass]: Member): boolean => {
    if (!isBefore(start, end)) return false;
    const { behind, bassFits } = supportFor(analysis, {
      start,
      end,
      tones: chord(root, quality).tones,
      key,
      ...(bass === undefined ? {} : { bass }),
    });
    return behind <= memberBorder && bassFits;
  };
  return (spans, members) =>
    spans.some(span =>
      members.some(member => {
        const [start, end] = span;
        const question = `${start.n}/${start.d} ${end.n}/${end.d} ${member.join(' ')}`;
        const answer = known.get(question) ?? fits(span, member);
        known.set(question, answer);
        return answer;
      }),
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
  return {
    onset,
    hasChordsOf: (kind, complete) => {
      const formula = formulaOf(kind, key);
      const arrives =
        fits(after, formula.arrival) && (!complete || thirdFollows(analysis, onset, add(onset, bar), key));
      if (!arrives) return false;
      return formula.before.length === 0
        ? !fits(before.slice(0, 1), formula.arrival)
        : fits(before, formula.before);
    },
    soprano: soprano[0],
    sopranoOnTonic: soprano.some(note => pitchClassOf(note.pitch) === key.tonic),
    closure: closureOf(heard, analysis.segments, onset),
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
