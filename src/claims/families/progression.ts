import { article, chordSymbol, isAugmentedSixth } from '../terms/chord-name.js';
import type { PitchClass } from '../../score/index.js';
import {
  chord,
  inversionOf,
  isUnread,
  parseRomanNumeral,
  printChord,
  printKey,
  printRomanNumeral,
  realize,
} from '../../harmony/index.js';
import type { Chord, ChordQuality, Key, RomanNumeral, Segment } from '../../harmony/index.js';
import { printPitchClass } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, list, map, mark, nothing, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Evidence, EvidenceRole } from '../model.js';
import { harmoniesOf } from '../subjects/harmonies.js';
import type { Harmony } from '../subjects/harmonies.js';
import type { Span } from '../subjects/span.js';
import { inKeyReference, printKeyReference, withKeyMeant } from '../terms/key-reference.js';
import type { KeyRef } from '../terms/key-reference.js';
import { numeralToken } from '../terms/numeral.js';
import { be, have, printVerb, verb } from '../terms/verb.js';
import { silence } from './judged.js';
import { numeralIn, segmentsIn } from '../segments.js';

/** The order of the chords of a place: named one by one, or falling by fifths. */
export type ProgressionSays =
  | { readonly kind: 'numerals'; readonly numerals: readonly RomanNumeral[]; readonly key?: KeyRef }
  | { readonly kind: 'chords'; readonly chords: readonly ChordSays[] }
  | { readonly kind: 'fifths' }
  /** Each chord is the dominant of the next. */
  | { readonly kind: 'dominants' };

interface ChordSays {
  readonly root: PitchClass;
  readonly quality: ChordQuality;
}

const arrow = quiet(
  choice(
    map(mark('-', '–', '→', ','), () => undefined),
    map(word('to', 'then'), () => undefined),
    nothing(undefined),
  ),
);
const numerals: Parser<ProgressionSays> = map(
  sequence(quiet(optional(word('from', 'the progression'))), list(numeralToken, arrow), inKeyReference),
  ([, read, key]) =>
    key === undefined ? { kind: 'numerals', numerals: read } : { kind: 'numerals', numerals: read, key },
);
const chords: Parser<ProgressionSays> = map(
  sequence(quiet(optional(word('from'))), chordSymbol, arrow, list(chordSymbol, arrow)),
  ([, first, , others]) => ({
    kind: 'chords',
    chords: [first, ...others].map(({ root, quality }) => ({ root, quality })),
  }),
);
const progression = choice(numerals, chords);
const byFifths: Parser<ProgressionSays> = map(
  choice(
    sequence(word('by', 'in'), optional(word('falling', 'descending')), word('fifths', 'fifth')),
    sequence(
      word('round', 'around', 'through', 'along'),
      quiet(optional(word('the'))),
      word('circle of fifths'),
    ),
  ),
  () => ({ kind: 'fifths' }),
);

const chainOfDominants: Parser<ProgressionSays> = map(
  sequence(
    quiet(optional(article)),
    word('chain of', 'series of', 'string of', 'succession of'),
    quiet(optional(word('secondary', 'applied'))),
    word('dominants', 'dominant sevenths'),
  ),
  () => ({ kind: 'dominants' }),
);
/** A major triad or a dominant seventh or ninth, as a dominant is. */
const canBeDominant = ({ quality }: Chord): boolean => quality === 'major' || quality.startsWith('dominant');

const bassOf = (
  segment: Segment,
  role: EvidenceRole,
  why: string,
  context: ClaimContext,
): readonly Evidence[] => {
  const [id] = segment.chordTones;
  const note = id === undefined ? undefined : context.analysis.score.notes[id];
  return note === undefined ? [] : [noteEvidence(role, note, why, context)];
};

/** Whether a harmony is the one that a numeral names: root and tones, and the bass where the numeral is inverted. A plain V may be V7. */
export function isNumeral(harmony: Harmony, of: RomanNumeral, key: Key, context: ClaimContext): boolean {
  const wanted = realize(of, key, context.conventions['seventh-on-I']);
  const hasSeventh = wanted.tones.length > 3;
  return harmony.segments.some(
    ({ chord }) =>
      chord.root === wanted.root &&
      wanted.tones.slice(0, hasSeventh ? undefined : 3).every(tone => chord.tones.includes(tone)) &&
      (inversionOf(of) === 0 || chord.inversion === wanted.inversion),
  );
}

