import { add, barAt, compare, isBefore, midiOf, pitchClassOf, printPitchClass } from '../score/index.js';
import type { Fraction } from '../score/index.js';
import { heardIn } from './analyse.js';
import { askChord, besideIt, lacking, list } from './asked-chord.js';
import type { Answer, AskedChord } from './asked-chord.js';
import { askBass } from './bass-fit.js';
import { bassOf, printChord, sameChord } from './chord.js';
import { doubtOf } from './chord-doubts.js';
import { refusalOf } from './chord-refusals.js';
import type { ChordQuestion, Judgement, Witness } from './judgement.js';
import type { Analysis, Segment } from './model.js';
import { allowRespelling, respelledKey, respelledTone } from './respelling.js';
import { segmentAt } from './segment-at.js';
import { weigh } from './weigh-chord.js';
import type { Weighed } from './weigh-chord.js';

/** The reading that the analysis prefers at a place, as long as it is another chord than the one asked about. */
function betterThan(weighed: Weighed): Judgement['better'] {
  const { segments, chord, question } = weighed;
  const main = segments.reduce<Segment | undefined>((longest, segment) => {
    const length = (s: Segment): number => s.end.n / s.end.d - s.start.n / s.start.d;
    return longest === undefined || length(segment) > length(longest) ? segment : longest;
  }, undefined);
  if (main === undefined) return undefined;
  const same = main.chord.root === chord.root && main.chord.quality === chord.quality;
  if (same && (question.bass === undefined || bassOf(main.chord) === question.bass)) return undefined;
  return { roman: main.roman, chord: printChord(main.chord), key: main.key };
}

/** How far a chord is behind the best reading of a span, and whether its bass fits; the measures behind the verdicts. */
export function supportFor(
  analysis: Analysis,
  question: ChordQuestion,
): { readonly behind: number; readonly bassFits: boolean } {
  const weighed = weigh(analysis, question);
  return {
    behind: weighed.hearing.tones.length === 0 ? Infinity : weighed.behind,
    bassFits: askBass(analysis, weighed, true).fits === 'yes',
  };
}

/**
 * Judges whether the harmony of a span is the chord asked about: how well the notes support it, what contradicts it, which reading is
 * better. A question of its own, not a comparison with the analysis: a defensible reading is no error.
 */
export function judgeChord(analysis: Analysis, question: ChordQuestion): Judgement {
  const respelled = {
    inKey: question.key,
    tones: question.tones,
    piece: heardIn(analysis).lattice.tables.index,
  };
  return allowRespelling(judgeAsSpelled(analysis, question), respelled, shift =>
    judgeAsSpelled(analysis, {
      ...question,
      tones: question.tones.map(tone => respelledTone(tone, shift)),
      ...(question.bass === undefined ? {} : { bass: respelledTone(question.bass, shift) }),
      ...(question.key === undefined ? {} : { key: respelledKey(question.key, shift) }),
    }),
  );
}

/** The harmony that a moment is part of, as far as it lies in its bar. */
function harmonyAround(
  { score }: Analysis,
  moment: Fraction,
  { start, end }: Segment,
): Pick<ChordQuestion, 'start' | 'end'> {
  const bar = barAt(score, moment);
  if (bar === undefined) return { start, end };
  const last = add(bar.start, bar.length);
  return { start: isBefore(start, bar.start) ? bar.start : start, end: isBefore(last, end) ? last : end };
}

/** The answer of a whole harmony, given for a moment in it. */
const forMoment = (whole: Judgement): Judgement => ({
  ...whole,
  reason: `in the harmony that this moment is part of, ${whole.reason}`,
});

/**
 * What is said of a moment is said of the harmony that it is part of: an after-beat, a note of a broken chord or a suspension makes no chord
 * of its own (common practice). A chord that is whole at the moment itself is never refused for that.
 */
