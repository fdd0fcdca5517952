import type { Line } from '../subjects/line.js';
import { map, word } from '../grammar/index.js';
import type { NonChordTone, Segment } from '../../harmony/index.js';
import { compare, isBefore, midiOf, printPitch, staffStepOf } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { Finding, Judged } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import type { ClaimContext, Evidence, Range } from '../model.js';
import { noteFamily } from '../note-family.js';
import { barAt } from '../place/beats.js';
import { weakness } from '../place/weight.js';
import type { NoteFinding } from '../note-family.js';
import { soundEnd, struckHead } from '../subjects/sounding.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { articleOf } from '../terms/chord-name.js';
import { describe, nameOf, nonChordTone, suspensionByFigure } from '../terms/non-chord-tone.js';
import type { NonChordToneSays } from '../terms/non-chord-tone.js';
import { be, have, haveNo, printBe, printHas } from '../terms/verb.js';
import { silence } from './judged.js';
import { segmentsIn } from '../segments.js';

const toneOf = (tone: NonChordTone): NonChordToneSays => ({
  kind: tone.kind,
  ...(tone.figure === undefined || tone.kind !== 'suspension' ? {} : { figure: tone.figure }),
});

/** The segment within a place in which a note sounds, with what the engine makes of it there. */
function appearances(note: Note, range: Range, context: ClaimContext) {
  const { score } = context.analysis;
  const head = struckHead(note, score.notes);
  const sounding = { start: head.onset, end: soundEnd(note, score) };
  return segmentsIn(context.analysis, range)
    .filter(segment => compare(segment.start, sounding.end) < 0 && compare(sounding.start, segment.end) < 0)
    .map(segment => ({ segment, head, tone: segment.nonChordTones.find(each => each.note === head.id) }));
}

function steps(from: Note, to: Note): string {
  const by = staffStepOf(to.pitch) - staffStepOf(from.pitch);
  const semitones = Math.abs(midiOf(to.pitch) - midiOf(from.pitch));
  if (Math.abs(by) === 1 && semitones > 2) return `an augmented second ${by > 0 ? 'up' : 'down'}`;
  if (by === 0) return midiOf(to.pitch) === midiOf(from.pitch) ? 'the same pitch' : 'a chromatic step';
  const direction = by > 0 ? 'up' : 'down';
  return Math.abs(by) === 1 ? `a step ${direction}` : `a leap ${direction}`;
}

function neighbourhood(tone: NonChordTone, note: Note, context: ClaimContext): readonly Evidence[] {
  const { notes } = context.analysis.score;
  const before = tone.preparation === undefined ? undefined : notes[tone.preparation];
  const after = tone.resolution === undefined ? undefined : notes[tone.resolution];
  return [
    ...(before === undefined || before.id === note.id
      ? []
      : [noteEvidence('supports', before, `before it: ${steps(before, note)} into it`, context)]),
    ...(after === undefined
      ? []
      : [noteEvidence('supports', after, `after it: ${steps(note, after)}`, context)]),
  ];
}

/**
 * Accented: on a stronger place of the bar than the note it goes to (common practice: an accented passing tone takes the beat from
 * the chord tone that follows). Where nothing follows, what the engine says.
 */
function isAccented(tone: NonChordTone, context: ClaimContext): boolean {
  const { score } = context.analysis;
  const [note, after] = [tone.note, tone.resolution].map(id =>
    id === undefined ? undefined : score.notes[id],
  );
  if (note === undefined || after === undefined) return tone.accented;
  // A suspension is struck before the harmony against which it is dissonant.
  const onset = tone.kind === 'suspension' || tone.kind === 'retardation' ? undefined : note.onset;
  const bars = [onset, after.onset].map(moment => (moment === undefined ? undefined : barAt(score, moment)));
  const [here, there] = bars;
  if (onset === undefined || here === undefined || there === undefined) return tone.accented;
  return weakness(here, onset, context.beatUnit) < weakness(there, after.onset, context.beatUnit);
}