const inOneKey = ({ segments: [first] }: Harmony, key: Key): string => numeralIn(first, key);

function readAs(harmonies: readonly Harmony[], key: Key): readonly RomanNumeral[] | undefined {
  const read = harmonies.map(harmony => parseRomanNumeral(inOneKey(harmony, key)));
  const numeralsRead = read.flatMap(each => (isUnread(each) ? [] : [each]));
  return numeralsRead.length === read.length ? numeralsRead : undefined;
}

const circle = sequence(word('circle of fifths'), optional(word('progression', 'sequence')));

/** Whether a harmony is a chord by its name, in any inversion; a plain triad may have its seventh. */
const isChord = (harmony: Harmony, of: ChordSays): boolean => {
  const { tones } = chord(of.root, of.quality);
  return harmony.segments.some(
    segment => segment.chord.root === of.root && tones.every(tone => segment.chord.tones.includes(tone)),
  );
};

/** Whether numerals name harmonies in their order: each once, or each of its inversions (`III6 III`) and what comes late in it (`V V7`). */
function namesAll(
  named: readonly RomanNumeral[],
  harmonies: readonly Harmony[],
  key: Key,
  context: ClaimContext,
): boolean {
  const [first, ...rest] = harmonies;
  if (first === undefined) return named.length === 0;
  const [of] = named;
  if (of === undefined) return false;
  if (isNumeral(first, of, key, context) && namesAll(named.slice(1), rest, key, context)) return true;
  const { segments } = first;
  return (
    segments.length > 1 &&
    segments.every((segment, at) => {
      const own = named[at];
      return own !== undefined && isNumeral({ ...first, segments: [segment] }, own, key, context);
    }) &&
    namesAll(named.slice(segments.length), rest, key, context)
  );
}

