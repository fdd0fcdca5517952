import { nativeTones } from '../../harmony/index.js';
import type { Key } from '../../harmony/index.js';
import { compare, midiOf, pitchClassOf, printPitch } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { Finding, Predicate } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import {
  choice,
  list,
  map,
  mark,
  nothing,
  optional,
  quiet,
  sequence,
  word,
  wordsFor,
} from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Evidence, EvidenceRole } from '../model.js';
import type { Line } from '../subjects/line.js';
import { isSemitone, isStep, printMove, sayStep, stepBetween, stepsOf } from '../subjects/line-steps.js';
import type { Step } from '../subjects/line-steps.js';
import { soundEnd } from '../subjects/sounding.js';
import { article, withArticle } from '../terms/chord-name.js';
import {
  intervalBetween,
  intervalName,
  intervalNumber,
  printNumber,
  sameInterval,
} from '../terms/interval-name.js';
import type { IntervalName } from '../terms/interval-name.js';
import { lineDegree, printLineDegree, toneOfDegree } from '../terms/degree.js';
import type { DegreeName } from '../terms/degree.js';
import { segmentsIn } from '../segments.js';
import { isNamed, noteName, printNoteName } from '../terms/note-name.js';
import type { NoteName } from '../terms/note-name.js';
import { be, have, haveNo, printBe, printVerb, verb } from '../terms/verb.js';
import { checkLament } from './lament.js';
import type { LamentColour } from './lament.js';

type Manner = 'any' | 'step' | 'chromatic';

/** Where a line starts and ends, and what it touches between, as far as that is said. */
interface Way {
  readonly from?: NoteName;
  readonly through?: readonly NoteName[];
  readonly to?: NoteName;
}

/** How a line moves. */
export type MelodicSays =
  | ({
      readonly kind: 'direction';
      readonly up: boolean;
      readonly manner: Manner;
      /** Steps of every move where it is more than one: 2 for `in thirds`. */
      readonly by?: number;
    } & Way)
  | ({ readonly kind: 'semitones' } & Way)
  | { readonly kind: 'steps' | 'gap fill' }
  /** More of its moves than not. */
  | { readonly kind: 'mostly'; readonly manner: 'step' | 'leap' }
  /** `move` is a step or a leap; `steps` an interval by its number alone. */
  | {
      readonly kind: 'leap' | 'move';
      readonly up?: boolean;
      readonly interval?: IntervalName;
      readonly steps?: number;
      readonly from?: NoteName;
      readonly to?: NoteName;
    }
  /** The move at its beginning or its end. */
  | {
      readonly kind: 'edge';
      readonly how: 'begins' | 'ends';
      readonly leap: boolean;
      readonly up?: boolean;
      readonly interval?: IntervalName;
      readonly steps?: number;
    }
  /** Down the tetrachord from the tonic to the dominant of a minor key. */
  | { readonly kind: 'lament'; readonly colour?: LamentColour }
  | { readonly kind: 'notes'; readonly notes: readonly NoteName[]; readonly up?: boolean }
  /** By degrees of the key there or of the home key: `3-2-1`, `mi re do`. */
  | { readonly kind: 'degrees'; readonly degrees: readonly DegreeName[] };

