import {
  add,
  compare,
  fraction,
  greatest,
  isBefore,
  one,
  pitchClassOf,
  printPitchClass,
  subtract,
  zero,
} from '../score/index.js';
import type { Fraction, Note, PitchClass } from '../score/index.js';
import { closureOf, sopranoNotes } from './cadence-signs.js';
import { chord } from './chord.js';
import { supportFor } from './judge-chord.js';
import type { CadenceQuestion, Judgement, Witness } from './judgement.js';
import { degreeTone, leadingTone, printKey } from './key.js';
import { heardIn } from './analyse.js';
import type { Analysis, CadenceKind, ChordQuality, Key } from './model.js';
import { momentAt } from './hearing.js';
import { beatLength } from './moments.js';
import { allowRespelling, respelledKey } from './respelling.js';
import { segmentAt } from './segment-at.js';
import { ticksOf } from './sound.js';

/** A chord that is behind the best reading by no more than this can be the member of a cadence. */
const memberBorder = 1;
/**
 * From this much closure on a formula is heard as the end of a phrase: little is asked where the claim points at the beat, more where
 * it only names a bar, since V and I follow each other in the middle of phrases too.
 */
const closureBorder = { moment: 0.3, span: 0.65 } as const;

type Member = readonly [root: PitchClass, quality: ChordQuality, bass?: PitchClass];

interface Formula {
  readonly before: readonly Member[];
  readonly arrival: readonly Member[];
}

/** The two chords of each cadence (Hutchinson, Cadences; Open Music Theory, Cadence Types). */
function formulaOf(kind: CadenceKind, key: Key): Formula {
  const { tonic, mode } = key;
  const dominant = degreeTone(key, 5);
  const leading = degreeTone(key, 7, mode === 'minor' ? 1 : 0);
  const dominants: readonly Member[] = [
    [dominant, 'dominant seventh'],
    [dominant, 'major'],
  ];
  const rooted = dominants.map(([root, quality]): Member => [root, quality, dominant]);
  const leadingTone: readonly Member[] = [
    [leading, 'diminished'],
    [leading, 'diminished seventh'],
    [leading, 'half-diminished seventh'],
  ];
  const tonics: readonly Member[] = [
    [tonic, mode],
    [tonic, 'major'],
  ];
  const sixth = degreeTone(key, 6);
  const fourth = degreeTone(key, 4);
  switch (kind) {
    case 'perfect authentic':
      return { before: rooted, arrival: tonics.map(([root, quality]): Member => [root, quality, tonic]) };
    case 'imperfect authentic':
      return { before: [...dominants, ...leadingTone], arrival: tonics };
    case 'half':
      return { before: [], arrival: rooted };
    case 'deceptive':
      return {
        before: dominants,
        arrival: [
          [sixth, mode === 'major' ? 'minor' : 'major'],
          [degreeTone({ tonic, mode: 'minor' }, 6), 'major'],
          [fourth, mode, sixth],
        ],
      };
    case 'evaded':
      return {
        before: dominants,
        arrival: [
          [tonic, mode, degreeTone(key, 3)],
          [tonic, 'dominant seventh'],
          [dominant, 'dominant seventh', fourth],
          [sixth, mode === 'major' ? 'minor' : 'major'],
        ],
      };
    case 'plagal':
      return {
        before: [
          [fourth, mode],
          [fourth, 'minor'],
          [fourth, 'major'],
        ],
        arrival: tonics,
      };
  }
}

function fits(
  analysis: Analysis,
  start: Fraction,
  end: Fraction,
  members: readonly Member[],
  key: Key,
): boolean {
  if (!isBefore(start, end)) return false;
  return members.some(([root, quality, bass]) => {
    const { behind, bassFits } = supportFor(analysis, {
      start,
      end,
      tones: chord(root, quality).tones,
      key,
      ...(bass === undefined ? {} : { bass }),
    });
    return behind <= memberBorder && bassFits;
  });
}

