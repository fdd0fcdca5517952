import type { Analysis } from '../../harmony/index.js';
import {
  compare,
  equals,
  isBefore,
  midiOf,
  pitchClassOf,
  printPitch,
  printPitchClass,
  staffStepOf,
  zero,
} from '../../score/index.js';
import type { Fraction, Note, PitchClass } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, mark, optional, quiet, sequence, word } from '../grammar/index.js';
import type { ClaimContext, Range } from '../model.js';
import { inversionsOf } from '../subjects/harmonies.js';
import type { Harmony } from '../subjects/harmonies.js';
import { printLine } from '../subjects/line-name.js';
import type { LineName } from '../subjects/line-name.js';
import { describeLines, lineNotes } from '../subjects/line-notes.js';
import type { LineNote } from '../subjects/line-notes.js';
import { twoLines } from '../subjects/pair.js';
import { soundEnd, soundingIn, struckHead } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { pitchClassName } from '../terms/note-name.js';
import { have, haveNo, printHas } from '../terms/verb.js';

/** One letter with two accidentals in two lines, at once or one after the other. */
export interface CrossRelationSays {
  readonly tones?: readonly [PitchClass, PitchClass];
  readonly lines?: readonly [LineName, LineName];
}

const joint = quiet(
  choice(
    map(mark('-', '–', '/'), () => undefined),
    map(word('and', 'against'), () => undefined),
  ),
);
const complement = map(
  sequence(
    optional(article),
    word('cross relation', 'cross relations', 'false relation', 'false relations'),
    optional(
      choice(
        map(
          sequence(word('of', 'between'), pitchClassName, joint, pitchClassName),
          ([, first, , second]): CrossRelationSays => ({ tones: [first, second] }),
        ),
        map(sequence(word('between', 'in'), twoLines), ([, lines]): CrossRelationSays => ({ lines })),
      ),
    ),
  ),
  ([, , said]): CrossRelationSays => said ?? {},
);

/** Two forms of one letter in two lines, the earlier first. */
interface Relation {
  readonly first: Note;
  readonly second: Note;
  /**
   * `bare`: at once, or the one where the other ends. `apart`: in neighbouring chords, with other notes between. `own step`: the line that had the
   * first goes on to the second itself, which is a chromatic step and no cross relation (common practice).
   */
  readonly kind: 'bare' | 'apart' | 'own step';
}

/** A struck note with the number of its harmony, -1 where there is none. */
interface Placed {
  readonly note: Note;
  readonly end: Fraction;
  readonly harmony: number;
}

/** The notes of a range by their onsets, of tied ones the head that was struck. */
function placedIn(range: Range, harmonies: readonly Harmony[], { score }: Analysis): readonly Placed[] {
  const heads = soundingIn(score, range)
    .filter(({ grace }) => !grace)
    .map(note => struckHead(note, score.notes));
  let harmony = 0;
  return [...new Set(heads)]
    .sort((a, b) => compare(a.onset, b.onset))
    .map(note => {
      while (compare(harmonies[harmony]?.end ?? note.onset, note.onset) < 0) harmony++;
      while (equals(harmonies[harmony]?.end ?? zero, note.onset)) harmony++;
      return { note, end: soundEnd(note, score), harmony: harmony < harmonies.length ? harmony : -1 };
    });
}

/** What a voice strikes next after a note. */
function nextOf({ note, end }: Placed, { score }: Analysis): readonly Note[] {
  const next = score.notes.find(
    each =>
      each.voice === note.voice &&
      !each.grace &&
      each.tiedFrom === undefined &&
      compare(end, each.onset) <= 0,
  );
  return next === undefined
    ? []
    : score.notes.filter(each => each.voice === note.voice && equals(each.onset, next.onset) && !each.grace);
}

/** Whether a note lies between others that its voice strikes with it. */
function isInsideChord(note: Note, { score }: Analysis): boolean {
  const chord = score.notes.filter(each => each.voice === note.voice && equals(each.onset, note.onset));
  const others = chord.map(({ pitch }) => midiOf(pitch) - midiOf(note.pitch));
  return Math.min(...others) < 0 && Math.max(...others) > 0;
}

/** Whether a line comes to a note from the tone of another: what doubles that inside a chord makes no line against it. */
function comesFrom(note: Note, other: Note, { score }: Analysis): boolean {
  const before = score.notes.findLast(
    each => each.voice === note.voice && !each.grace && compare(soundEnd(each, score), note.onset) <= 0,
  );
  return before !== undefined && pitchClassOf(before.pitch) === pitchClassOf(other.pitch);
}

