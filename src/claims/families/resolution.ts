import { compare, midiOf, pitchClassOf, printPitch, staffStepOf } from '../../score/index.js';
import type { Fraction, Note } from '../../score/index.js';
import { chordParts } from '../chord-part.js';
import type { ChordPart } from '../chord-part.js';
import { noteEvidence } from '../evidence.js';
import { choice, map, optional, quiet, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { noteFamily } from '../note-family.js';
import type { NoteFinding } from '../note-family.js';
import { momentOf } from '../place/beats.js';
import { atPlace, printPlace } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { isResolved, resolvePlace } from '../place/resolve.js';
import { sayMoment } from '../place/say-moment.js';
import { liesIn, segmentsIn } from '../segments.js';
import { elsewhere, following, inAnyOctave, nearestTo, suspensionGoesTo } from '../subjects/continuation.js';
import { figureOf } from '../subjects/figures.js';
import type { LineName } from '../subjects/line-name.js';
import { struckHead } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { article, withArticle } from '../terms/chord-name.js';
import { chordPartOf } from '../terms/chord-part-name.js';
import { degreeName, printDegree, toneOfDegree } from '../terms/degree.js';
import type { DegreeName } from '../terms/degree.js';
import { intervalBetween, intervalSize, isOfSize, printSize } from '../terms/interval-name.js';
import type { IntervalSize } from '../terms/interval-name.js';
import { isNamed, noteName, printNoteName } from '../terms/note-name.js';
import type { NoteName } from '../terms/note-name.js';
import { beatNumber, printBeat } from '../terms/number.js';
import { be, printVerb, verb } from '../terms/verb.js';
import { checkPrepared, describePrepared, prepared } from './preparation.js';
import type { PreparedSays } from './preparation.js';

/** Which way and how far a note goes, as far as that is said. `steps: 1` alone is a step, half or whole. */
interface Manner {
  readonly up?: boolean;
  readonly by?: IntervalSize;
}
/** Where its goal is struck, as far as that is said: `to F in bar 7`, `to G on beat 2`. */
interface Arrival {
  readonly in?: Place;
  readonly onBeat?: Fraction;
}
/** What a note goes to. */
type Aim =
  | { readonly kind: 'to'; readonly note: NoteName }
  /** To a degree of the key there: `to the tonic`. */
  | { readonly kind: 'degree'; readonly degree: DegreeName }
  /** To a member of the chord there: `to the fifth of the chord`. */
  | { readonly kind: 'member'; readonly part: ChordPart };
/** Where a note goes in its voice. */
export type ResolutionSays =
  | (Manner & Aim & Arrival)
  | (Manner & { readonly kind: 'move' })
  /** Up or down in its own voice, however far. */
  | { readonly kind: 'direction'; readonly up: boolean }
  | PreparedSays;

const step: IntervalSize = { steps: 1 };
const isStepSize = ({ steps, semitones }: IntervalSize): boolean => steps === 1 && semitones === undefined;

const ways = wordsFor<boolean>([
  [true, 'up', 'upward', 'upwards'],
  [false, 'down', 'downward', 'downwards'],
]);
/** `by step`, `by half step`, `a semitone`, `by a third`. */
const size: Parser<IntervalSize> = choice(
  map(word('by step', 'by a step', 'a step', 'stepwise'), () => step),
  map(sequence(quiet(optional(word('by'))), quiet(optional(article)), intervalSize), ([, , of]) => of),
);
const upOf = (up: boolean | undefined): { readonly up?: boolean } => (up === undefined ? {} : { up });
const manner: Parser<Manner> = choice<Manner>(
  map(sequence(optional(ways), optional(size)), ([up, by]) => ({
    ...upOf(up),
    ...(by === undefined ? {} : { by }),
  })),
  quiet(map(sequence(size, ways), ([by, up]) => ({ up, by }))),
);
const onOneBeat: Parser<Fraction> = choice(
  map(sequence(word('on beat'), beatNumber), ([, beat]) => beat),
  quiet(map(word('on the downbeat'), () => ({ n: 1, d: 1 }))),
);
const arrival: Parser<Arrival> = choice<Arrival>(
  map(onOneBeat, onBeat => ({ onBeat })),
  map(optional(atPlace), place => (place === undefined ? {} : { in: place })),
);
const aim: Parser<Aim & Arrival> = map(
  sequence(
    choice<Aim>(
      map(noteName, note => ({ kind: 'to', note })),
      map(degreeName, degree => ({ kind: 'degree', degree })),
      map(sequence(quiet(optional(word('the'))), chordPartOf), ([, part]) => ({ kind: 'member', part })),
    ),
    arrival,
  ),
  ([to, where]) => ({ ...to, ...where }),
);
const target: Parser<ResolutionSays> = map(sequence(manner, word('to'), aim), ([how, , to]) => ({
  ...how,
  ...to,
}));
/** `down by step`; nothing but a step is meant of what resolves. */
const complement: Parser<ResolutionSays> = choice<ResolutionSays>(
  target,
  map(manner, how => ({ kind: 'move', ...how, by: how.by ?? step })),
);
/** How far, where the verb says no more than that it moves. */
const sized: Parser<ResolutionSays> = choice<ResolutionSays>(
  target,
  map(sequence(optional(ways), size), ([up, by]) => ({ kind: 'move', ...upOf(up), by })),
  quiet(map(sequence(size, ways), ([by, up]) => ({ kind: 'move', up, by }))),
);
/** After a verb that says which way: `rises a semitone to F#`, `falls`. */
const inDirection = (up: boolean): Parser<ResolutionSays> =>
  choice<ResolutionSays>(
    map(
      sequence(optional(size), optional(map(sequence(word('to'), aim), ([, to]) => to))),
      ([by, to]): ResolutionSays => {
        const how = by === undefined ? { up } : { up, by };
        if (to !== undefined) return { ...how, ...to };
        return by === undefined ? { kind: 'direction', up } : { kind: 'move', up, by };
      },
    ),
  );

const arrivalOf = (says: ResolutionSays): Arrival => ('in' in says || 'onBeat' in says ? says : {});

/** Whether a note is struck where the goal is said to be. */
function arrives(next: Note, says: ResolutionSays, context: ClaimContext): boolean {
  const { in: place, onBeat } = arrivalOf(says);
  const { score } = context.analysis;
  if (onBeat !== undefined) {
    const moment = momentOf(score, next.onset, context.beatUnit);
    return moment !== undefined && compare(moment.beat, onBeat) === 0;
  }
  if (place === undefined) return true;
  const resolved = resolvePlace(place, context);
  return isResolved(resolved) && liesIn(next.onset, resolved.range);
}

const isStep = (from: Note, to: Note, up: boolean): boolean => {
  const steps = staffStepOf(to.pitch) - staffStepOf(from.pitch);
  return steps === (up ? 1 : -1) && Math.abs(midiOf(to.pitch) - midiOf(from.pitch)) <= 2;
};

function fits(note: Note, next: Note, says: ResolutionSays, context: ClaimContext): boolean {
  const goes = (up: boolean | undefined): boolean =>
    up === undefined || midiOf(next.pitch) > midiOf(note.pitch) === up;
  const isFar = (by: IntervalSize | undefined): boolean =>
    by === undefined ||
    (isStepSize(by)
      ? isStep(note, next, true) || isStep(note, next, false)
      : isOfSize(intervalBetween(note.pitch, next.pitch), by));
  if (!arrives(next, says, context)) return false;
  switch (says.kind) {
    case 'to':
      return isNamed(next, says.note) && goes(says.up) && isFar(says.by);
    case 'degree': {
      const key =
        segmentsIn(context.analysis, { start: note.onset, end: note.onset })[0]?.key ?? context.home;
      return (
        [key, context.home].some(each => toneOfDegree(says.degree, each) === pitchClassOf(next.pitch)) &&
        goes(says.up) &&
        isFar(says.by)
      );
    }
    case 'member': {
      const index = chordParts.indexOf(says.part);
      return (
        segmentsIn(context.analysis, { start: next.onset, end: next.onset }).some(
          ({ chord }) => chord.tones[index] === pitchClassOf(next.pitch),
        ) &&
        goes(says.up) &&
        isFar(says.by)
      );
    }
    case 'move':
      return goes(says.up) && isFar(says.by);
    case 'direction':
      return goes(says.up);
    case 'prepared':
      return false;
  }
}

/** From figure to figure: a step, but an octave lower or higher than the note; not where the sentence names the octave. */
function isInOtherOctave(note: Note, next: Note, says: ResolutionSays, { analysis }: ClaimContext): boolean {
  const steps = Math.abs(staffStepOf(next.pitch) - staffStepOf(note.pitch));
  return (
    (says.kind === 'degree' ||
      says.kind === 'member' ||
      (says.kind === 'to' && says.note.octave === undefined)) &&
    says.by === undefined &&
    steps > 1 &&
    [1, 6].includes(steps % 7) &&
    figureOf(note, analysis) !== undefined
  );
}

function checkNote(
  head: Note,
  says: ResolutionSays,
  _span: Span,
  context: ClaimContext,
  line?: LineName,
): NoteFinding<ResolutionSays> {
  const note = struckHead(head, context.analysis.score.notes);
  if (says.kind === 'prepared') return checkPrepared(head, says, context);
  const all = suspensionGoesTo(head, context) ?? following(note, context);
  // Of the chord that follows the nearest note tells which way the line goes.
  const nearest = nearestTo(note, all);
  const own = says.kind === 'direction' && nearest !== undefined ? [nearest] : all;
  const found = own.find(each => fits(note, each, says, context));
  const itself = noteEvidence(
    found === undefined ? 'contradicts' : 'supports',
    head,
    'the note that resolves',
    context,
  );
  if (found !== undefined && isInOtherOctave(note, found, says, context))
    return {
      verdict: 'arguable',
      code: 'C1044',
      reason: `the resolution comes in another octave: ${printPitch(note.pitch)}, then ${printPitch(found.pitch)}`,
      evidence: [itself, noteEvidence('supports', found, 'the resolution in another octave', context)],
    };
  if (found !== undefined)
    return {
      verdict: 'holds',
      code: 'C1041',
      reason: `${printPitch(note.pitch)} goes to ${printPitch(found.pitch)}`,
      evidence: [itself, noteEvidence('supports', found, 'its resolution', context)],
    };
  const next = nearest;
  if (next === undefined)
    return {
      verdict: 'fails',
      code: 'C1043',
      reason: `nothing follows ${printPitch(note.pitch)} in its voice`,
      evidence: [itself],
    };
  // Where it goes in another voice or octave matters to what resolves, not to how far a line moves.
  const ownVoice =
    says.kind === 'direction' || (says.kind === 'move' && says.by !== undefined && says.by.steps !== 1);
  const steps = isStep(note, next, true) || isStep(note, next, false);
  // What is said of a line is not true of another.
  const moved =
    ownVoice || steps || line !== undefined
      ? undefined
      : elsewhere(note, context).find(each => fits(note, each, says, context));
  const displaced =
    ownVoice || steps
      ? undefined
      : inAnyOctave(note, context).find(({ near: each }) => fits(note, each, says, context))?.sounding;
  const instead: readonly ResolutionSays[] = [
    ...(says.kind === 'direction' ? [{ kind: 'direction' as const, up: !says.up }] : []),
    {
      kind: 'move',
      up: midiOf(next.pitch) > midiOf(note.pitch),
      by: steps ? step : intervalBetween(note.pitch, next.pitch),
    },
    { kind: 'to', note: { pitchClass: pitchClassOf(next.pitch), octave: next.pitch.octave } },
  ];
  if (moved !== undefined)
    return {
      verdict: 'arguable',
      code: 'C1044',
      reason: `another voice takes the resolution: ${printPitch(moved.pitch)}; in its own voice ${printPitch(note.pitch)} goes to ${printPitch(next.pitch)}`,
      evidence: [
        itself,
        noteEvidence('supports', moved, 'the resolution in another voice', context),
        noteEvidence('contradicts', next, 'follows in the voice', context),
      ],
      instead,
    };
  if (displaced !== undefined)
    return {
      verdict: 'arguable',
      code: 'C1044',
      reason: `the resolution comes in another octave: ${printPitch(note.pitch)}, then ${printPitch(displaced.pitch)}`,
      evidence: [itself, noteEvidence('supports', displaced, 'the resolution in another octave', context)],
    };
  return {
    verdict: 'fails',
    code: 'C1042',
    reason: `${printPitch(note.pitch)} goes to ${printPitch(next.pitch)}${arrives(next, says, context) ? '' : ` in ${sayMoment(next.onset, context)}`}`,
    evidence: [itself, noteEvidence('contradicts', next, 'follows in the voice', context)],
    instead,
  };
}

const families = noteFamily<ResolutionSays>({
  name: 'resolution',
  examples: [
    'the A#3 of bar 2 beat 3 resolves to B3',
    'the seventh of bar 15 resolves down by step',
    'the C#5 of bar 3 beat 1 resolves down by step',
  ],
  phrases: [
    [verb('resolves', 'resolve'), complement],
    [verb('steps', 'step'), map(target, says => ({ ...says, by: step }))],
    ...['goes', 'moves'].map(each => [verb(each, each.slice(0, -1).replace(/^goe$/u, 'go')), sized] as const),
    ...['rises', 'ascends', 'climbs'].map(
      each => [verb(each, each.slice(0, -1)), inDirection(true)] as const,
    ),
    ...['falls', 'descends', 'drops'].map(
      each => [verb(each, each.slice(0, -1)), inDirection(false)] as const,
    ),
    [be, prepared],
  ],
  print: (says, form) => {
    const by = 'by' in says ? says.by : undefined;
    const goes =
      by === undefined || by.steps === 1
        ? printVerb('resolves', 'resolve', form)
        : printVerb('moves', 'move', form);
    const direction = 'up' in says && says.up !== undefined ? (says.up ? ' up' : ' down') : '';
    const far = by === undefined ? '' : isStepSize(by) ? ' by step' : ` by ${withArticle(printSize(by))}`;
    const { in: place, onBeat } = arrivalOf(says);
    const where =
      onBeat !== undefined
        ? ` on beat ${printBeat(onBeat)}`
        : place !== undefined
          ? ` in ${printPlace(place)}`
          : '';
    switch (says.kind) {
      case 'to':
        return `${goes}${direction}${far} to ${printNoteName(says.note)}${where}`;
      case 'degree':
        return `${goes}${direction}${far} to ${printDegree(says.degree)}${where}`;
      case 'member':
        return `${goes}${direction}${far} to the ${says.part} of the chord${where}`;
      case 'move':
        return `${goes}${direction}${far}`;
      case 'direction':
        return says.up ? printVerb('rises', 'rise', form) : printVerb('falls', 'fall', form);
      case 'prepared':
        return describePrepared(says, form);
    }
  },
  checkNote,
  // What a line goes to in a later place it goes to from its last note.
  meantOf: (notes, says) => (arrivalOf(says).in === undefined ? notes : notes.slice(-1)),
});

/** Tendency tones, chordal sevenths, dissonances and their resolution: claims G6, I6 and I7 of the trade. */
export const noteResolutionFamily = families.ofNotes;
export const lineResolutionFamily = families.ofLine;