/** Onsets in the question's span at which a chord of arrival can stand: beats with something struck; for a moment, the moment itself. */
function arrivalsIn(analysis: Analysis, question: CadenceQuestion): readonly Fraction[] {
  const { sound, lattice } = heardIn(analysis);
  const start = ticksOf(question.start, sound.ticksPerWhole);
  const end = ticksOf(question.end, sound.ticksPerWhole);
  if (end <= start) return [question.start];
  return lattice.moments
    .slice(momentAt(lattice.moments, start))
    .filter(
      moment => moment.start >= start && moment.start < end && moment.struck.length > 0 && moment.level <= 2,
    )
    .slice(0, 32)
    .map(moment => fraction(moment.start, sound.ticksPerWhole));
}

function barOf(analysis: Analysis, onset: Fraction): { readonly beat: Fraction; readonly bar: Fraction } {
  const bar = analysis.score.bars.findLast(candidate => compare(candidate.start, onset) <= 0);
  if (bar === undefined) return { beat: fraction(1, 4), bar: one };
  return {
    beat: fraction(Math.round(beatLength(bar.meter) * bar.meter.unit), bar.meter.unit),
    bar: bar.meter.length,
  };
}

/** Whether the leading tone, the third of V, sounds within a bar: over a six-four alone it does not. */
function thirdFollows(analysis: Analysis, onset: Fraction, bar: Fraction, key: Key): boolean {
  const end = add(onset, bar);
  return analysis.score.notes.some(
    note =>
      pitchClassOf(note.pitch) === leadingTone(key) &&
      compare(note.onset, onset) >= 0 &&
      isBefore(note.onset, end),
  );
}

interface Found {
  readonly onset: Fraction;
  readonly formula: boolean;
  readonly soprano: Note | undefined;
  readonly sopranoOnTonic: boolean;
  readonly closure: number;
}

/**
 * Looks for the two chords of a cadence at an onset. `complete` asks the arrival for its third: where only a bar is named, a six-four on the
 * dominant's bass is not yet the half cadence; where a beat is named, the six-four and its resolution count as one dominant (OMT).
 */
function look(analysis: Analysis, onset: Fraction, kind: CadenceKind, key: Key, complete = false): Found {
  const { beat, bar } = barOf(analysis, onset);
  const { before, arrival } = formulaOf(kind, key);
  const after = [add(onset, beat), add(onset, { n: beat.n, d: beat.d * 2 })];
  const arrives =
    after.some(end => fits(analysis, onset, end, arrival, key)) &&
    (!complete || thirdFollows(analysis, onset, bar, key));
  const earlier = [beat, add(beat, beat), { n: beat.n, d: beat.d * 2 }].map(back =>
    greatest(zero, subtract(onset, back)),
  );
  const prepared =
    before.length === 0
      ? !fits(analysis, earlier[0] ?? zero, onset, arrival, key)
      : earlier.some(start => fits(analysis, start, onset, before, key));
  const soprano = sopranoNotes(heardIn(analysis), onset, beat);
  const sopranoOnTonic = soprano.some(note => pitchClassOf(note.pitch) === key.tonic);
  return {
    onset,
    formula: arrives && prepared,
    soprano: soprano[0],
    sopranoOnTonic,
    closure: closureOf(heardIn(analysis), analysis.segments, onset),
  };
}

const kinds: readonly CadenceKind[] = [
  'perfect authentic',
  'imperfect authentic',
  'half',
  'deceptive',
  'plagal',
  'evaded',
];

const holdsAs = (found: Found, kind: CadenceKind): boolean =>
  found.formula && (kind !== 'perfect authentic' || found.sopranoOnTonic);

/** What cadence stands at an onset in a key, if any: the strictest that fits. `complete` as in `look`. */
export function cadenceKindAt(
  analysis: Analysis,
  onset: Fraction,
  key: Key,
  complete = false,
): { readonly kind: CadenceKind; readonly closure: number } | undefined {
  for (const kind of kinds) {
    const found = look(analysis, onset, kind, key, complete && kind === 'half');
    if (holdsAs(found, kind) && found.closure >= closureBorder.moment)
      return { kind, closure: found.closure };
  }
  return undefined;
}

/**
 * Judges whether a cadence of a kind arrives in a span (or at a moment): the chords before and at the arrival, the bass, the soprano, and
 * whether something closes there. A perfect authentic cadence needs both chords in root position and the tonic in the soprano.
 */
