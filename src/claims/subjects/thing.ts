import { namedChordAfterThe, namedChordFamily } from '../families/named-chord.js';
import { aChord, nameOfChord } from '../families/chord-within.js';
import { foreignNotes, nativeNotesFamily } from '../families/native-notes.js';
import { misfit, onceSuspended, tonesIn } from '../families/non-chord-tone.js';
import { nameOf, nonChordTone } from '../terms/non-chord-tone.js';
import type { NonChordToneSays } from '../terms/non-chord-tone.js';
import { article, ofQualityAlone } from '../terms/chord-name.js';
import { chord, printChord, printKey, printRomanNumeral } from '../../harmony/index.js';
import type { ChordQuality, Key, RomanNumeral } from '../../harmony/index.js';
import { compare, greatest } from '../../score/index.js';
import type { Fraction, PitchClass } from '../../score/index.js';
import type { Predicate } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { isOfSignature } from '../families/accidentals.js';
import { anyCadenceFamily } from '../families/any-cadence.js';
import { aCadence, cadenceFamily } from '../families/cadence.js';
import type { CadenceName } from '../families/cadence.js';
import { chordFamily } from '../families/chord.js';
import { numeralFamily } from '../families/numeral.js';
import { pivotFamily } from '../families/pivot.js';
import { choice, map, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Evidence, Range } from '../model.js';
import { liesIn, segmentsIn } from '../segments.js';
import { chordSymbol, withArticle } from '../terms/chord-name.js';
import { keyName } from '../terms/key-name.js';
import { inKeyReference, printKeyReference } from '../terms/key-reference.js';
import type { KeyRef } from '../terms/key-reference.js';
import { isNamed, noteName, printNoteName } from '../terms/note-name.js';
import type { NoteName } from '../terms/note-name.js';
import { numeral } from '../terms/numeral.js';
import { harmoniesOf } from './harmonies.js';
import { soundingIn } from './sounding.js';
import type { Span } from './span.js';

/** Something that can occur more than once: a note, a chord, a numeral, a cadence. */
export type Thing =
  | { readonly kind: 'note'; readonly note: NoteName }
  | { readonly kind: 'chord'; readonly root: PitchClass; readonly quality: ChordQuality }
  | { readonly kind: 'numeral'; readonly numeral: RomanNumeral; readonly key?: KeyRef }
  /** Of any kind where none is named. */
  | { readonly kind: 'cadence'; readonly name?: CadenceName; readonly key?: KeyRef }
  /** A chord by its kind or its name: a German sixth, the Neapolitan, a cadential six-four. */
  | { readonly kind: 'harmony'; readonly of: Predicate<Span> }
  | { readonly kind: 'tone'; readonly says: NonChordToneSays }
  /** Foreign to a key, or to the key of each harmony. */
  | { readonly kind: 'chromatic'; readonly key?: Key }
  /** A note that the key signature does not have. */
  | { readonly kind: 'accidental' };

/** A thing as plain data. */
export const contentOfThing = (of: Thing): unknown =>
  of.kind === 'harmony' ? { kind: of.kind, says: of.of.family, what: of.of.content } : of;

/** Where one begins, and the notes that show it. */
export interface Occurrence {
  readonly onset: Fraction;
  readonly evidence: readonly Evidence[];
}

