import { nativeTones } from '../../harmony/index.js';
import { pitchClassOf, printPitch } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { Finding, Predicate } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { choice, list, map, nothing, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { segmentsIn } from '../segments.js';
import type { Line } from '../subjects/line.js';
import { isSemitone, isStep, sayStep } from '../subjects/line-steps.js';
import type { Step } from '../subjects/line-steps.js';
import { intervalNumber, intervalsNumber, printNumber } from '../terms/interval-name.js';
import { isNamed, noteName } from '../terms/note-name.js';
import type { NoteName } from '../terms/note-name.js';
import { printVerb } from '../terms/verb.js';
import type { VerbForm } from '../terms/verb.js';
import { checkEvery, foundIn, moveEvidence, sayLine } from './line-movement.js';
import type { Moved } from './line-movement.js';
import { fromOn, fromTo, sayWay, someWay, upOrDown, wayOf } from './line-way.js';
import type { Way } from './line-way.js';
import { dash } from './row-of-notes.js';

/** `diatonic`: from letter to letter. */
type Manner = 'any' | 'step' | 'chromatic' | 'diatonic' | 'whole tones';

/** A line that goes one way. */
export type DirectionSays = {
  readonly kind: 'direction';
  readonly up: boolean;
  readonly manner: Manner;
  /** Steps of every move where it is more than one: 2 for `in thirds`. */
  readonly by?: number;
} & Way;
/** A line that moves by semitones, whichever way. */
export type SemitonesSays = { readonly kind: 'semitones' } & Way;

const manners = choice<Manner>(
  map(word('by step', 'stepwise', 'in steps'), () => 'step'),
  map(word('chromatically', 'by semitones', 'by half steps', 'by half step'), () => 'chromatic'),
  map(
    word(
      'diatonically',
      'scalewise',
      'by diatonic step',
      'along the scale',
      'down the scale',
      'up the scale',
    ),
    () => 'diatonic',
  ),
  map(
    word(
      'in whole tones',
      'by whole tones',
      'in whole steps',
      'by whole steps',
      'by whole tone',
      'by whole step',
    ),
    () => 'whole tones',
  ),
  nothing('any'),
);
/** After a verb that says which way: `chromatically from C to E`. */
export const inManner = (up: boolean): Parser<DirectionSays> =>
  map(sequence(manners, someWay), ([manner, way]) => ({ kind: 'direction', up, manner, ...way }));
/** `in thirds`; `by thirds`, where `by a third` is one move alone. */
const eachBy: Parser<number> = choice(
  map(sequence(word('in'), intervalNumber), ([, by]) => by),
  map(sequence(word('by'), intervalsNumber), ([, by]) => by),
);
/** After a verb that says which way: `in thirds from G to C`. */
export const inIntervals = (up: boolean): Parser<DirectionSays> =>
  map(sequence(eachBy, someWay), ([by, way]) => ({
    kind: 'direction',
    up,
    manner: 'any',
    by,
    ...way,
  }));
/** `down from G to C`. */
export const upOrDownFrom: Parser<DirectionSays> = map(sequence(upOrDown, fromTo), ([up, ends]) => ({
  kind: 'direction',
  up,
  manner: 'any',
  ...ends,
}));
/** After `moves`: `chromatically`. */
export const bySemitones: Parser<SemitonesSays> = map(
  word(
    'chromatically',
    'by half steps',
    'by half step',
    'by semitones',
    'by semitone',
    'in half steps',
    'in semitones',
  ),
  () => ({ kind: 'semitones' }),
);
/** `chromatically from A to B`, `chromatically A - A# - B`. */
export const chromaticWay: Parser<SemitonesSays> = map(
  sequence(
    word('chromatically', 'by semitones', 'by half steps', 'in semitones', 'in half steps'),
    choice(
      fromOn,
      map(sequence(noteName, dash, list(noteName, dash)), ([first, , others]) => wayOf(first, others)),
    ),
  ),
  ([, way]) => ({ kind: 'semitones', ...way }),
);

export function describeDirection(says: DirectionSays, form: VerbForm): string {
  const manner = {
    any: '',
    step: ' by step',
    chromatic: ' chromatically',
    diatonic: ' diatonically',
    'whole tones': ' in whole tones',
  }[says.manner];
  return (
    (says.up ? printVerb('rises', 'rise', form) : printVerb('falls', 'fall', form)) +
    manner +
    (says.by === undefined ? '' : ` in ${printNumber(says.by)}`) +
    sayWay(says)
  );
}

export const describeSemitones = (says: SemitonesSays, form: VerbForm): string =>
  `${printVerb('moves', 'move', form)} chromatically${sayWay(says)}`;

/** Down a third, or the same an octave higher: up a sixth (common practice of basses that fall in thirds). */
const isInRow = ({ up, size }: Step, says: DirectionSays, by: number): boolean =>
  up === says.up ? size.steps === by : size.steps === 7 - by;

function isOfManner(step: Step, manner: Manner): boolean {
  switch (manner) {
    case 'any':
      return true;
    case 'step':
      return isStep(step);
    case 'chromatic':
      return isSemitone(step);
    case 'diatonic':
      return isStep(step) && step.size.steps === 1;
    case 'whole tones':
      return step.size.steps === 1 && step.size.semitones === 2;
  }
}

const fits = (step: Step, says: DirectionSays): boolean =>
  says.by !== undefined ? isInRow(step, says, says.by) : step.up === says.up && isOfManner(step, says.manner);

/**
 * One semitone between two letters is a diatonic semitone (common practice: the chromatic one keeps its letter), and no line yet: it is no chromatic
 * motion where both notes belong to the key.
 */
function diatonicSemitone(line: Line, steps: readonly Step[], context: ClaimContext): Moved | undefined {
  const [only] = steps;
  if (only === undefined || steps.length > 1 || only.size.steps !== 1) return undefined;
  const native = segmentsIn(context.analysis, line.span.range).flatMap(({ key }) => nativeTones(key));
  const isNative = [only.from, only.to].every(({ pitch }) => native.includes(pitchClassOf(pitch)));
  return {
    verdict: isNative ? 'fails' : 'arguable',
    code: isNative ? 'C1102' : 'C1106',
    reason: `${line.name} has ${sayStep(only)}: a diatonic semitone, from one letter to the next`,
    evidence: moveEvidence([only], isNative ? 'contradicts' : 'set aside', context),
  };
}

/** Whether every move is as it is said to be; of chromatic motion one diatonic semitone is not enough. */
function checkAll(
  line: Line,
  steps: readonly Step[],
  fit: (step: Step) => boolean,
  isChromatic: boolean,
  context: ClaimContext,
): Moved {
  const finding = checkEvery(line, steps, fit, context);
  const single = isChromatic ? diatonicSemitone(line, steps, context) : undefined;
  return finding.verdict === 'holds' ? (single ?? finding) : finding;
}

/** Whether moves go through notes in that order, whatever lies between them. */
function touches(steps: readonly Step[], notes: readonly NoteName[]): boolean {
  const [next, ...others] = notes;
  if (next === undefined) return true;
  const at = steps.findIndex(({ to }) => isNamed(to, next));
  return at >= 0 && touches(steps.slice(at + 1), others);
}

/** The part of a line that goes from one named note to another as it is said to: the line may begin before and go on. */
function stretchOf(
  { notes }: Line,
  steps: readonly Step[],
  says: DirectionSays,
): readonly Step[] | undefined {
  const { from, through = [], to } = says;
  const first = notes[0]?.note;
  const last = notes.at(-1)?.note;
  if (from === undefined || to === undefined || first === undefined || last === undefined) return undefined;
  if (through.length === 0 && isNamed(first, from) && isNamed(last, to)) return undefined;
  return steps.flatMap((step, at) => {
    if (!isNamed(step.from, from)) return [];
    const end = steps.findIndex((each, index) => index >= at && isNamed(each.to, to));
    const stretch = end < 0 ? [] : steps.slice(at, end + 1);
    // One diatonic semitone is no chromatic line.
    const [only] = stretch;
    if (says.manner === 'chromatic' && stretch.length === 1 && only?.size.steps === 1) return [];
    return stretch.length > 0 && stretch.every(each => fits(each, says)) && touches(stretch, through)
      ? [stretch]
      : [];
  })[0];
}

type Make = (says: DirectionSays) => Predicate<Line>;

/** Every direction and manner that a line could have instead. */
const directions = (make: Make): readonly Predicate<Line>[] =>
  [true, false].flatMap(up =>
    (['chromatic', 'step', 'any'] as const).map(manner => make({ kind: 'direction', up, manner })),
  );

/** A line whose first or last note is not the one that is said. */
function otherEnds(
  line: Line,
  says: DirectionSays,
  context: ClaimContext,
  make: Make,
): Finding<Line> | undefined {
  const [first, last] = [line.notes[0]?.note, line.notes.at(-1)?.note];
  if (first === undefined || last === undefined) return undefined;
  const isOther = (note: Note, name: NoteName | undefined): boolean =>
    name !== undefined && !isNamed(note, name);
  if (!isOther(first, says.from) && !isOther(last, says.to)) return undefined;
  return {
    verdict: 'fails',
    code: 'C1102',
    reason: `${line.name} goes from ${printPitch(first.pitch)} to ${printPitch(last.pitch)}`,
    evidence: [first, last].map(note =>
      noteEvidence('contradicts', note, note === first ? 'its first note' : 'its last note', context),
    ),
    instead: () => [
      make({
        ...says,
        ...(says.from === undefined ? {} : { from: { pitchClass: pitchClassOf(first.pitch) } }),
        ...(says.to === undefined ? {} : { to: { pitchClass: pitchClassOf(last.pitch) } }),
      }),
    ],
  };
}

/** Whether a line goes one way, as it is said to. */
export function checkDirection(
  line: Line,
  steps: readonly Step[],
  says: DirectionSays,
  context: ClaimContext,
  make: Make,
): Finding<Line> {
  const within = stretchOf(line, steps, says);
  if (within !== undefined) return foundIn(line, within, context);
  if (says.through !== undefined)
    return {
      verdict: 'fails',
      code: 'C1102',
      reason: `${line.name} goes ${sayLine(line)}`,
      evidence: moveEvidence(steps, 'contradicts', context),
    };
  return (
    otherEnds(line, says, context, make) ?? {
      ...checkAll(line, steps, step => fits(step, says), says.manner === 'chromatic', context),
      instead: () => directions(make),
    }
  );
}

/** Whether a line moves by semitones; where its ends are named, up or down as the notes go. */
export function checkSemitones(
  line: Line,
  steps: readonly Step[],
  { from, through, to }: SemitonesSays,
  context: ClaimContext,
  make: Make,
): Finding<Line> {
  if (from === undefined)
    return { ...checkAll(line, steps, isSemitone, true, context), instead: () => directions(make) };
  const goes = (up: boolean): Finding<Line> =>
    checkDirection(
      line,
      steps,
      {
        kind: 'direction',
        manner: 'chromatic',
        up,
        from,
        ...(through === undefined ? {} : { through }),
        ...(to === undefined ? {} : { to }),
      },
      context,
      make,
    );
  const [rising, falling] = [goes(true), goes(false)];
  return (
    [rising, falling].find(({ verdict }) => verdict === 'holds') ??
    (steps[0]?.up === false ? falling : rising)
  );
}