/** How a neighbour or passing tone lies: above or below the note it comes from. */
function sideOf(tone: NonChordTone, note: Note, context: ClaimContext): 'upper' | 'lower' | undefined {
  const before = tone.preparation === undefined ? undefined : context.analysis.score.notes[tone.preparation];
  if (before === undefined) return undefined;
  return midiOf(note.pitch) > midiOf(before.pitch) ? 'upper' : 'lower';
}

/**
 * Two neighbours of one goal, the one above and the other below it, between two soundings of it: E F D E (Hutchinson, Non-Chord Tones, double
 * neighbour). Either of the two tones makes the figure.
 */
function makesDoubleNeighbour({ note: id }: NonChordTone, { analysis }: ClaimContext): boolean {
  const { notes } = analysis.score;
  const own = notes[id];
  const foreign = new Set(
    analysis.segments.flatMap(({ nonChordTones }) => nonChordTones.map(({ note }) => note)),
  );
  const row = notes.filter(
    ({ voice, grace, tiedFrom }) => voice === own?.voice && !grace && tiedFrom === undefined,
  );
  const isFigure = ([goal, one, other, end]: readonly Note[]): boolean => {
    if (goal === undefined || one === undefined || other === undefined || end === undefined) return false;
    const distance = (note: Note): number => staffStepOf(note.pitch) - staffStepOf(goal.pitch);
    return (
      midiOf(goal.pitch) === midiOf(end.pitch) &&
      Math.abs(distance(one)) === 1 &&
      distance(other) === -distance(one) &&
      foreign.has(one.id) &&
      foreign.has(other.id)
    );
  };
  const at = row.findIndex(note => note.id === id);
  return [at - 1, at - 2].some(from => from >= 0 && isFigure(row.slice(from, from + 4)));
}

/** The first thing said that the tone is not; `undefined` where all of it fits. */
export function misfit(
  tone: NonChordTone,
  note: Note,
  says: NonChordToneSays,
  context: ClaimContext,
): string | undefined {
  const isFigure = says.kind === 'double neighbour' && makesDoubleNeighbour(tone, context);
  if (says.kind !== 'non-chord tone' && tone.kind !== says.kind && !isFigure)
    return `it is ${describe(toneOf(tone))}`;
  if (says.figure !== undefined && tone.figure !== says.figure)
    return `the intervals above the bass are ${tone.figure ?? 'others'}, not ${says.figure}`;
  const accented = isAccented(tone, context);
  if (says.accented !== undefined && accented !== says.accented)
    return `it is ${accented ? 'accented' : 'unaccented'}`;
  if (says.chromatic !== undefined && tone.chromatic !== says.chromatic)
    return `it is ${tone.chromatic ? 'chromatic' : 'diatonic'}: the key decides, not the size of the step`;
  if (says.side !== undefined && sideOf(tone, note, context) !== says.side)
    return `it lies on the ${says.side === 'upper' ? 'lower' : 'upper'} side`;
  return undefined;
}

function chordTone(
  note: Note,
  segment: Segment,
  says: NonChordToneSays,
  context: ClaimContext,
): NoteFinding<NonChordToneSays> {
  const is = says.kind === 'chord tone';
  const member = noteEvidence(is ? 'supports' : 'contradicts', note, `member of ${segment.roman}`, context);
  return {
    verdict: is ? 'holds' : 'fails',
    code: is ? 'C0601' : 'C0603',
    reason: `${printPitch(note.pitch)} is a member of the chord, ${segment.roman}`,
    evidence: [member],
    ...(is ? {} : { instead: [{ kind: 'chord tone' }] }),
  };
}

/** Whether a tone goes on by letters in one direction, from the one before it to the one after, and over an augmented second. */
function isPassingByLetters(tone: NonChordTone, note: Note, { analysis }: ClaimContext): boolean {
  const { notes } = analysis.score;
  const [before, after] = [tone.preparation, tone.resolution].map(id =>
    id === undefined ? undefined : notes[id],
  );
  if (before === undefined || after === undefined) return false;
  const [into, out] = [
    staffStepOf(note.pitch) - staffStepOf(before.pitch),
    staffStepOf(after.pitch) - staffStepOf(note.pitch),
  ];
  const isWide = [before, after].some(each => Math.abs(midiOf(each.pitch) - midiOf(note.pitch)) > 2);
  return Math.abs(into) === 1 && into === out && isWide;
}