/** `note G#`, `chord D7`, `V7/V in G major`, `half cadence`. */
export const thing: Parser<Thing> = rule(
  'Thing',
  () =>
    choice<Thing>(
      map(sequence(word('note'), noteName), ([, note]) => ({ kind: 'note', note })),
      map(sequence(word('chord'), chordSymbol), ([, { root, quality }]) => ({
        kind: 'chord',
        root,
        quality,
      })),
      map(
        sequence(
          quiet(optional(choice(article, word('the')))),
          numeral,
          quiet(optional(word('chord'))),
          inKeyReference,
        ),
        ([, of, , key]) =>
          key === undefined ? { kind: 'numeral', numeral: of } : { kind: 'numeral', numeral: of, key },
      ),
      map(sequence(aCadence, inKeyReference), ([name, key]) =>
        key === undefined ? { kind: 'cadence', name } : { kind: 'cadence', name, key },
      ),
      map(sequence(quiet(optional(article)), word('cadence', 'cadences'), inKeyReference), ([, , key]) =>
        key === undefined ? { kind: 'cadence' } : { kind: 'cadence', key },
      ),
      map(word('pivot chord', 'pivot'), () => ({ kind: 'harmony', of: pivotFamily.make({}) })),
      map(
        sequence(
          quiet(optional(article)),
          word(
            'chromatic note',
            'chromatic tone',
            'note outside the key',
            'note foreign to the key',
            'foreign note',
            'non-diatonic note',
          ),
        ),
        () => ({ kind: 'chromatic' }),
      ),
      map(
        sequence(quiet(optional(article)), word('note outside', 'note foreign to', 'note not in'), keyName),
        ([, , key]) => ({ kind: 'chromatic', key }),
      ),
      map(sequence(quiet(optional(article)), word('accidental', 'accidentals')), () => ({
        kind: 'accidental',
      })),
      map(sequence(quiet(optional(article)), word('chromatic chord')), () => ({
        kind: 'harmony',
        of: nativeNotesFamily.make({ chromatic: true, of: 'chord', isOne: true }),
      })),
      map(nonChordTone, says => ({ kind: 'tone', says })),
      // Before the names of the degrees: `the first dominant seventh` is a chord of that quality.
      map(sequence(quiet(optional(choice(article, word('the')))), ofQualityAlone), ([, quality]) => ({
        kind: 'harmony',
        of: chordFamily.make({ form: 'words', quality }),
      })),
      map(
        choice(
          aChord,
          map(namedChordAfterThe, says => namedChordFamily.make(says)),
        ),
        predicate => ({
          kind: 'harmony',
          of: predicate,
        }),
      ),
      map(sequence(quiet(optional(article)), noteName), ([, note]) => ({ kind: 'note', note })),
    ),
  'what is counted: `note G#`, `chord D7`, `V7/V` or `a half cadence`',
);

/** `withTheArticle`: `a half cadence`, `the note G#`; without it as after `the first`. */
export function printThing(of: Thing, withTheArticle: boolean): string {
  switch (of.kind) {
    case 'note':
      return `${withTheArticle ? 'the ' : ''}note ${printNoteName(of.note)}`;
    case 'chord':
      return `${withTheArticle ? 'the ' : ''}chord ${printChord(chord(of.root, of.quality))}`;
    case 'numeral':
      return `${printRomanNumeral(of.numeral)}${of.key === undefined ? '' : ` in ${printKeyReference(of.key)}`}`;
    case 'cadence': {
      const name = `${of.name === undefined ? '' : `${of.name} `}cadence${of.key === undefined ? '' : ` in ${printKeyReference(of.key)}`}`;
      return withTheArticle ? withArticle(name) : name;
    }
    case 'harmony':
      return withTheArticle
        ? of.of.print({ plural: false, negated: false }).replace(/^is /u, '')
        : nameOfChord(of.of);
    case 'tone':
      return withTheArticle ? withArticle(nameOf(of.says)) : nameOf(of.says);
    case 'chromatic':
      return `${withTheArticle ? 'a ' : ''}${of.key === undefined ? 'chromatic note' : `note outside ${printKey(of.key)}`}`;
    case 'accidental':
      return withTheArticle ? 'an accidental' : 'accidental';
  }
}

/** Places at which a predicate of a whole harmony holds. */
function harmoniesWith(
  predicate: Predicate<Span>,
  range: Range,
  context: ClaimContext,
): readonly Occurrence[] {
  return harmoniesOf(segmentsIn(context.analysis, range)).flatMap(({ segments }) =>
    segments
      .flatMap(segment => {
        const place = { kind: 'piece' } as const;
        const finding = predicate.check({ range: segment, name: segment.roman, place }, context);
        return finding.verdict === 'holds'
          ? [{ onset: segment.start, evidence: finding.evidence.slice(0, 4) }]
          : [];
      })
      .slice(0, 1),
  );
}