const manners = choice<Manner>(
  map(word('by step', 'stepwise', 'in steps'), () => 'step'),
  map(word('chromatically', 'by semitones', 'by half steps', 'by half step'), () => 'chromatic'),
  nothing('any'),
);
const mostly = word('mostly', 'mainly', 'largely', 'predominantly');
const upOrDown = wordsFor<boolean>([
  [true, 'up', 'upward', 'upwards'],
  [false, 'down', 'downward', 'downwards'],
]);
type Size = Pick<Extract<MelodicSays, { readonly kind: 'leap' | 'move' }>, 'interval' | 'steps'>;
const size = choice<Size>(
  map(intervalName, interval => ({ interval })),
  // A unison and an octave have one size that is meant.
  map(intervalNumber, steps =>
    steps % 7 === 0 ? { interval: { steps, semitones: (12 * steps) / 7 } } : { steps },
  ),
);
const aSize = map(sequence(quiet(optional(word('by'))), optional(article), size), ([, , of]) => of);
interface Ends {
  readonly from?: NoteName;
  readonly to?: NoteName;
}
/** `from E5 to B5`. */
const fromTo: Parser<Ends> = map(
  sequence(word('from'), noteName, word('to'), noteName),
  ([, from, , to]) => ({ from, to }),
);
const onTo = word('to', 'and on to', 'and then to', 'then to');
/** A way of two notes or more by its ends and what lies between. */
function wayOf(first: NoteName, others: readonly NoteName[]): Way {
  const to = others.at(-1);
  return {
    from: first,
    ...(others.length > 1 ? { through: others.slice(0, -1) } : {}),
    ...(to === undefined ? {} : { to }),
  };
}
/** `from C# to D to E`. */
const fromOn: Parser<Way> = map(
  sequence(word('from'), noteName, onTo, list(noteName, onTo)),
  ([, first, , others]) => wayOf(first, others),
);
/** From one note, to one note, or by way of others. */
const someWay: Parser<Way> = choice<Way>(
  fromOn,
  map(optional(sequence(word('from'), noteName)), found => (found === undefined ? {} : { from: found[1] })),
  map(sequence(word('to'), noteName), ([, to]) => ({ to })),
);
const direction = (up: boolean): Parser<MelodicSays> =>
  choice(
    map(sequence(manners, someWay), ([manner, way_]): MelodicSays => ({
      kind: 'direction',
      up,
      manner,
      ...way_,
    })),
    map(sequence(word('in'), intervalNumber, someWay), ([, by, way_]): MelodicSays => ({
      kind: 'direction',
      up,
      manner: 'any',
      by,
      ...way_,
    })),
    map(sequence(aSize, optional(fromTo)), ([of, ends]): MelodicSays => ({
      kind: 'move',
      up,
      ...of,
      ...ends,
    })),
    map(word('by leap', 'by leaps', 'in leaps'), (): MelodicSays => ({ kind: 'leap', up })),
  );
const leap: Parser<MelodicSays> = choice(
  map(sequence(optional(upOrDown), optional(aSize), optional(fromTo)), ([up, of, ends]): MelodicSays => ({
    kind: 'leap',
    ...(up === undefined ? {} : { up }),
    ...of,
    ...ends,
  })),
  // `jumps an octave up`.
  map(sequence(aSize, upOrDown, optional(fromTo)), ([of, up, ends]): MelodicSays => ({
    kind: 'leap',
    up,
    ...of,
    ...ends,
  })),
);
const way = wordsFor<boolean>([
  [true, 'rising', 'ascending', 'upward'],
  [false, 'falling', 'descending', 'downward'],
]);
/** `a leap of a sixth`, `a falling leap`. */
export const aLeap: Parser<MelodicSays> = choice(
  map(
    sequence(
      optional(article),
      optional(way),
      word('leap', 'leaps', 'skip', 'skips', 'jump', 'jumps'),
      optional(map(sequence(word('of'), aSize), ([, of]) => of)),
    ),
    ([, up, , of]): MelodicSays => ({ kind: 'leap', ...(up === undefined ? {} : { up }), ...of }),
  ),
  map(sequence(optional(article), way, size), ([, up, of]): MelodicSays => ({ kind: 'move', up, ...of })),
);
const atEdge = (how: 'begins' | 'ends', says: MelodicSays): MelodicSays => {
  if (says.kind !== 'leap' && says.kind !== 'move') return says;
  const { kind, ...move } = says;
  return { ...move, kind: 'edge', how, leap: kind === 'leap' };
};
/** `a lament bass`. */
export const aLament: Parser<MelodicSays> = map(
  sequence(
    quiet(optional(article)),
    optional(
      wordsFor<LamentColour>([
        ['diatonic', 'diatonic'],
        ['chromatic', 'chromatic'],
      ]),
    ),
    word('lament bass', 'lament'),
  ),
  ([, colour]) => (colour === undefined ? { kind: 'lament' } : { kind: 'lament', colour }),
);
const arrow = quiet(
  choice(
    map(mark('-', '–', '→', ','), () => undefined),
    map(word('to'), () => undefined),
    nothing(undefined),
  ),
);
/** `3-2-1`, `mi re do`: two or more. */
const degrees: Parser<MelodicSays> = map(
  sequence(
    quiet(optional(word('scale degrees', 'degrees', 'through', 'through scale degrees'))),
    lineDegree,
    arrow,
    list(lineDegree, arrow),
  ),
  ([, first, , others]) => ({ kind: 'degrees', degrees: [first, ...others] }),
);
const notes: Parser<MelodicSays> = map(list(noteName, arrow), each => ({ kind: 'notes', notes: each }));