/** How two notes of one letter relate; `undefined` where they make one line or do not stand near each other. */
function relationOf(
  first: Placed,
  second: Placed,
  harmonies: readonly Harmony[],
  analysis: Analysis,
): Relation | undefined {
  const isAtOnce = isBefore(second.note.onset, first.end);
  const isMember = ({ note, harmony }: Placed): boolean =>
    harmonies[harmony]?.segments.some(({ chord }) => chord.tones.includes(pitchClassOf(note.pitch))) === true;
  const isNext = second.harmony === first.harmony + 1 && isMember(first) && isMember(second);
  if (!isAtOnce && !equals(first.end, second.note.onset) && !isNext) return undefined;
  const next = nextOf(first, analysis);
  // A voice of single notes is one line; in chords a line stays at its place on the staff.
  const isOneLine = (note: Note): boolean =>
    note.voice === first.note.voice &&
    (next.length < 2 || staffStepOf(note.pitch) === staffStepOf(first.note.pitch));
  if (!isAtOnce && isOneLine(second.note)) return undefined;
  const steps = next.some(
    note => isOneLine(note) && pitchClassOf(note.pitch) === pitchClassOf(second.note.pitch),
  );
  const isCovered =
    steps ||
    (!isAtOnce && isInsideChord(first.note, analysis) && comesFrom(second.note, first.note, analysis));
  const kind = isCovered ? 'own step' : isAtOnce || equals(first.end, second.note.onset) ? 'bare' : 'apart';
  return { first: first.note, second: second.note, kind };
}

/** The relations of a place, the barest first; `lines` are the notes of the two lines that are asked for. */
function relationsIn(
  { range }: Span,
  lines: readonly (readonly LineNote[])[] | undefined,
  { analysis }: ClaimContext,
): readonly Relation[] {
  const harmonies = inversionsOf(analysis.segments);
  const [one, other] = (lines ?? []).map(
    notes => new Set(notes.map(({ note }) => struckHead(note, analysis.score.notes))),
  );
  const areAsked = (a: Note, b: Note): boolean =>
    one === undefined || other === undefined || (one.has(a) && other.has(b)) || (one.has(b) && other.has(a));
  const placed = placedIn(range, harmonies, analysis);
  const found = placed.flatMap((first, at) => {
    const relations: Relation[] = [];
    for (const second of placed.slice(at + 1)) {
      if (isBefore(first.end, second.note.onset) && second.harmony > first.harmony + 1) break;
      const [a, b] = [first.note.pitch, second.note.pitch];
      if (a.letter !== b.letter || a.alter === b.alter || !areAsked(first.note, second.note)) continue;
      const relation = relationOf(first, second, harmonies, analysis);
      if (relation !== undefined) relations.push(relation);
    }
    return relations;
  });
  return (['bare', 'apart', 'own step'] as const).flatMap(kind => found.filter(each => each.kind === kind));
}

/** Cross relations: claim I5 of the trade. */
export const crossRelationFamily = family<Span, CrossRelationSays>({
  name: 'cross relation',
  examples: ['bar 4 has a cross relation of D and D#', 'bars 1-3 have no cross relation'],
  phrases: [
    [have, complement],
    [haveNo, complement],
  ],
  print: ({ tones, lines }, form) =>
    printHas(
      form,
      'a',
      `cross relation${tones === undefined ? '' : ` of ${tones.map(printPitchClass).join(' and ')}`}${lines === undefined ? '' : ` between ${lines.map(printLine).join(' and ')}`}`,
    ),
  check: (span, { tones, lines }, context, make): Finding<Span> => {
    const { score } = context.analysis;
    const named = lines?.map(line => lineNotes(score, line, span.range));
    if (named?.some(notes => notes === undefined) === true)
      return {
        verdict: 'undecided',
        code: 'C0006',
        reason: `the score has no such line: ${describeLines(score)}`,
        evidence: [],
        pointless: true,
      };
    const all = relationsIn(
      span,
      named?.map(notes => notes ?? []),
      context,
    );
    const found = all.filter(
      ({ first, second }) =>
        tones === undefined || [first, second].every(note => tones.includes(pitchClassOf(note.pitch))),
    );
    const [best] = found;
    const [other] = all.filter(({ kind }) => kind !== 'own step');
    const instead = () =>
      (other === undefined ? relationsIn(span, undefined, context) : [other])
        .slice(0, 1)
        .map(({ first, second }) => make({ tones: [pitchClassOf(first.pitch), pitchClassOf(second.pitch)] }));
    const evidence = found
      .slice(0, 4)
      .flatMap(({ first, second, kind }) =>
        [first, second].map(note =>
          noteEvidence(
            kind === 'bare' ? 'supports' : 'set aside',
            note,
            'the same letter, another accidental',
            context,
          ),
        ),
      );
    if (best === undefined)
      return {
        verdict: 'fails',
        code: 'C1032',
        reason:
          other === undefined
            ? `no letter appears in two forms in neighbouring lines and chords of ${span.name}`
            : `the cross relation of ${span.name} is between ${printPitch(other.first.pitch)} and ${printPitch(other.second.pitch)}`,
        evidence: [],
        instead,
      };
    const [from, to] = [printPitch(best.first.pitch), printPitch(best.second.pitch)];
    switch (best.kind) {
      case 'bare':
        return {
          verdict: 'holds',
          code: 'C1031',
          reason: `${from} and ${to} follow each other in different lines`,
          evidence,
        };
      case 'apart':
        return {
          verdict: 'arguable',
          code: 'C1033',
          reason: `${from} and ${to} stand in neighbouring chords, but other notes come between them`,
          evidence,
        };
      case 'own step':
        return {
          verdict: 'fails',
          code: 'C1032',
          reason: `${from} and ${to} are a chromatic step of one line, doubled in another`,
          evidence,
          instead,
        };
    }
  },
});
