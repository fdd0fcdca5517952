import type { Verb } from '../terms/verb.js';
import {
  compare,
  greatest,
  isBefore,
  least,
  midiOf,
  pitchClassOf,
  printPitch,
  printPitchClass,
  staffStepOf,
} from '../../score/index.js';
import type { Fraction, Note } from '../../score/index.js';
import { chordWith } from '../chord-part.js';
import type { Finding, Predicate } from '../claim.js';
import { missingEvidence, noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, nothing, optional, quiet, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { printLine } from '../subjects/line-name.js';
import type { LineName } from '../subjects/line-name.js';
import { lineNotes } from '../subjects/line-notes.js';
import type { ClaimContext, Range } from '../model.js';
import { noteEnd, soundingIn } from '../subjects/sounding.js';
import { article } from '../terms/chord-name.js';
import { instrument } from '../terms/instrument.js';
import { be, have, haveNo, printBe, printHas, printVerb, verb } from '../terms/verb.js';
import { silence, noChord } from './judged.js';
import { mainSegment, segmentsIn } from '../segments.js';
import { leadingTone, printChord } from '../../harmony/index.js';

const parts = ['root', 'third', 'fifth', 'seventh'] as const;
type Part = (typeof parts)[number];

/** Which members of a chord sound, how often, and how close together. */
export type MembersSays =
  | { readonly kind: 'member' | 'doubled' | 'tripled'; readonly part: Part }
  /** Which line has it: `the third is in the tenor`. */
  | { readonly kind: 'line'; readonly part: Part; readonly line: LineName }
  | { readonly kind: 'position'; readonly position: 'close' | 'open' }
  /** Every member of the chord sounds. */
  | { readonly kind: 'complete' }
  /** The seventh degree of the key, struck in two lines (common practice: never in four parts). */
  | { readonly kind: 'leading tone' };

const part = wordsFor<Part>(parts.map(each => [each, each] as const));
const owned = map(sequence(optional(word('a', 'its', 'the')), part), ([, each]) => each);
const member = map(owned, (each): MembersSays => ({ kind: 'member', part: each }));
const doubled: Parser<MembersSays> = choice(
  map(sequence(optional(word('a', 'its', 'the')), word('doubled'), part), ([, , each]): MembersSays => ({
    kind: 'doubled',
    part: each,
  })),
);

/** Another line than the bass: which member that has is the inversion of the chord. */
const inUpperLine: Parser<LineName> = map(
  sequence(
    word('in'),
    quiet(optional(word('the'))),
    choice<LineName>(
      wordsFor<LineName>([
        [{ kind: 'part', part: 'soprano' }, 'soprano'],
        [{ kind: 'part', part: 'alto' }, 'alto'],
        [{ kind: 'part', part: 'tenor' }, 'tenor'],
        [{ kind: 'edge', edge: 'top' }, 'top line', 'top voice', 'melody', 'upper voice', 'highest voice'],
        [{ kind: 'hand', hand: 'right' }, 'right hand'],
        [{ kind: 'hand', hand: 'left' }, 'left hand'],
        [{ kind: 'voice', name: 'voice' }, 'voice', 'vocal line', 'vocal part', 'singer'],
      ]),
      map(instrument, (of): LineName => ({ kind: 'instrument', ...of })),
    ),
  ),
  ([, , line]) => line,
);
const memberInLine = map(sequence(owned, inUpperLine), ([each, line]): MembersSays => ({
  kind: 'line',
  part: each,
  line,
}));

const lacks: Verb = map(word('lacks', 'lack', 'is missing', 'are missing', 'omits', 'omit'), () => ({
  negated: true,
}));
const leadingToneNoun = word('leading tone', 'leading note');
const theLeadingTone = sequence(word('the', 'its'), leadingToneNoun);
const isIncomplete: Verb = map(word('is incomplete', 'are incomplete', 'is an incomplete chord'), () => ({
  negated: true,
}));
const isMissing: Verb = map(word('is missing', 'is omitted', 'is left out'), () => ({ negated: true }));

/** Whether the upper three notes of a moment leave no room for another chord tone between them (common practice: close position). */
function isClose(notes: readonly Note[]): boolean {
  const steps = notes.map(note => staffStepOf(note.pitch)).sort((a, b) => a - b);
  const upper = steps.slice(-3);
  const [lowest] = upper;
  const highest = upper.at(-1);
  return lowest !== undefined && highest !== undefined && highest - lowest < 7;
}

const soundsAt = (note: Note, moment: Fraction): boolean =>
  compare(note.onset, moment) <= 0 && isBefore(moment, noteEnd(note));

/** Whether two notes of the leading tone of the key sound together. */
function checkLeadingTone(span: Span, context: ClaimContext): Finding<Span> {
  const { score } = context.analysis;
  const heard = segmentsIn(context.analysis, rangeOrMoment(span)).map(segment => {
    const tone = leadingTone(segment.key);
    const within = {
      start: greatest(segment.start, span.range.start),
      end: least(segment.end, span.range.end),
    };
    const notes = soundingIn(score, within).filter(note => !note.grace && pitchClassOf(note.pitch) === tone);
    const pair = notes.flatMap((note, at) => {
      const other = notes
        .slice(at + 1)
        .find(
          each =>
            midiOf(each.pitch) !== midiOf(note.pitch) &&
            isBefore(each.onset, noteEnd(note)) &&
            isBefore(note.onset, noteEnd(each)),
        );
      return other === undefined ? [] : [[note, other]];
    })[0];
    return { tone, notes, pair };
  });
  const found = heard.find(({ pair }) => pair !== undefined)?.pair ?? [];
  const [once] = heard.filter(({ notes }) => notes.length > 0);
  return {
    verdict: found.length > 0 ? 'holds' : 'fails',
    code: found.length > 0 ? 'C0111' : 'C0112',
    reason:
      found.length > 0
        ? `${found.map(note => printPitch(note.pitch)).join(' and ')} sound together`
        : once === undefined
          ? `no leading tone sounds in ${span.name}`
          : `${printPitchClass(once.tone)} never sounds twice at once`,
    evidence: found.map(note => noteEvidence('supports', note, 'leading tone', context)),
    local: true,
  };
}

/** Whether the line has that member of each chord that has one; of several chords it may be true of some. */
function checkLine(
  span: Span,
  says: Extract<MembersSays, { readonly kind: 'line' }>,
  context: ClaimContext,
  make: (says: MembersSays) => Predicate<Span>,
): Finding<Span> {
  const range = rangeOrMoment(span);
  const { score } = context.analysis;
  const index = parts.indexOf(says.part);
  const chords = segmentsIn(context.analysis, range).filter(({ chord }) => index < chord.tones.length);
  const asked = chords.map(segment => {
    const tone = segment.chord.tones[index];
    // A moment has no length in which a line could have a note: of a beat the whole beat is heard.
    const inside = {
      start: greatest(segment.start, span.range.start),
      end: least(segment.end, span.range.end),
    };
    const notes = lineNotes(score, says.line, inside)?.map(({ note }) => note);
    return {
      segment,
      lines: notes,
      found: (notes ?? []).filter(note => pitchClassOf(note.pitch) === tone),
    };
  });
  if (asked.some(({ lines }) => lines === undefined))
    return {
      verdict: 'undecided',
      code: 'C0006',
      reason: `the score has no line that is called ${printLine(says.line)}`,
      evidence: [],
      pointless: true,
    };
  const [first] = asked;
  if (first === undefined)
    return {
      verdict: 'fails',
      code: 'C0112',
      reason: `no chord of ${span.name} has a ${says.part}`,
      evidence: [],
    };
  const holding = asked.filter(({ found }) => found.length > 0);
  const other = asked.find(({ found }) => found.length === 0);
  const verdict = holding.length === asked.length ? 'holds' : holding.length > 0 ? 'arguable' : 'fails';
  const shown = other === undefined || verdict === 'holds' ? first : other;
  const sounding = (shown.lines ?? []).map(note => printPitch(note.pitch));
  return {
    verdict,
    code: verdict === 'holds' ? 'C0111' : verdict === 'arguable' ? 'C0114' : 'C0112',
    reason:
      verdict === 'holds'
        ? `${printLine(says.line)} has the ${says.part} of ${asked.map(({ segment }) => segment.roman).join(', ')}`
        : `${verdict === 'arguable' ? `true of ${holding.map(({ segment }) => segment.roman).join(', ')}; ` : ''}of ${shown.segment.roman} ${printLine(says.line)} has ${sounding.join(' ')}`,
    evidence: [
      ...holding.flatMap(({ segment, found }) =>
        found
          .slice(0, 2)
          .map(note => noteEvidence('supports', note, `${says.part} of ${segment.roman}`, context)),
      ),
      ...(verdict === 'holds'
        ? []
        : (shown.lines ?? [])
            .slice(0, 2)
            .map(note =>
              noteEvidence('contradicts', note, `${printLine(says.line)} of ${shown.segment.roman}`, context),
            )),
    ],
    instead: () => parts.filter(each => each !== says.part).map(each => make({ ...says, part: each })),
  };
}

/** Members, doubling and position of a chord: claims B4 and B8 of the trade. */
export const membersFamily = family<Span, MembersSays>({
  name: 'chord members',
  examples: ['bar 5 has no seventh', 'bar 5 doubles its root', 'bar 1 beat 2 is in close position'],
  phrases: [
    [have, member],
    [haveNo, member],
    [lacks, member],
    [have, doubled],
    [have, memberInLine],
    [haveNo, memberInLine],
    [verb('doubles', 'double'), map(theLeadingTone, (): MembersSays => ({ kind: 'leading tone' }))],
    [
      have,
      map(word('a doubled leading tone', 'a doubled leading note'), (): MembersSays => ({
        kind: 'leading tone',
      })),
    ],
    [
      have,
      map(
        word(
          'all three notes of the triad',
          'all its members',
          'all its notes',
          'all its tones',
          'all of its members',
          'all of its notes',
        ),
        (): MembersSays => ({ kind: 'complete' }),
      ),
    ],
    [
      be,
      map(
        sequence(quiet(optional(article)), word('complete'), quiet(optional(word('chord', 'triad')))),
        (): MembersSays => ({ kind: 'complete' }),
      ),
    ],
    [isIncomplete, nothing<MembersSays>({ kind: 'complete' })],
    [verb('triples', 'triple'), map(owned, (each): MembersSays => ({ kind: 'tripled', part: each }))],
    [verb('doubles', 'double'), map(owned, (each): MembersSays => ({ kind: 'doubled', part: each }))],
    [
      be,
      map(
        sequence(
          word('in'),
          wordsFor<'close' | 'open'>([
            ['close', 'close'],
            ['open', 'open'],
          ]),
          word('position', 'spacing'),
        ),
        ([, position]): MembersSays => ({ kind: 'position', position }),
      ),
    ],
  ],
  aspects: [
    [leadingToneNoun, be, map(word('doubled'), (): MembersSays => ({ kind: 'leading tone' }))] as const,
    ...parts.flatMap(each => [
      [
        word(each),
        be,
        map(inUpperLine, (line): MembersSays => ({ kind: 'line', part: each, line })),
      ] as const,
      [word(each), isMissing, nothing<MembersSays>({ kind: 'member', part: each })] as const,
      [word(each), be, map(word('tripled'), (): MembersSays => ({ kind: 'tripled', part: each }))] as const,
      [word(each), be, map(word('doubled'), (): MembersSays => ({ kind: 'doubled', part: each }))] as const,
    ]),
  ],
  print: (says, form) => {
    switch (says.kind) {
      case 'member':
        return printHas(form, 'a', says.part);
      case 'tripled':
        return `${printVerb('triples', 'triple', form)} its ${says.part}`;
      case 'doubled':
        return `${printVerb('doubles', 'double', form)} its ${says.part}`;
      case 'line':
        return `${printHas(form, 'the', says.part)} in ${printLine(says.line)}`;
      case 'position':
        return `${printBe(form)} in ${says.position} position`;
      case 'complete':
        return `${printBe(form)} complete`;
      case 'leading tone':
        return `${printVerb('doubles', 'double', form)} the leading tone`;
    }
  },
  check: (span, says, context, make): Finding<Span> => {
    const range = rangeOrMoment(span);
    const silent = silence<Span>(range, span.name, context);
    if (silent !== undefined) return silent;
    const notes = soundingIn(context.analysis.score, range).filter(note => !note.grace);
    if (says.kind === 'position') {
      const together = [...soundingIn(context.analysis.score, { start: range.start, end: range.start })].sort(
        (a, b) => midiOf(a.pitch) - midiOf(b.pitch),
      );
      const close = isClose(together);
      const holds = close === (says.position === 'close');
      if (together.length < 3)
        return {
          verdict: 'undecided',
          code: 'C0113',
          reason: 'fewer than three notes sound together at its start',
          evidence: [],
          pointless: true,
        };
      return {
        verdict: holds ? 'holds' : 'fails',
        code: holds ? 'C0111' : 'C0112',
        reason: `the upper notes ${together
          .slice(-3)
          .map(note => printPitch(note.pitch))
          .join(' ')} lie ${close ? 'within' : 'further apart than'} an octave`,
        instead: () => [make({ kind: 'position', position: close ? 'close' : 'open' })],
        evidence: together
          .slice(-3)
          .map(note => noteEvidence(holds ? 'supports' : 'contradicts', note, 'upper note', context)),
      };
    }
    if (says.kind === 'line') return checkLine(span, says, context, make);
    if (says.kind === 'leading tone') return checkLeadingTone(span, context);
    if (says.kind === 'complete') {
      const chord = mainSegment(context.analysis, range)?.chord;
      if (chord === undefined) return noChord(span.name, 'C0103');
      const missing = chord.tones.filter(tone => !notes.some(note => pitchClassOf(note.pitch) === tone));
      return {
        verdict: missing.length === 0 ? 'holds' : 'fails',
        code: missing.length === 0 ? 'C0111' : 'C0112',
        reason:
          missing.length === 0
            ? `${chord.tones.map(printPitchClass).join(', ')} sound`
            : `${printChord(chord)} is without ${missing.map(printPitchClass).join(' and ')}`,
        evidence: notes
          .filter(note => chord.tones.includes(pitchClassOf(note.pitch)))
          .slice(0, 6)
          .map(note => noteEvidence('supports', note, 'member of the chord', context)),
        local: true,
      };
    }
    const asked = chordWith(says.part, range, context);
    if (asked === undefined) return noChord(span.name, 'C0103');
    const { segment, tone, ends } = asked;
    const name = tone === undefined ? says.part : `${says.part} ${printPitchClass(tone)}`;
    const decisiveIn = (within: Range): readonly Note[] => {
      const members = soundingIn(context.analysis.score, within).filter(
        note => !note.grace && pitchClassOf(note.pitch) === tone,
      );
      return says.kind === 'member'
        ? members
        : (members
            .map(note => members.filter(other => soundsAt(other, note.onset)))
            .find(each => each.length >= (says.kind === 'tripled' ? 3 : 2)) ?? []);
    };
    const members = notes.filter(note => pitchClassOf(note.pitch) === tone);
    const now = decisiveIn(span.range);
    // Of a beat in a broken chord, or before the seventh comes, the rest of the chord may be meant as well.
    const later =
      now.length > 0 || span.moment === undefined ? [] : decisiveIn({ start: span.moment, end: ends });
    const decisive = now.length > 0 ? now : later;
    const holds = decisive.length > 0;
    const what = says.kind === 'member' ? 'sounds' : `sounds ${String(decisive.length)} times at once`;
    return {
      verdict: now.length > 0 ? 'holds' : holds ? 'arguable' : 'fails',
      code: now.length > 0 ? 'C0111' : holds ? 'C0117' : 'C0112',
      reason: holds
        ? `the ${name} ${what}${now.length > 0 ? '' : `, but later in the chord than ${span.name}`}`
        : tone === undefined
          ? `${segment.roman} has no ${says.part}`
          : `the ${name} ${says.kind === 'member' ? 'never sounds' : `never sounds ${says.kind === 'tripled' ? 'three times' : 'twice'} at once`}`,
      evidence: holds
        ? decisive
            .slice(0, 6)
            .map(note => noteEvidence('supports', note, `${says.part} of ${segment.roman}`, context))
        : tone === undefined || members.length > 0
          ? members
              .slice(0, 3)
              .map(note => noteEvidence('contradicts', note, `${says.part} of ${segment.roman}`, context))
          : [
              missingEvidence(
                { pitchClass: tone },
                range,
                `${says.part} of ${segment.roman}, never sounding`,
                context,
              ),
            ],
      local: true,
    };
  },
});