function checkNote(
  note: Note,
  says: NonChordToneSays,
  { range, moment }: Span,
  context: ClaimContext,
): NoteFinding<NonChordToneSays> {
  const found = appearances(note, moment === undefined ? range : { start: moment, end: moment }, context);
  const foreign = found.find(each => each.tone !== undefined);
  const [first] = found;
  if (foreign?.tone === undefined) {
    if (first === undefined)
      return { verdict: 'undecided', code: 'C0604', reason: 'no chord can be read there', evidence: [] };
    const unexplained = first.segment.unexplained.includes(first.head.id);
    if (!unexplained) return chordTone(note, first.segment, says, context);
    return {
      verdict: says.kind === 'non-chord tone' ? 'holds' : 'fails',
      code: 'C0602',
      reason: `${printPitch(note.pitch)} is no member of ${first.segment.roman}, and neither its approach nor its departure makes it one of the usual kinds`,
      evidence: [noteEvidence('set aside', note, 'foreign to the chord', context)],
      instead: [{ kind: 'non-chord tone' }],
    };
  }
  const { tone, segment } = foreign;
  const evidence = [
    noteEvidence('set aside', note, `${describe(toneOf(tone))} against ${segment.roman}`, context),
    ...neighbourhood(tone, note, context),
  ];
  const fault =
    says.kind === 'chord tone' ? `it is ${describe(toneOf(tone))}` : misfit(tone, note, says, context);
  if (fault === undefined)
    return {
      verdict: 'holds',
      code: 'C0601',
      reason: `${printPitch(note.pitch)} is ${describe(toneOf(tone))} against ${segment.roman}`,
      evidence,
    };
  // Letters in a row with an augmented second between them: 7-6-5 of harmonic minor.
  if (says.kind === 'passing tone' && isPassingByLetters(tone, note, context))
    return {
      verdict: 'arguable',
      code: 'C0605',
      reason: `${fault} by its size: an augmented second is no step, though the letters go on in one direction`,
      evidence,
      instead: [toneOf(tone)],
    };
  return { verdict: 'fails', code: 'C0603', reason: fault, evidence, instead: [toneOf(tone)] };
}

/** Of a line that is said to be a suspension, the notes but those that one of them resolves to. */
function withoutResolution(
  notes: readonly Note[],
  says: NonChordToneSays,
  { analysis }: ClaimContext,
): readonly Note[] {
  if (says.kind !== 'suspension' && says.kind !== 'retardation') return notes;
  const heads = new Set(notes.map(note => struckHead(note, analysis.score.notes).id));
  const resolutions = new Set(
    analysis.segments.flatMap(({ nonChordTones }) =>
      nonChordTones.flatMap(tone =>
        tone.kind === says.kind && heads.has(tone.note) && tone.resolution !== undefined
          ? [tone.resolution]
          : [],
      ),
    ),
  );
  return notes.filter(note => !resolutions.has(note.id));
}

const families = noteFamily<NonChordToneSays>({
  name: 'non-chord tone',
  examples: ['the E5 of bar 3 beat 2 is a passing tone', 'the C#5 of bar 3 beat 1 is a 7-6 suspension'],
  phrases: [
    [be, nonChordTone],
    [be, suspensionByFigure],
    [be, map(word('dissonant'), (): NonChordToneSays => ({ kind: 'non-chord tone' }))],
  ],
  print: (says, form) => `${printBe(form)} ${describe(says)}`,
  checkNote,
  meantOf: withoutResolution,
});

export const noteNonChordToneFamily = families.ofNotes;
export const lineNonChordToneFamily = families.ofLine;

interface PlacedTone {
  readonly tone: NonChordTone;
  readonly note: Note;
  readonly segment: Segment;
}