/** Two or more: what a line rises through. */
const severalNotes = (up?: boolean): Parser<MelodicSays> =>
  map(
    sequence(quiet(optional(word('through'))), noteName, arrow, list(noteName, arrow)),
    ([, first, , rest]) => ({
      kind: 'notes',
      notes: [first, ...rest],
      ...(up === undefined ? {} : { up }),
    }),
  );
const dash = mark('-', '–', '→');
/** `D# - E - C`: a row, where notes in any order would be a list. */
const rowOfNotes: Parser<MelodicSays> = map(
  sequence(noteName, dash, noteName, dash, list(noteName, dash)),
  ([first, , second, , rest]) => ({ kind: 'notes', notes: [first, second, ...rest] }),
);
/** `from D to B and on to C`. */
const severalFrom: Parser<MelodicSays> = map(
  sequence(word('from'), noteName, onTo, noteName, onTo, list(noteName, onTo)),
  ([, first, , second, , rest]) => ({ kind: 'notes', notes: [first, second, ...rest] }),
);
/** `chromatically from A to B`, `chromatically A - A# - B`. */
const chromaticWay: Parser<MelodicSays> = map(
  sequence(
    word('chromatically', 'by semitones', 'by half steps', 'in semitones', 'in half steps'),
    choice(
      fromOn,
      map(sequence(noteName, dash, list(noteName, dash)), ([first, , others]) => wayOf(first, others)),
    ),
  ),
  ([, way_]) => ({ kind: 'semitones', ...way_ }),
);
/** `down from G to C`. */
const upOrDownFrom: Parser<MelodicSays> = map(sequence(upOrDown, fromTo), ([up, ends]): MelodicSays => ({
  kind: 'direction',
  up,
  manner: 'any',
  ...ends,
}));

function evidenceOf(steps: readonly Step[], role: EvidenceRole, context: ClaimContext): readonly Evidence[] {
  const seen = new Set<number>();
  return steps
    .flatMap(({ from, to, ...step }) => [
      { note: from, why: 'a note of the line' },
      { note: to, why: sayStep({ from, to, ...step }) },
    ])
    .filter(({ note }) => !seen.has(note.id) && seen.add(note.id))
    .slice(0, 16)
    .map(({ note, why }) => noteEvidence(role, note, why, context));
}

const sayLine = (line: Line): string =>
  line.notes
    .slice(0, 16)
    .map(({ note }) => printPitch(note.pitch))
    .join(' ');

const isMove = (
  step: Step,
  { up, interval, steps, from, to }: Size & Ends & { readonly up?: boolean },
): boolean =>
  (from === undefined || isNamed(step.from, from)) &&
  (to === undefined || isNamed(step.to, to)) &&
  (up === undefined || step.up === up) &&
  (interval === undefined || sameInterval(step.size, interval)) &&
  (steps === undefined || step.size.steps === steps);

type DirectionSays = Extract<MelodicSays, { readonly kind: 'direction' }>;

/** Down a third, or the same an octave higher: up a sixth (common practice of basses that fall in thirds). */
const isInRow = ({ up, size }: Step, says: DirectionSays, by: number): boolean =>
  up === says.up ? size.steps === by : size.steps === 7 - by;

const fits = (step: Step, says: DirectionSays): boolean =>
  says.by !== undefined
    ? isInRow(step, says, says.by)
    : step.up === says.up &&
      (says.manner === 'any' || (says.manner === 'step' ? isStep(step) : isSemitone(step)));

function checkEvery(
  line: Line,
  steps: readonly Step[],
  fit: (step: Step) => boolean,
  context: ClaimContext,
): Omit<Finding<Line>, 'instead'> {
  const wrong = steps.find(step => !fit(step));
  return wrong === undefined
    ? {
        verdict: 'holds',
        code: 'C1101',
        reason: `${line.name} goes ${sayLine(line)}`,
        evidence: evidenceOf(steps, 'supports', context),
      }
    : {
        verdict: 'fails',
        code: 'C1102',
        reason: `${line.name} has ${sayStep(wrong)}`,
        evidence: evidenceOf([wrong], 'contradicts', context),
      };
}

