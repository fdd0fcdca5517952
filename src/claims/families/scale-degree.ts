import {
  degreeOf,
  keyOfTarget,
  leadingTone,
  nativeTones,
  printKey,
  printRomanNumeral,
} from '../../harmony/index.js';
import type { Key, RomanNumeral } from '../../harmony/index.js';
import { chromaOf, pitchClassOf, printPitch, printPitchClass } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import { noteEvidence } from '../evidence.js';
import { choice, map, optional, quiet, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { noteFamily } from '../note-family.js';
import type { NoteFinding } from '../note-family.js';
import type { Span } from '../subjects/span.js';
import { degreeName, printDegree, toneOfDegree } from '../terms/degree.js';
import type { DegreeName } from '../terms/degree.js';
import { inKey, keyName, keyWithoutMode } from '../terms/key-name.js';
import { article } from '../terms/chord-name.js';
import { numeral } from '../terms/numeral.js';
import { be, printBe } from '../terms/verb.js';
import { segmentsIn } from '../segments.js';

/** What a note is in a key: one of its degrees, or native or foreign to it. */
export type DegreeSays =
  | { readonly kind: 'degree'; readonly degree: DegreeName; readonly key?: Key }
  /** The leading tone of the chord on a degree: `the leading tone of vi`. */
  | { readonly kind: 'leads to'; readonly numeral: RomanNumeral; readonly key?: Key }
  | { readonly kind: 'native'; readonly native: boolean; readonly key?: Key };

const withKey = <T extends DegreeSays>(says: T, key: Key | undefined): T =>
  key === undefined ? says : { ...says, key };

/** `the leading tone of B-flat`: a degree that is one note in major and in minor needs no mode. */
const sameInBothModes: Parser<DegreeName> = map(
  sequence(
    quiet(optional(word('the'))),
    wordsFor<DegreeName>([
      [{ kind: 'name', name: 'tonic' }, 'tonic'],
      [{ kind: 'name', name: 'supertonic' }, 'supertonic'],
      [{ kind: 'name', name: 'subdominant' }, 'subdominant'],
      [{ kind: 'name', name: 'dominant' }, 'dominant'],
      [{ kind: 'name', name: 'leading tone' }, 'leading tone', 'leading note'],
    ]),
  ),
  ([, degree]) => degree,
);

/** `scale degree b2 in B minor`, `chromatic`. */
export const degreeOfNote: Parser<DegreeSays> = choice<DegreeSays>(
  map(
    sequence(
      quiet(optional(choice(word('the'), article))),
      word('leading tone of', 'leading note of', 'leading tone to', 'leading note to'),
      numeral,
    ),
    ([, , of]): DegreeSays => ({ kind: 'leads to', numeral: of }),
  ),
  map(
    sequence(
      degreeName,
      choice(
        inKey,
        map(sequence(word('of'), keyName), ([, key]) => key),
      ),
    ),
    ([degree, key]) => withKey<DegreeSays>({ kind: 'degree', degree }, key),
  ),
  map(sequence(sameInBothModes, word('of'), keyWithoutMode), ([degree, , key]): DegreeSays => ({
    kind: 'degree',
    degree,
    key,
  })),
  map(
    sequence(
      word(
        'chromatic',
        'a chromatic note',
        'a chromatic tone',
        'foreign to the key',
        'outside the key',
        'outside of the key',
      ),
      inKey,
    ),
    ([, key]) => withKey<DegreeSays>({ kind: 'native', native: false }, key),
  ),
  map(sequence(word('diatonic', 'native to the key', 'in the key'), inKey), ([, key]) =>
    withKey<DegreeSays>({ kind: 'native', native: true }, key),
  ),
);

/** Keys in which a note may be meant: the one that is said, else that of the place and the home key. */
function keysOf(note: Note, says: DegreeSays, context: ClaimContext): readonly [Key, ...Key[]] {
  if (says.key !== undefined) return [says.key];
  const local = segmentsIn(context.analysis, { start: note.onset, end: note.onset })[0]?.key;
  return local === undefined ? [context.home] : [local, context.home];
}

function degreeIn(note: Note, key: Key): DegreeName {
  const { degree, alter } = degreeOf(key, pitchClassOf(note.pitch));
  return { kind: 'number', degree, alter };
}

function checkNote(
  note: Note,
  says: DegreeSays,
  _span: Span,
  context: ClaimContext,
): NoteFinding<DegreeSays> {
  const keys = keysOf(note, says, context);
  const [key] = keys;
  const tone = pitchClassOf(note.pitch);
  const is = (of: Key): boolean =>
    says.kind === 'degree'
      ? toneOfDegree(says.degree, of) === tone
      : says.kind === 'leads to'
        ? leadingTone(keyOfTarget(says.numeral, of)) === tone
        : nativeTones(of).includes(tone) === says.native;
  const found = keys.find(is);
  const pitch = printPitch(note.pitch);
  const degree = degreeIn(note, found ?? key);
  const why = `${printDegree(degree)} of ${printKey(found ?? key)}`;
  if (found !== undefined)
    return {
      // A numeral is counted in the home key or in that of the place.
      verdict: found === key || says.kind === 'leads to' ? 'holds' : 'arguable',
      code: found === key || says.kind === 'leads to' ? 'C1201' : 'C1204',
      reason:
        found === key || says.kind === 'leads to'
          ? `${pitch} is ${why}`
          : `true of ${printKey(found)}; the key there is ${printKey(key)}, where ${pitch} is ${printDegree(degreeIn(note, key))}`,
      evidence: [noteEvidence('supports', note, why, context)],
      instead: [withKey<DegreeSays>({ kind: 'degree', degree: degreeIn(note, key) }, key)],
    };
  const twin =
    says.kind === 'degree' && chromaOf(toneOfDegree(says.degree, key)) === chromaOf(tone)
      ? `; ${printDegree(says.degree)} is ${printPitchClass(toneOfDegree(says.degree, key))}, the same key of the keyboard and another note`
      : '';
  return {
    verdict: 'fails',
    code: says.kind === 'native' ? 'C1203' : 'C1202',
    reason: `${pitch} is ${why}${twin}`,
    evidence: [noteEvidence('contradicts', note, why, context)],
    instead: [
      withKey<DegreeSays>({ kind: 'degree', degree }, says.key),
      withKey<DegreeSays>({ kind: 'native', native: nativeTones(key).includes(tone) }, says.key),
    ],
  };
}

const families = noteFamily<DegreeSays>({
  name: 'scale degree',
  examples: [
    'the A# of bar 2 is the leading tone',
    'the C5 of bar 29 is scale degree b2 in B minor',
    'the D# of bar 4 is chromatic',
  ],
  phrases: [[be, degreeOfNote]],
  print: (says, form) => {
    const key = says.key === undefined ? '' : ` in ${printKey(says.key)}`;
    const what =
      says.kind === 'leads to'
        ? `the leading tone of ${printRomanNumeral(says.numeral)}`
        : says.kind === 'degree'
          ? printDegree(says.degree)
          : says.native
            ? 'diatonic'
            : 'chromatic';
    return `${printBe(form)} ${what}${key}`;
  },
  checkNote,
});

/** Scale degrees and solfege, native and chromatic notes: claims A4 and A5 of the trade. */
export const noteDegreeFamily = families.ofNotes;
export const lineDegreeFamily = families.ofLine;