/** Non-chord tones that sound at a place, in time order. */
export function tonesIn(range: Range, context: ClaimContext): readonly PlacedTone[] {
  const { score } = context.analysis;
  const isMoment = compare(range.start, range.end) === 0;
  return segmentsIn(context.analysis, range).flatMap(segment =>
    segment.nonChordTones.flatMap(tone => {
      const note = score.notes[tone.note];
      if (note === undefined) return [];
      const end = soundEnd(note, score);
      const inside = isMoment
        ? compare(note.onset, range.start) <= 0 && isBefore(range.start, end)
        : isBefore(note.onset, range.end) && isBefore(range.start, end);
      return inside ? [{ tone, note, segment }] : [];
    }),
  );
}

/** Each suspension once: what is struck again before it resolves is the same. */
export const onceSuspended = (tones: readonly PlacedTone[]): readonly PlacedTone[] =>
  tones.filter(
    ({ tone, note }, at) =>
      !tones
        .slice(0, at)
        .some(
          other =>
            tone.resolution !== undefined &&
            other.tone.kind === tone.kind &&
            other.tone.figure !== undefined &&
            other.tone.resolution === tone.resolution &&
            midiOf(other.note.pitch) === midiOf(note.pitch),
        ),
  );

function checkSpan(
  span: Span,
  says: NonChordToneSays,
  context: ClaimContext,
  isMeant: (note: Note) => boolean = () => true,
): Judged & { readonly others: readonly PlacedTone[] } {
  const found = tonesIn(rangeOrMoment(span), context).filter(({ note }) => isMeant(note));
  const matching = found.filter(({ tone, note }) => misfit(tone, note, says, context) === undefined);
  const others = found.filter(each => !matching.includes(each));
  const [match] = matching;
  if (match !== undefined)
    return {
      verdict: 'holds',
      code: 'C0601',
      reason: `${printPitch(match.note.pitch)} is ${describe(toneOf(match.tone))} against ${match.segment.roman}`,
      evidence: matching.flatMap(({ tone, note, segment }) => [
        noteEvidence('supports', note, `${describe(toneOf(tone))} against ${segment.roman}`, context),
        ...neighbourhood(tone, note, context),
      ]),
      others,
    };
  const [other] = others;
  return {
    verdict: 'fails',
    code: 'C0603',
    reason:
      other === undefined
        ? `every note of ${span.name} is a member of its chord`
        : `${printPitch(other.note.pitch)} is ${describe(toneOf(other.tone))}`,
    evidence: others
      .slice(0, 6)
      .map(({ tone, note, segment }) =>
        noteEvidence('set aside', note, `${describe(toneOf(tone))} against ${segment.roman}`, context),
      ),
    others,
  };
}

/** `bar 3 has a 4-3 suspension`: claims G1 to G4 of the trade for a place. */
export const spanNonChordToneFamily = family<Span, NonChordToneSays>({
  name: 'non-chord tone of a place',
  examples: ['bar 3 has a suspension', 'bar 15 has a 4-3 suspension', 'bar 8 has no non-chord tone'],
  phrases: [
    [have, nonChordTone],
    [have, suspensionByFigure],
    [haveNo, nonChordTone],
  ],
  print: (says, form) => printHas(form, articleOf(nameOf(says)), nameOf(says)),
  check: (span, says, context, make) => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const { others, ...finding } = checkSpan(span, says, context);
    return { ...finding, instead: () => others.map(({ tone }) => make(toneOf(tone))) };
  },
});

/** The same for one line: `the soprano of bar 15 has a 4-3 suspension`. */
export const nonChordToneInLineFamily = family<Line, NonChordToneSays>({
  name: 'non-chord tone in a line',
  examples: ['the soprano of bar 15 has a 4-3 suspension'],
  phrases: [
    [have, nonChordTone],
    [have, suspensionByFigure],
    [haveNo, nonChordTone],
  ],
  print: (says, form) => printHas(form, articleOf(nameOf(says)), nameOf(says)),
  check: ({ span, notes }, says, context, make): Finding<Line> => {
    const silent = silence<Line>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const heads = new Set(notes.map(({ note }) => struckHead(note, context.analysis.score.notes).id));
    const { others, ...finding } = checkSpan(span, says, context, note =>
      heads.has(struckHead(note, context.analysis.score.notes).id),
    );
    return { ...finding, instead: () => others.map(({ tone }) => make(toneOf(tone))) };
  },
});