/** The same for chords whose inversion matters: neighbouring segments that fit count once. */
const segmentsWith = (
  predicate: Predicate<Span>,
  range: Range,
  context: ClaimContext,
): readonly Occurrence[] =>
  segmentsIn(context.analysis, range)
    .map(segment => {
      const place = { kind: 'piece' } as const;
      const { start, end } = segment;
      return {
        start,
        finding: predicate.check({ range: { start, end }, name: segment.roman, place }, context),
      };
    })
    .flatMap(({ start, finding }, at, all) =>
      finding.verdict === 'holds' && all[at - 1]?.finding.verdict !== 'holds'
        ? [{ onset: start, evidence: finding.evidence.slice(0, 4) }]
        : [],
    );

/** Everything of that kind in a range, in time order. A held note counts once; a chord counts once while it lasts. */
export function occurrencesOf(of: Thing, range: Range, context: ClaimContext): readonly Occurrence[] {
  switch (of.kind) {
    case 'note':
      return soundingIn(context.analysis.score, range)
        .filter(
          note =>
            note.tiedFrom === undefined && compare(range.start, note.onset) <= 0 && isNamed(note, of.note),
        )
        .map(note => ({
          onset: note.onset,
          evidence: [noteEvidence('supports', note, 'one of them', context)],
        }));
    case 'chord':
      return harmoniesWith(
        chordFamily.make({ form: 'words', root: of.root, quality: of.quality }),
        range,
        context,
      );
    case 'harmony':
      return segmentsWith(of.of, range, context);
    case 'tone':
      // What is held into a harmony is foreign to it from there on: a suspension occurs where it is dissonant, not where it is struck.
      return onceSuspended(tonesIn(range, context))
        .map(placed => ({ ...placed, onset: greatest(placed.note.onset, placed.segment.start) }))
        .filter(
          ({ tone, note, onset }) =>
            liesIn(onset, range) && misfit(tone, note, of.says, context) === undefined,
        )
        .map(({ note, onset }) => ({
          onset,
          evidence: [noteEvidence('supports', note, nameOf(of.says), context)],
        }));
    case 'chromatic':
      return foreignNotes({ range, name: '', place: { kind: 'piece' } }, of.key, context).map(
        ([note, key]) => ({
          onset: note.onset,
          evidence: [noteEvidence('supports', note, `foreign to ${printKey(key)}`, context)],
        }),
      );
    case 'accidental':
      return soundingIn(context.analysis.score, range)
        .filter(
          note =>
            note.tiedFrom === undefined &&
            compare(range.start, note.onset) <= 0 &&
            !isOfSignature(note, context),
        )
        .map(note => ({
          onset: note.onset,
          evidence: [noteEvidence('supports', note, 'not in the key signature', context)],
        }));
    case 'numeral':
      return harmoniesWith(
        numeralFamily.make(
          of.key === undefined ? { numeral: of.numeral } : { numeral: of.numeral, key: of.key },
        ),
        range,
        context,
      );
    case 'cadence': {
      const { name, key } = of;
      const predicate =
        name === undefined
          ? anyCadenceFamily.make(key === undefined ? { cadence: true } : { cadence: true, key })
          : cadenceFamily.make(key === undefined ? { how: 'is', name } : { how: 'is', name, key });
      return context.analysis.cadences
        .filter(cadence => liesIn(cadence.onset, range))
        .flatMap(cadence => {
          const at = { start: cadence.onset, end: cadence.onset };
          const finding = predicate.check(
            { range: at, moment: cadence.onset, name: 'the cadence', place: { kind: 'piece' } },
            context,
          );
          return finding.verdict === 'holds'
            ? [{ onset: cadence.onset, evidence: finding.evidence.slice(0, 4) }]
            : [];
        });
    }
  }
}