const saySize = ({ interval, steps }: Size): string =>
  withArticle(interval === undefined ? printNumber(steps ?? 0).slice(0, -1) : printMove(interval));

const sayEnds = ({ from, through = [], to }: Way): string =>
  (from === undefined ? '' : ` from ${printNoteName(from)}`) +
  through.map(note => ` to ${printNoteName(note)}`).join('') +
  (to === undefined ? '' : ` to ${printNoteName(to)}`);

function describe(says: MelodicSays, form: { readonly plural: boolean; readonly negated: boolean }): string {
  switch (says.kind) {
    case 'direction': {
      const manner = { any: '', step: ' by step', chromatic: ' chromatically' }[says.manner];
      return (
        (says.up ? printVerb('rises', 'rise', form) : printVerb('falls', 'fall', form)) +
        manner +
        (says.by === undefined ? '' : ` in ${printNumber(says.by)}`) +
        sayEnds(says)
      );
    }
    case 'steps':
      return `${printVerb('moves', 'move', form)} by step`;
    case 'semitones':
      return `${printVerb('moves', 'move', form)} chromatically${sayEnds(says)}`;
    case 'mostly':
      return `${printVerb('moves', 'move', form)} mostly by ${says.manner}`;
    case 'gap fill':
      return `${printVerb('fills', 'fill', form)} its leap`;
    case 'edge': {
      const verbs =
        says.how === 'begins' ? printVerb('begins', 'begin', form) : printVerb('ends', 'end', form);
      const direction_ = says.up === undefined ? '' : says.up ? 'rising ' : 'falling ';
      const sized = says.interval !== undefined || says.steps !== undefined;
      if (says.leap)
        return `${verbs} with ${withArticle(`${direction_}leap`)}${sized ? ` of ${saySize(says)}` : ''}`;
      return `${verbs} with ${withArticle(`${direction_}${saySize(says).replace(/^an? /u, '')}`)}`;
    }
    case 'lament':
      return `${printBe(form)} ${withArticle(`${says.colour === undefined ? '' : `${says.colour} `}lament bass`)}`;
    case 'move':
      return says.up === undefined
        ? `${printVerb('moves', 'move', form)}${sayEnds(says)}`
        : `${says.up ? printVerb('rises', 'rise', form) : printVerb('falls', 'fall', form)} ${saySize(says)}${sayEnds(says)}`;
    case 'leap': {
      const where = says.up === undefined ? '' : says.up ? ' up' : ' down';
      return `${printVerb('leaps', 'leap', form)}${where}${says.interval === undefined && says.steps === undefined ? '' : ` ${saySize(says)}`}${sayEnds(says)}`;
    }
    case 'notes':
      return `${says.up === undefined ? printVerb('goes', 'go', form) : says.up ? printVerb('rises through', 'rise through', form) : printVerb('falls through', 'fall through', form)} ${says.notes.map(printNoteName).join(' ')}`;
    case 'degrees':
      return `${printVerb('goes', 'go', form)} ${says.degrees.map(printLineDegree).join(' ')}`;
  }
}

/**
 * One semitone between two letters is a diatonic semitone (common practice: the chromatic one keeps its letter), and no line yet: it is no chromatic
 * motion where both notes belong to the key.
 */