export function judgeCadence(analysis: Analysis, question: CadenceQuestion): Judgement {
  const { key } = question;
  const judgement = judgeAsSpelled(analysis, question);
  return key === undefined
    ? judgement
    : allowRespelling(judgement, key, shift =>
        judgeAsSpelled(analysis, { ...question, key: respelledKey(key, shift) }),
      );
}

function judgeAsSpelled(analysis: Analysis, question: CadenceQuestion): Judgement {
  const key = question.key ?? segmentAt(analysis, question.start)?.key;
  if (key === undefined) return { outcome: 'open', reason: 'nothing sounds there', witnesses: [] };
  const wanted: readonly CadenceKind[] =
    question.kind === 'authentic' ? ['perfect authentic', 'imperfect authentic'] : [question.kind];
  const isSpan = compare(question.start, question.end) !== 0;
  const found = arrivalsIn(analysis, question).flatMap(onset =>
    wanted.map(kind => ({ kind, ...look(analysis, onset, kind, key, kind === 'half' && isSpan) })),
  );
  const best = found
    .filter(candidate => holdsAs(candidate, candidate.kind))
    .reduce<(typeof found)[number] | undefined>(
      (a, b) => (a === undefined || b.closure > a.closure ? b : a),
      undefined,
    );
  const witnesses = (candidate: Found | undefined): readonly Witness[] =>
    candidate?.soprano === undefined
      ? []
      : [
          {
            role: candidate.sopranoOnTonic ? 'supports' : 'set aside',
            note: candidate.soprano.id,
            why: 'soprano at the arrival',
          },
        ];
  const inKey = printKey(key);
  if (best !== undefined) {
    const isPerfect =
      best.kind === 'imperfect authentic' &&
      holdsAs(look(analysis, best.onset, 'perfect authentic', key), 'perfect authentic');
    if (isPerfect && question.kind === 'imperfect authentic') {
      return {
        outcome: 'contradicted',
        reason: `V and I of ${inKey} stand in root position and the soprano closes on the tonic: that is a perfect authentic cadence`,
        witnesses: witnesses(best),
      };
    }
    const border = isSpan ? closureBorder.span : closureBorder.moment;
    if (best.closure >= border)
      return { outcome: 'supported', reason: describe(best.kind, inKey), witnesses: witnesses(best) };
    return {
      outcome: 'rivalled',
      reason: `${describe(best.kind, inKey)}, but nothing marks the end of a phrase there`,
      witnesses: witnesses(best),
    };
  }
  const [first] = found;
  const formula = found.find(candidate => candidate.formula);
  if (formula !== undefined && formula.soprano !== undefined) {
    return {
      outcome: 'contradicted',
      reason: `the soprano arrives on ${printPitchClass(pitchClassOf(formula.soprano.pitch))}, not on the tonic ${printPitchClass(key.tonic)}`,
      witnesses: witnesses(formula),
    };
  }
  const other = found.flatMap(({ onset }) => {
    const there = cadenceKindAt(analysis, onset, key, isSpan);
    return there === undefined ? [] : [there.kind];
  })[0];
  return {
    outcome: 'contradicted',
    reason:
      other === undefined
        ? `the chords of ${article(question.kind)} cadence in ${inKey} are not there`
        : `the chords there make ${article(other)} cadence in ${inKey}`,
    witnesses: witnesses(first),
  };
}

const article = (kind: string): string => `${/^[aeiou]/.test(kind) ? 'an' : 'a'} ${kind}`;

function describe(kind: CadenceKind, inKey: string): string {
  switch (kind) {
    case 'perfect authentic':
      return `V and I of ${inKey} in root position, the soprano on the tonic`;
    case 'imperfect authentic':
      return `a dominant of ${inKey} moves to its tonic, not with both in root position and the soprano on the tonic`;
    case 'half':
      return `the phrase stops on V of ${inKey} in root position`;
    case 'deceptive':
      return `V of ${inKey} moves to another chord than the tonic`;
    case 'plagal':
      return `IV of ${inKey} moves to I`;
    case 'evaded':
      return `V of ${inKey} is due to close, but the line is led on`;
  }
}
