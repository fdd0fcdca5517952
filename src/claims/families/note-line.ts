import { midiOf, printPitch } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { voiceTitle } from '../subjects/voice-title.js';
import { lineName, printLine } from '../subjects/line-name.js';
import type { LineName } from '../subjects/line-name.js';
import { describeLines, lineNotes } from '../subjects/line-notes.js';
import type { PointedNotes } from '../subjects/note.js';
import { soundingIn, struckHead } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { be, printBe, verb } from '../terms/verb.js';

/** The line in which a note lies, or any between the highest and the lowest. */
export type NoteLineSays = { readonly line: LineName } | { readonly inner: true };

export const inLine: Parser<NoteLineSays> = map(
  sequence(
    word('in'),
    choice<NoteLineSays>(
      map(word('an inner voice', 'an inner part', 'an inner line', 'one of the inner voices'), () => ({
        inner: true,
      })),
      map(lineName, line => ({ line })),
    ),
  ),
  ([, says]) => says,
);

/** The heads of a line in a place by the notes that were struck for them; `undefined` where the score has no such line. */
function headsOf(line: LineName, { range }: Span, { analysis }: ClaimContext): ReadonlySet<Note> | undefined {
  const notes = lineNotes(analysis.score, line, range);
  return notes === undefined
    ? undefined
    : new Set(notes.map(({ note }) => struckHead(note, analysis.score.notes)));
}

/** Whether something sounds above a note and something below it while it begins. */
function isInner(note: Note, { analysis }: ClaimContext): boolean {
  const together = soundingIn(analysis.score, { start: note.onset, end: note.onset });
  const own = midiOf(note.pitch);
  return (
    together.some(({ pitch }) => midiOf(pitch) > own) && together.some(({ pitch }) => midiOf(pitch) < own)
  );
}

const titleOf = (note: Note, { analysis }: ClaimContext): string => {
  const voice = analysis.score.voices.find(({ id }) => id === note.voice);
  return voice === undefined ? note.voice : voiceTitle(voice, analysis.score);
};

/** Which line has a note: of several notes of a name one is enough. */
export const noteLineFamily = family<PointedNotes, NoteLineSays>({
  name: 'line of a note',
  examples: ['the A# of bar 2 is in the left hand', 'the leading tone of bar 2 is in the bass'],
  phrases: [
    [be, inLine],
    ...['lies', 'appears', 'sounds'].map(each => [verb(each, each.slice(0, -1)), inLine] as const),
  ],
  print: (says, form) => `${printBe(form)} in ${'inner' in says ? 'an inner voice' : printLine(says.line)}`,
  check: ({ span, notes }, says, context, make): Finding<PointedNotes> => {
    const heads = 'inner' in says ? undefined : headsOf(says.line, span, context);
    if (!('inner' in says) && heads === undefined)
      return {
        verdict: 'undecided',
        code: 'C0006',
        reason: `the score has no line that is called ${printLine(says.line)}: ${describeLines(context.analysis.score)}`,
        evidence: [],
        pointless: true,
      };
    const isThere = (note: Note): boolean =>
      heads === undefined
        ? isInner(note, context)
        : heads.has(struckHead(note, context.analysis.score.notes));
    const found = notes.filter(isThere);
    const holds = found.length > 0;
    const shown = holds ? found : notes;
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C0341' : 'C0342',
      reason: [
        ...new Set(shown.map(note => `${printPitch(note.pitch)} is in ${titleOf(note, context)}`)),
      ].join(', '),
      evidence: shown.map(note =>
        noteEvidence(holds ? 'supports' : 'contradicts', note, titleOf(note, context), context),
      ),
      instead: () =>
        (['soprano', 'alto', 'tenor', 'bass'] as const).map(part => make({ line: { kind: 'part', part } })),
    };
  },
});