/** Chords in their order, falling fifths: claim E2 of the trade. */
export const progressionFamily = family<Span, ProgressionSays>({
  name: 'progression',
  examples: [
    'bars 5-7 form a chain of dominants',
    'bars 17-20 go V7/iv iv V7/III III',
    'bars 13-16 go ii V I in D major',
    'bars 17-20 go by falling fifths',
  ],
  phrases: [
    [verb('goes', 'go'), progression],
    [verb('moves', 'move'), progression],
    [have, map(sequence(word('the progression', 'the chords'), progression), ([, says]) => says)],
    [be, progression],
    [verb('goes', 'go'), byFifths],
    [verb('moves', 'move'), byFifths],
    [verb('falls', 'fall'), byFifths],
    [
      verb('follows', 'follow'),
      map(sequence(word('the', 'a'), circle), (): ProgressionSays => ({ kind: 'fifths' })),
    ],
    [be, map(sequence(word('the', 'a'), circle), (): ProgressionSays => ({ kind: 'fifths' }))],
    [be, chainOfDominants],
    [have, chainOfDominants],
    [verb('forms', 'form'), chainOfDominants],
  ],
  aspects: [
    [word('progression', 'chords', 'harmonies', 'numerals'), be, progression],
    [word('progression', 'chords', 'harmonies'), verb('goes', 'go'), progression],
    [word('roots', 'chords', 'harmonies'), verb('falls', 'fall'), byFifths],
    [word('roots', 'chords', 'harmonies'), verb('moves', 'move'), byFifths],
  ],
  print: (says, form) => {
    const goes = printVerb('goes', 'go', form);
    if (says.kind === 'fifths') return `${goes} by falling fifths`;
    if (says.kind === 'dominants') return `${printVerb('forms', 'form', form)} a chain of dominants`;
    if (says.kind === 'chords')
      return `${goes} ${says.chords.map(each => printChord(chord(each.root, each.quality))).join(' ')}`;
    const key = says.key === undefined ? '' : ` in ${printKeyReference(says.key)}`;
    return `${goes} ${says.numerals.map(printRomanNumeral).join(' ')}${key}`;
  },
  check: (span, says, context, make): Finding<Span> => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const harmonies = harmoniesOf(segmentsIn(context.analysis, span.range));
    const evidence = (role: EvidenceRole): readonly Evidence[] =>
      harmonies.flatMap(({ segments: [first] }) =>
        bassOf(first, role, `${first.roman} in ${printKey(first.key)}`, context),
      );
    if (says.kind === 'fifths') {
      const roots = harmonies.map(({ segments: [first] }) => first.chord.root);
      const steps = roots.slice(1).map((root, at) => root - (roots[at] ?? root));
      // Down a fifth is one step back on the line of fifths; the diminished fifth IV-vii of a diatonic circle is six steps up.
      const wrong = steps.findIndex(step => step !== -1 && step !== 6);
      const names = roots.map(printPitchClass).join(' ');
      if (wrong < 0 && steps.length > 0 && steps.filter(step => step === 6).length <= 1)
        return {
          verdict: 'holds',
          code: 'C0901',
          reason: `the roots fall by fifths: ${names}`,
          evidence: evidence('supports'),
        };
      return {
        verdict: steps.length === 0 ? 'undecided' : 'fails',
        code: 'C0902',
        reason: steps.length === 0 ? `there is only one chord in ${span.name}` : `the roots are ${names}`,
        evidence: evidence('contradicts'),
        instead: () => {
          const read = readAs(harmonies, context.home);
          return read === undefined ? [] : [make({ kind: 'numerals', numerals: read })];
        },
      };
    }
    if (says.kind === 'dominants') {
      const before = harmonies.slice(0, -1);
      const goal = harmonies.at(-1);
      const broken = before.find(({ segments: [first, ...others] }, at) => {
        const next = before[at + 1] ?? goal;
        return (
          ![first, ...others].some(({ chord: of }) => canBeDominant(of)) ||
          next?.segments[0].chord.root !== first.chord.root - 1
        );
      });
      // One dominant is no chain: two before their goal, or one before another that is still open.
      const isOpen = goal?.segments.some(each => each.function === 'dominant') === true;
      const holds = broken === undefined && before.length + (isOpen ? 1 : 0) >= 2;
      const names = harmonies.map(harmony => inOneKey(harmony, context.home)).join(' ');
      return {
        verdict: holds ? 'holds' : 'fails',
        code: holds ? 'C0901' : 'C0902',
        reason:
          broken === undefined
            ? `the chords are ${names}`
            : `the chords are ${names}; ${inOneKey(broken, context.home)} is no dominant of the chord that follows`,
        evidence: evidence(holds ? 'supports' : 'contradicts'),
        instead: () => [make({ kind: 'fifths' })],
      };
    }
    if (says.kind === 'chords') {
      const own = harmonies.map(({ segments: [first] }) => ({ ...first.chord, inversion: 0 }));
      const holds =
        own.length === says.chords.length &&
        says.chords.every((of, at) => {
          const harmony = harmonies[at];
          return harmony !== undefined && isChord(harmony, of);
        });
      const symbols = own.filter(({ quality }) => !isAugmentedSixth(quality));
      return {
        verdict: holds ? 'holds' : 'fails',
        code: holds ? 'C0901' : 'C0902',
        reason: `the chords are ${own.map(printChord).join(' ')}`,
        evidence: evidence(holds ? 'supports' : 'contradicts'),
        instead: () =>
          symbols.length < own.length || own.length < 2
            ? []
            : [make({ kind: 'chords', chords: own.map(({ root, quality }) => ({ root, quality })) })],
      };
    }
    const key = withKeyMeant(says, context.home).key ?? context.home;
    const read = harmonies.map(harmony => inOneKey(harmony, key)).join(' ');
    if (namesAll(says.numerals, harmonies, key, context))
      return {
        verdict: 'holds',
        code: 'C0901',
        reason: `the chords are ${read}`,
        evidence: evidence('supports'),
      };
    return {
      verdict: 'fails',
      code: 'C0902',
      reason: `the chords are ${read}`,
      evidence: evidence('contradicts'),
      instead: () => {
        const numeralsRead = readAs(harmonies, key);
        return numeralsRead === undefined ? [] : [make({ ...says, numerals: numeralsRead })];
      },
    };
  },
});
