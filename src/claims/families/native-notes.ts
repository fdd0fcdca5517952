import { nativeTones, printKey } from '../../harmony/index.js';
import type { Key } from '../../harmony/index.js';
import { pitchClassOf, printPitch } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { map, optional, sequence, word } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { soundingIn } from '../subjects/sounding.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { inKey, keyName } from '../terms/key-name.js';
import { be, have, haveNo, printBe, printHas } from '../terms/verb.js';
import { silence } from './judged.js';
import { segmentsIn } from '../segments.js';

/** Whether notes foreign to the key sound at a place. Without a key, the key of each harmony counts. */
export interface NativeSays {
  readonly chromatic: boolean;
  readonly key?: Key;
  /** Only the tones of its chords count. */
  readonly of?: 'chord';
  /** Said of the place itself, `is a chromatic chord`, and not of what it has. */
  readonly isOne?: true;
}

const says = (chromatic: boolean, key: Key | undefined): NativeSays =>
  key === undefined ? { chromatic } : { chromatic, key };

const chromaticNote = map(
  sequence(
    optional(article),
    word('chromatic note', 'chromatic notes', 'chromatic tone', 'chromatic tones'),
    inKey,
  ),
  ([, , key]) => says(true, key),
);

const chordOf = (chromatic: boolean) =>
  map(
    sequence(
      optional(article),
      chromatic
        ? word('chromatic chord', 'chromatic chords', 'chromatic harmony', 'altered chord')
        : word('diatonic chord', 'diatonic chords', 'diatonic harmony'),
      inKey,
    ),
    ([, , key]): NativeSays => ({ ...says(chromatic, key), of: 'chord' }),
  );
const chromaticChord = chordOf(true);
const diatonicChord = chordOf(false);

/** Notes foreign to the key in which they sound; of chords, only the members of each. */
export function foreignNotes(
  span: Span,
  key: Key | undefined,
  context: ClaimContext,
  ofChords = false,
): readonly (readonly [Note, Key])[] {
  const members = ofChords
    ? new Set(segmentsIn(context.analysis, rangeOrMoment(span)).flatMap(({ chordTones }) => chordTones))
    : undefined;
  const notes = soundingIn(context.analysis.score, span.range).filter(
    note => note.tiedFrom === undefined && (members === undefined || members.has(note.id)),
  );
  return notes.flatMap(note => {
    const own =
      key ?? segmentsIn(context.analysis, { start: note.onset, end: note.onset })[0]?.key ?? context.home;
    return nativeTones(own).includes(pitchClassOf(note.pitch)) ? [] : [[note, own] as const];
  });
}

/** Diatonic and chromatic passages: claim A4 of the trade. Raised 6 and 7 in minor are native (OMT and Hutchinson). */
export const nativeNotesFamily = family<Span, NativeSays>({
  name: 'chromatic notes',
  examples: ['bars 1-3 are diatonic', 'bar 4 has a chromatic note', 'bars 9-16 are diatonic in D major'],
  phrases: [
    [be, map(sequence(word('diatonic'), inKey), ([, key]) => says(false, key))],
    [be, map(sequence(word('chromatic'), inKey), ([, key]) => says(true, key))],
    [have, chromaticNote],
    [haveNo, chromaticNote],
    [have, chromaticChord],
    [haveNo, chromaticChord],
    [be, map(chromaticChord, (each): NativeSays => ({ ...each, isOne: true }))],
    [be, map(diatonicChord, (each): NativeSays => ({ ...each, isOne: true }))],
    [
      have,
      map(
        sequence(word('only notes of', 'only notes from', 'only notes in', 'only the notes of'), keyName),
        ([, key]) => says(false, key),
      ),
    ],
  ],
  print: ({ chromatic, key, of, isOne }, form) => {
    const where = key === undefined ? '' : ` in ${printKey(key)}`;
    if (of === 'chord' && isOne !== true) return printHas(form, 'a', `chromatic chord${where}`);
    if (of === 'chord') return `${printBe(form)} a ${chromatic ? 'chromatic' : 'diatonic'} chord${where}`;
    return chromatic ? printHas(form, 'a', `chromatic note${where}`) : `${printBe(form)} diatonic${where}`;
  },
  check: (span, { chromatic, key, of, isOne }, context, make): Finding<Span> => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const foreign = foreignNotes(span, key, context, of === 'chord');
    const [first] = foreign;
    const evidence = foreign
      .slice(0, 12)
      .map(([note, own]) =>
        noteEvidence(chromatic ? 'supports' : 'contradicts', note, `foreign to ${printKey(own)}`, context),
      );
    const reason =
      first === undefined
        ? `every ${of === 'chord' ? 'chord tone' : 'note'} of ${span.name} is native to ${key === undefined ? 'the key there' : printKey(key)}`
        : `${printPitch(first[0].pitch)} is foreign to ${printKey(first[1])}`;
    return {
      verdict: (first !== undefined) === chromatic ? 'holds' : 'fails',
      code: (first !== undefined) === chromatic ? 'C1211' : chromatic ? 'C1212' : 'C1213',
      reason,
      evidence,
      instead: () => [
        make({
          ...says(!chromatic, key),
          ...(of === undefined ? {} : { of }),
          ...(isOne === undefined ? {} : { isOne }),
        }),
      ],
      ...(chromatic ? {} : { local: true as const }),
    };
  },
});