function diatonicSemitone(
  line: Line,
  steps: readonly Step[],
  context: ClaimContext,
): Omit<Finding<Line>, 'instead'> | undefined {
  const [only] = steps;
  if (only === undefined || steps.length > 1 || only.size.steps !== 1) return undefined;
  const native = segmentsIn(context.analysis, line.span.range).flatMap(({ key }) => nativeTones(key));
  const isNative = [only.from, only.to].every(({ pitch }) => native.includes(pitchClassOf(pitch)));
  return {
    verdict: isNative ? 'fails' : 'arguable',
    code: isNative ? 'C1102' : 'C1106',
    reason: `${line.name} has ${sayStep(only)}: a diatonic semitone, from one letter to the next`,
    evidence: evidenceOf([only], isNative ? 'contradicts' : 'set aside', context),
  };
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

/** `moves chromatically from A to B`: up or down, as the notes go. */
function checkWay(
  line: Line,
  steps: readonly Step[],
  { from, through, to }: Way,
  context: ClaimContext,
  make: (says: MelodicSays) => Predicate<Line>,
): Finding<Line> {
  const says = (up: boolean): DirectionSays => ({
    kind: 'direction',
    manner: 'chromatic',
    up,
    ...(from === undefined ? {} : { from }),
    ...(through === undefined ? {} : { through }),
    ...(to === undefined ? {} : { to }),
  });
  const findings = [true, false].map(up => make(says(up)).check(line, context));
  const first = steps[0]?.up === false ? findings[1] : findings[0];
  return (
    findings.find(({ verdict }) => verdict === 'holds') ??
    first ?? { verdict: 'fails', code: 'C1103', reason: `${line.name} does not move`, evidence: [] }
  );
}

/** Whether moves go through notes in that order, whatever lies between them. */
function touches(steps: readonly Step[], notes: readonly NoteName[]): boolean {
  const [next, ...others] = notes;
  if (next === undefined) return true;
  const at = steps.findIndex(({ to }) => isNamed(to, next));
  return at >= 0 && touches(steps.slice(at + 1), others);
}

/** Moves in one direction from one named note to another that are so far apart as is said: `falls a fifth from G to C`, over E. */
function passageOf(
  steps: readonly Step[],
  says: Extract<MelodicSays, { readonly kind: 'leap' | 'move' }>,
): readonly Step[] | undefined {
  const { kind, from, to, up } = says;
  if (kind === 'leap' || from === undefined || to === undefined || up === undefined) return undefined;
  return steps.flatMap((first, at) => {
    const others = steps.slice(at);
    const turn = others.findIndex(step => step.up !== up);
    const run = turn < 0 ? others : others.slice(0, turn);
    const last = run.find(
      step =>
        isNamed(step.to, to) &&
        isMove(
          { from: first.from, to: step.to, up, size: intervalBetween(first.from.pitch, step.to.pitch) },
          says,
        ),
    );
    return last === undefined ? [] : [run.slice(0, run.indexOf(last) + 1)];
  })[0];
}

/** The move with which a voice goes on after a line. */
function stepAfter({ to }: Step, { analysis }: ClaimContext): Step | undefined {
  const end = soundEnd(to, analysis.score);
  const next = analysis.score.notes.find(
    ({ voice, onset, grace }) => voice === to.voice && !grace && compare(end, onset) <= 0,
  );
  return next === undefined ? undefined : stepBetween(to, next);
}

/** A leap of a fourth or more is followed by a step the other way; leaps through a chord (two in one direction) are left out. */
function gapFill(line: Line, steps: readonly Step[], context: ClaimContext): Finding<Line> {
  const leaps = steps.filter((step, at) => {
    const next = steps[at + 1];
    const before = steps[at - 1];
    const inChord = [before, next].some(each => each !== undefined && !isStep(each) && each.up === step.up);
    return step.size.steps >= 3 && !inChord;
  });
  const stepsBack = (step: Step, next: Step | undefined): boolean =>
    next !== undefined && next.up !== step.up && isStep(next);
  const unfilled = leaps.find(step => !stepsBack(step, steps[steps.indexOf(step) + 1]));
  const [first] = leaps;
  if (first === undefined)
    return {
      verdict: 'fails',
      code: 'C1104',
      reason: `${line.name} has no leap of a fourth or more`,
      evidence: [],
    };
  const later =
    unfilled === steps.at(-1) && unfilled !== undefined ? stepAfter(unfilled, context) : undefined;
  if (unfilled !== undefined && stepsBack(unfilled, later))
    return {
      verdict: 'arguable',
      code: 'C1107',
      reason: `${sayStep(unfilled)}; the step back comes after ${line.span.name}`,
      evidence: evidenceOf([unfilled], 'set aside', context),
    };
  return unfilled === undefined
    ? {
        verdict: 'holds',
        code: 'C1101',
        reason: `${sayStep(first)}, then a step back`,
        evidence: evidenceOf(leaps, 'supports', context),
      }
    : {
        verdict: 'fails',
        code: 'C1102',
        reason: `${sayStep(unfilled)}, and no step back`,
        evidence: evidenceOf([unfilled], 'contradicts', context),
      };
}

/** Steps, leaps and direction of a line: claims H2, I1, I2 and I9 of the trade. */
export const melodicFamily = family<Line, MelodicSays>({
  name: 'melodic motion',
  examples: [
    'the bass of bars 1-3 rises by step',
    'the bass of bars 1-5 goes B C# D D# E',
    'the soprano of bar 17 leaps up a diminished fifth',
    'the bass of bars 3-4 rises chromatically',
    'the soprano of bar 17 fills its leap',
  ],
  phrases: [
    [verb('rises', 'rise'), direction(true)],
    [verb('ascends', 'ascend'), direction(true)],
    [verb('falls', 'fall'), direction(false)],
    [verb('descends', 'descend'), direction(false)],
    [verb('drops', 'drop'), direction(false)],
    [
      verb('moves', 'move'),
      map(word('by step', 'only by step', 'stepwise', 'in steps', 'in stepwise motion'), (): MelodicSays => ({
        kind: 'steps',
      })),
    ],
    [verb('climbs', 'climb'), direction(true)],
    [be, map(word('conjunct', 'stepwise'), (): MelodicSays => ({ kind: 'steps' }))],
    [be, map(word('disjunct'), (): MelodicSays => ({ kind: 'mostly', manner: 'leap' }))],
    [
      verb('moves', 'move'),
      choice(
        map(sequence(mostly, word('by step', 'stepwise', 'in steps')), (): MelodicSays => ({
          kind: 'mostly',
          manner: 'step',
        })),
        map(sequence(mostly, word('by leap', 'in leaps', 'by leaps')), (): MelodicSays => ({
          kind: 'mostly',
          manner: 'leap',
        })),
      ),
    ],
    [
      be,
      map(sequence(mostly, word('conjunct', 'stepwise')), (): MelodicSays => ({
        kind: 'mostly',
        manner: 'step',
      })),
    ],
    [
      verb('moves', 'move'),
      map(
        word(
          'chromatically',
          'by half steps',
          'by half step',
          'by semitones',
          'by semitone',
          'in half steps',
          'in semitones',
        ),
        (): MelodicSays => ({ kind: 'semitones' }),
      ),
    ],
    [be, severalNotes()],
    [verb('leaps', 'leap'), leap],
    [verb('jumps', 'jump'), leap],
    [verb('skips', 'skip'), leap],
    [have, aLeap],
    [verb('makes', 'make'), aLeap],
    [haveNo, aLeap],
    ...(
      [
        ['begins', 'begin', 'begins'],
        ['starts', 'start', 'begins'],
        ['ends', 'end', 'ends'],
        ['closes', 'close', 'ends'],
      ] as const
    ).map(
      ([singular, plural, how]) =>
        [verb(`${singular} with`, `${plural} with`), map(aLeap, says => atEdge(how, says))] as const,
    ),
    [be, aLament],
    [have, aLament],
    [verb('moves', 'move'), map(fromTo, (ends): MelodicSays => ({ kind: 'move', ...ends }))],
    [verb('moves', 'move'), chromaticWay],
    [verb('moves', 'move'), severalFrom],
    [verb('goes', 'go'), severalFrom],
    [verb('moves', 'move'), severalNotes()],
    [have, rowOfNotes],
    [verb('goes', 'go'), map(fromTo, (ends): MelodicSays => ({ kind: 'move', ...ends }))],
    [verb('runs', 'run'), upOrDownFrom],
    [verb('moves', 'move'), upOrDownFrom],
    ...(
      [
        ['rises', 'rise', true],
        ['ascends', 'ascend', true],
        ['climbs', 'climb', true],
        ['falls', 'fall', false],
        ['descends', 'descend', false],
      ] as const
    ).map(([singular, plural, up]) => [verb(singular, plural), severalNotes(up)] as const),
    [verb('goes', 'go'), notes],
    [verb('goes', 'go'), degrees],
    [verb('moves', 'move'), degrees],
    [verb('sings', 'sing'), degrees],
    [be, degrees],
    [
      verb('fills', 'fill'),
      map(word('its leap', 'the leap', 'its leaps', 'in its leap', 'in the leap'), (): MelodicSays => ({
        kind: 'gap fill',
      })),
    ],
  ],
  print: describe,
  check: (line, says, context, make): Finding<Line> => {
    const steps = stepsOf(line);
    if (line.notes.length === 0)
      return {
        verdict: 'undecided',
        code: 'C0005',
        reason: `nothing sounds in ${line.name}`,
        evidence: [],
        pointless: true,
      };
    if (says.kind === 'notes' || says.kind === 'degrees') {
      const all = line.notes.map(({ note }) => note);
      const sounding = all.filter(
        (note, at) =>
          at === 0 ||
          midiOf(note.pitch) !== midiOf(all[at - 1]?.pitch ?? note.pitch) ||
          note.pitch.letter !== all[at - 1]?.pitch.letter,
      );
      const wanted = says.kind === 'notes' ? says.notes : says.degrees;
      const keys = [segmentsIn(context.analysis, line.span.range)[0]?.key ?? context.home, context.home];
      const fitsIn = (key: Key, row: readonly Note[]): boolean =>
        row.length === wanted.length &&
        wanted.every((name, at) => {
          const note = row[at];
          if (note === undefined) return false;
          return 'kind' in name ? toneOfDegree(name, key) === pitchClassOf(note.pitch) : isNamed(note, name);
        });
      const names = sounding.map((note): NoteName => ({ pitchClass: pitchClassOf(note.pitch) }));
      // A note that is struck again may be said once or each time.
      const turn =
        says.kind === 'notes' && says.up !== undefined ? steps.find(step => step.up !== says.up) : undefined;
      if (turn === undefined && keys.some(key => fitsIn(key, sounding) || fitsIn(key, all)))
        return {
          verdict: 'holds',
          code: 'C1101',
          reason: `${line.name} goes ${sayLine(line)}`,
          evidence: sounding
            .slice(0, 16)
            .map(note => noteEvidence('supports', note, 'a note of the line', context)),
        };
      return {
        verdict: 'fails',
        code: 'C1102',
        reason: `${line.name} goes ${sayLine(line)}`,
        evidence: sounding
          .slice(0, 16)
          .map(note => noteEvidence('contradicts', note, 'a note of the line', context)),
        instead: () => [make({ kind: 'notes', notes: names })],
      };
    }
    if (says.kind === 'lament') return checkLament(line, says.colour, context);
    if (steps.length === 0)
      return {
        verdict: 'fails',
        code: 'C1103',
        reason: `${line.name} does not move: ${sayLine(line)}`,
        evidence: evidenceOf([], 'contradicts', context),
      };
    const instead = () =>
      [true, false].flatMap(up =>
        (['chromatic', 'step', 'any'] as const).map(manner => make({ kind: 'direction', up, manner })),
      );
    switch (says.kind) {
      case 'direction': {
        const within = stretchOf(line, steps, says);
        if (within !== undefined)
          return {
            verdict: 'holds',
            code: 'C1101',
            reason: `${line.name} has ${within.map(sayStep).join(', then ')}`,
            evidence: evidenceOf(within, 'supports', context),
          };
        if (says.through !== undefined)
          return {
            verdict: 'fails',
            code: 'C1102',
            reason: `${line.name} goes ${sayLine(line)}`,
            evidence: evidenceOf(steps, 'contradicts', context),
          };
        const ends = [line.notes[0], line.notes.at(-1)];
        const wrong = [says.from, says.to].findIndex((name, at) => {
          const note = ends[at]?.note;
          return name !== undefined && (note === undefined || !isNamed(note, name));
        });
        const [first, last] = ends;
        if (wrong >= 0 && first !== undefined && last !== undefined)
          return {
            verdict: 'fails',
            code: 'C1102',
            reason: `${line.name} goes from ${printPitch(first.note.pitch)} to ${printPitch(last.note.pitch)}`,
            evidence: [first, last].map(({ note }) =>
              noteEvidence(
                'contradicts',
                note,
                note === first.note ? 'its first note' : 'its last note',
                context,
              ),
            ),
            instead: () => [
              make({
                ...says,
                ...(says.from === undefined ? {} : { from: { pitchClass: pitchClassOf(first.note.pitch) } }),
                ...(says.to === undefined ? {} : { to: { pitchClass: pitchClassOf(last.note.pitch) } }),
              }),
            ],
          };
        const finding = checkEvery(line, steps, step => fits(step, says), context);
        const single = says.manner === 'chromatic' ? diatonicSemitone(line, steps, context) : undefined;
        return { ...(finding.verdict === 'holds' ? (single ?? finding) : finding), instead };
      }
      case 'semitones': {
        if (says.from !== undefined) return checkWay(line, steps, says, context, make);
        const finding = checkEvery(line, steps, isSemitone, context);
        const single = diatonicSemitone(line, steps, context);
        return { ...(finding.verdict === 'holds' ? (single ?? finding) : finding), instead };
      }
      case 'gap fill':
        return gapFill(line, steps, context);
      case 'mostly': {
        const fitting = steps.filter(step => isStep(step) === (says.manner === 'step'));
        const holds = 2 * fitting.length > steps.length;
        return {
          verdict: holds ? 'holds' : 'fails',
          code: holds ? 'C1101' : 'C1102',
          reason: `${String(fitting.length)} of ${String(steps.length)} moves of ${line.name} are ${says.manner === 'step' ? 'steps' : 'leaps'}`,
          evidence: evidenceOf(
            holds ? fitting : steps.filter(step => !fitting.includes(step)),
            holds ? 'supports' : 'contradicts',
            context,
          ),
          instead: () => [make({ kind: 'mostly', manner: says.manner === 'step' ? 'leap' : 'step' })],
        };
      }
      case 'steps':
        return { ...checkEvery(line, steps, isStep, context), instead: () => [make({ kind: 'leap' })] };
      case 'edge': {
        const move = says.how === 'begins' ? steps[0] : steps.at(-1);
        const holds = move !== undefined && isMove(move, says) && !(says.leap && isStep(move));
        return {
          verdict: holds ? 'holds' : 'fails',
          code: holds ? 'C1101' : 'C1102',
          reason: move === undefined ? '' : `${line.name} ${says.how} with ${sayStep(move)}`,
          evidence: evidenceOf(move === undefined ? [] : [move], holds ? 'supports' : 'contradicts', context),
          instead: () =>
            move === undefined
              ? []
              : [make({ kind: 'edge', how: says.how, leap: false, up: move.up, interval: move.size })],
        };
      }
      case 'move':
      case 'leap': {
        const leaps = says.kind === 'move' ? steps : steps.filter(step => !isStep(step));
        const matching = leaps.filter(step => isMove(step, says));
        const through = passageOf(steps, says);
        if (matching.length === 0 && through !== undefined)
          return {
            verdict: 'holds',
            code: 'C1101',
            reason: `${line.name} has ${through.map(sayStep).join(', then ')}`,
            evidence: evidenceOf(through, 'supports', context),
          };
        const [opens, closes] = [line.notes[0]?.note, line.notes.at(-1)?.note];
        // `moves from D to E flat`: at once, or from its first note to its last.
        if (
          matching.length === 0 &&
          says.kind === 'move' &&
          says.up === undefined &&
          opens !== undefined &&
          closes !== undefined &&
          says.from !== undefined &&
          says.to !== undefined &&
          isNamed(opens, says.from) &&
          isNamed(closes, says.to)
        )
          return {
            verdict: 'holds',
            code: 'C1101',
            reason: `${line.name} goes ${sayLine(line)}`,
            evidence: [opens, closes].map(note =>
              noteEvidence('supports', note, 'a note of the line', context),
            ),
          };
        const [first] = matching;
        if (first !== undefined)
          return {
            verdict: 'holds',
            code: 'C1101',
            reason: `${line.name} has ${sayStep(first)}`,
            evidence: evidenceOf(matching, 'supports', context),
          };
        const [other] = leaps;
        return {
          verdict: 'fails',
          code: other === undefined ? 'C1104' : 'C1102',
          reason:
            other === undefined
              ? `${line.name} moves by step: ${sayLine(line)}`
              : `${line.name} has ${sayStep(other)}`,
          evidence: evidenceOf(other === undefined ? steps : leaps, 'contradicts', context),
          instead: () => [
            ...(says.from === undefined
              ? []
              : leaps.flatMap(step => [
                  make({
                    ...says,
                    from: { pitchClass: pitchClassOf(step.from.pitch) },
                    to: { pitchClass: pitchClassOf(step.to.pitch) },
                  }),
                ])),
            ...leaps.map(step => make({ kind: says.kind, up: step.up, interval: step.size })),
            make({ kind: 'steps' }),
          ],
        };
      }
    }
  },
});