function judgeAsSpelled(analysis: Analysis, question: ChordQuestion): Judgement {
  const moment = weigh(analysis, question);
  const own = judgeSounding(analysis, moment);
  const segment = segmentAt(analysis, question.start);
  if (compare(question.start, question.end) !== 0 || segment === undefined) return own;
  const around = weigh(analysis, { ...question, ...harmonyAround(analysis, question.start, segment) });
  const whole = judgeSounding(analysis, around);
  if (whole.outcome === own.outcome) return own;
  if (own.outcome === 'open') return forMoment(whole);
  if (own.outcome === 'rivalled') {
    const decides =
      whole.outcome === 'supported' || (whole.outcome === 'contradicted' && around.missing.length > 0);
    return decides ? forMoment(whole) : own;
  }
  if (own.outcome === 'supported') {
    if (!question.tones.every(tone => moment.hearing.present.has(tone)))
      return whole.outcome === 'open' ? own : forMoment(whole);
    return whole.outcome === 'contradicted'
      ? { ...own, outcome: 'rivalled', reason: `${own.reason}; but ${forMoment(whole).reason}` }
      : own;
  }
  // Suspended or not yet there at the moment; a wrong bass is not mended by what comes later.
  const isItsChord = sameChord(segment.chord, moment.chord);
  if (whole.outcome !== 'supported' || !isItsChord) return own;
  const { bass, ...ofAnyBass } = question;
  return bass === undefined || judgeSounding(analysis, weigh(analysis, ofAnyBass)).outcome === 'contradicted'
    ? forMoment(whole)
    : own;
}

/** What is heard of a chord that nothing speaks against. */
function supportOf(asked: AskedChord): Answer {
  const { question, hearing, missing } = asked;
  const absent =
    missing.length === 0 ? '' : `; ${lacking(asked)} ${missing.length > 1 ? 'are' : 'is'} left out`;
  const sounding = question.tones.filter(of => hearing.present.has(of)).map(printPitchClass);
  // What makes it this chord may sound before or after the span: the harmony is heard as a whole.
  const around = question.tones
    .filter((of, part) => !hearing.present.has(of) && !missing.includes(part))
    .map(printPitchClass);
  const elsewhere =
    around.length === 0
      ? ''
      : `; ${list(around)} ${around.length > 1 ? 'sound' : 'sounds'} elsewhere in the same harmony`;
  return {
    outcome: 'supported',
    reason: `${list(sounding)} ${sounding.length > 1 ? 'sound' : 'sounds'}${elsewhere}${absent}${besideIt(asked)}`,
  };
}

/**
 * The tones as they bear on an answer: against a chord that is refused stands all that belongs to the better one, however its voices move, and
 * a member that lies in the bass where the claim puts another.
 */
function witnessesFor(
  { analysis, best, name, witnesses }: AskedChord,
  { outcome, refusedBy }: Answer,
): readonly Witness[] {
  if (outcome !== 'contradicted') return witnesses;
  return witnesses.map((witness): Witness => {
    const note = analysis.score.notes[witness.note ?? -1];
    if (note === undefined) return witness;
    if (witness.role === 'supports')
      return refusedBy !== undefined && midiOf(note.pitch) === refusedBy.midi
        ? { ...witness, role: 'contradicts', why: `${witness.why}, in the bass` }
        : witness;
    return best.tones.includes(pitchClassOf(note.pitch))
      ? { ...witness, role: 'contradicts', why: `of ${printChord(best)}, not of ${name}` }
      : witness;
  });
}

/** The answer of what sounds in a span, or at a moment, alone. */
function judgeSounding(analysis: Analysis, weighed: Weighed): Judgement {
  const asked = askChord(analysis, weighed);
  const answer = refusalOf(asked) ?? doubtOf(asked) ?? supportOf(asked);
  const better = answer.outcome === 'supported' ? undefined : betterThan(weighed);
  return {
    outcome: answer.outcome,
    reason: answer.reason,
    witnesses: witnessesFor(asked, answer),
    ...(better === undefined ? {} : { better }),
  };
}
