import { compare, equals, isBefore, pitchClassOf, printPitch, printPitchClass } from '../../score/index.js';
import type { Note, PitchClass } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, mark, optional, quiet, sequence, word } from '../grammar/index.js';
import { printLine } from '../subjects/line-name.js';
import type { LineName } from '../subjects/line-name.js';
import { describeLines, lineNotes } from '../subjects/line-notes.js';
import type { LineNote } from '../subjects/line-notes.js';
import { twoLines } from '../subjects/pair.js';
import type { Span } from '../subjects/span.js';
import { textureLines } from '../subjects/texture.js';
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

/** At once, or the one begins where the other ends. */
const isNear = (a: LineNote, b: LineNote): boolean =>
  equals(a.end, b.start) || equals(b.end, a.start) || (isBefore(a.start, b.end) && isBefore(b.start, a.end));

/** The line that had the first form goes on to the second itself: a chromatic step, and no cross relation. */
function isOwnStep(first: LineNote, line: readonly LineNote[], second: Note): boolean {
  const next = line[line.indexOf(first) + 1];
  return next !== undefined && pitchClassOf(next.note.pitch) === pitchClassOf(second.pitch);
}

function relations(lines: readonly (readonly LineNote[])[]): readonly (readonly [Note, Note])[] {
  const found: (readonly [Note, Note])[] = [];
  lines.forEach((one, at) => {
    lines.slice(at + 1).forEach(other => {
      for (const a of one)
        for (const b of other) {
          const [first, second] = compare(a.start, b.start) <= 0 ? [a, b] : [b, a];
          const line = first === a ? one : other;
          if (a.note.pitch.letter !== b.note.pitch.letter || a.note.pitch.alter === b.note.pitch.alter)
            continue;
          if (isNear(a, b) && !isOwnStep(first, line, second.note)) found.push([first.note, second.note]);
        }
    });
  });
  return found;
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
    const anywhere = (): readonly (readonly LineNote[])[] =>
      textureLines(score, span.range).map(line => line.notes);
    const all = relations(named?.flatMap(notes => (notes === undefined ? [] : [notes])) ?? anywhere());
    const found = all.filter(
      pair => tones === undefined || pair.every(note => tones.includes(pitchClassOf(note.pitch))),
    );
    const [first] = found;
    const [other] = all;
    if (first === undefined)
      return {
        verdict: 'fails',
        code: 'C1032',
        reason:
          other === undefined
            ? `no letter appears in two forms in neighbouring lines and chords of ${span.name}`
            : `the cross relation of ${span.name} is between ${printPitch(other[0].pitch)} and ${printPitch(other[1].pitch)}`,
        evidence: [],
        instead: () =>
          (all.length > 0 ? all : relations(anywhere()))
            .slice(0, 1)
            .map(([a, b]) => make({ tones: [pitchClassOf(a.pitch), pitchClassOf(b.pitch)] })),
      };
    return {
      verdict: 'holds',
      code: 'C1031',
      reason: `${printPitch(first[0].pitch)} and ${printPitch(first[1].pitch)} follow each other in different lines`,
      evidence: found
        .slice(0, 4)
        .flatMap(pair =>
          pair.map(note => noteEvidence('supports', note, 'the same letter, another accidental', context)),
        ),
    };
  },
});
