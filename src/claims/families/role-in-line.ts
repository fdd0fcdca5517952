import { isBefore, pitchClassOf, printPitch } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { RomanNumeral } from '../../harmony/index.js';
import { printRomanNumeral } from '../../harmony/index.js';
import { chordParts, leadingTonesIn } from '../chord-part.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { segmentsIn } from '../segments.js';
import { rangeOrMoment } from '../subjects/span.js';
import { member } from '../subjects/member.js';
import type { Member } from '../subjects/member.js';
import type { Line } from '../subjects/line.js';
import { degreeName, printDegree, toneOfDegree } from '../terms/degree.js';
import type { DegreeName } from '../terms/degree.js';
import { numeral } from '../terms/numeral.js';
import { have, haveNo, printHave, verb } from '../terms/verb.js';
import { numeralFamily } from './numeral.js';
import { nothingSounds } from './judged.js';

/** A member of the chord, the leading tone or a degree of the key that a line has somewhere in its place. */
export type RoleInLineSays =
  | { readonly kind: 'member'; readonly member: Member; readonly of?: RomanNumeral }
  | { readonly kind: 'degree'; readonly degree: DegreeName };

const theChord = quiet(
  optional(word('of the chord', 'of the harmony', 'to the chord', 'to the harmony', 'to the triad')),
);
const complement: Parser<RoleInLineSays> = choice<RoleInLineSays>(
  map(
    sequence(member, theChord, optional(map(sequence(word('of', 'to'), numeral), ([, of]) => of))),
    ([named, , of]) =>
      of === undefined ? { kind: 'member', member: named } : { kind: 'member', member: named, of },
  ),
  // `the raised leading note` is the leading tone under another name.
  map(degreeName, degree =>
    degree.kind === 'name' && degree.name === 'leading tone'
      ? { kind: 'member', member: 'leading tone' }
      : { kind: 'degree', degree },
  ),
);
const verbs = [
  have,
  haveNo,
  ...(
    [
      ['plays', 'play'],
      ['sings', 'sing'],
      ['takes', 'take'],
      ['adds', 'add'],
      ['supplies', 'supply'],
      ['carries', 'carry'],
      ['reaches', 'reach'],
      ['touches', 'touch'],
    ] as const
  ).map(([singular, plural]) => verb(singular, plural)),
];

const figures = ['', '6', '64', '7', '65', '43', '42'] as const;

/** The chord under a note, as far as the sentence names it. */
function isOf(
  of: RomanNumeral | undefined,
  line: Line,
  onset: Line['span']['range']['start'],
  context: ClaimContext,
): boolean {
  if (of === undefined) return true;
  // `the seventh of V` leaves open how V is figured.
  const meant = of.figures === '' ? figures.map(each => ({ ...of, figures: each })) : [of];
  return segmentsIn(context.analysis, { start: onset, end: onset }).some(({ start, end, roman }) =>
    meant.some(each => {
      const { verdict } = numeralFamily
        .make({ numeral: each })
        .check({ range: { start, end }, name: roman, place: line.span.place }, context);
      return verdict === 'holds' || verdict === 'arguable';
    }),
  );
}

/** The notes of a line that are a member of their chord, or the leading tone there. */
function playing({ notes, span }: Line, wanted: Member, context: ClaimContext): readonly Note[] {
  const leading = wanted === 'leading tone' ? leadingTonesIn(rangeOrMoment(span), context) : [];
  const index = wanted === 'leading tone' ? -1 : chordParts.indexOf(wanted);
  return notes.flatMap(({ note, start, end }) => {
    const tone = pitchClassOf(note.pitch);
    const is =
      wanted === 'leading tone'
        ? leading.some(each => each.tone === tone && isBefore(start, each.end) && isBefore(each.start, end))
        : segmentsIn(context.analysis, { start, end }).some(({ chord }) => chord.tones[index] === tone);
    return is ? [note] : [];
  });
}

/** What a line has of the chord or of the key: claims A5 and B8 of the trade. */
export const roleInLineFamily = family<Line, RoleInLineSays>({
  name: 'part of a line in the chord',
  examples: [
    'the right hand of bar 15 has the leading tone',
    'the left hand of bar 15 has the seventh of the chord',
  ],
  phrases: verbs.map(each => [each, complement] as const),
  print: (says, form) =>
    `${printHave(form)} ${
      says.kind === 'degree'
        ? printDegree(says.degree)
        : `the ${says.member}${says.member === 'leading tone' || says.of !== undefined ? '' : ' of the chord'}${says.of === undefined ? '' : ` of ${printRomanNumeral(says.of)}`}`
    }`,
  check: (line, says, context): Finding<Line> => {
    const { notes, name } = line;
    const [first] = notes;
    if (first === undefined) return nothingSounds(name);
    if (says.kind === 'member') {
      const here = playing(line, says.member, context);
      const note = here.find(({ onset }) => isOf(says.of, line, onset, context));
      const shown = note ?? here[0] ?? first.note;
      return {
        verdict: note === undefined ? 'fails' : 'holds',
        code: note === undefined ? 'C0116' : 'C0115',
        reason:
          note === undefined
            ? here.length === 0
              ? `${name} does not have the ${says.member}`
              : `${printPitch(shown.pitch)} is the ${says.member} of another chord`
            : `${name} has ${printPitch(note.pitch)}, the ${says.member}`,
        evidence: [
          noteEvidence(note === undefined ? 'contradicts' : 'supports', shown, says.member, context),
        ],
      };
    }
    const degreeIs = (onset: typeof first.note.onset): readonly number[] => {
      const local = segmentsIn(context.analysis, { start: onset, end: onset })[0]?.key;
      return [...(local === undefined ? [] : [local]), context.home].map(key =>
        toneOfDegree(says.degree, key),
      );
    };
    const [local, homeOnly] = [0, 1].map(at =>
      notes.find(({ note, start }) => degreeIs(start)[at] === pitchClassOf(note.pitch)),
    );
    const found = local ?? homeOnly;
    const shown = (found ?? first).note;
    return {
      verdict: local !== undefined ? 'holds' : found === undefined ? 'fails' : 'arguable',
      code: local !== undefined ? 'C1201' : found === undefined ? 'C1202' : 'C1204',
      reason:
        found === undefined
          ? `no note of ${name} is ${printDegree(says.degree)}`
          : `${printPitch(shown.pitch)} is ${printDegree(says.degree)}${local === undefined ? ' of the home key, not of the key there' : ''}`,
      evidence: [
        noteEvidence(found === undefined ? 'contradicts' : 'supports', shown, 'a note of the line', context),
      ],
    };
  },
});
