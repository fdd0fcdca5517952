import { isBefore, printPitch } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import { noteEvidence } from '../evidence.js';
import { choice, map, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { noteFamily } from '../note-family.js';
import type { NoteFinding } from '../note-family.js';
import { barAt } from '../place/beats.js';
import { oneBar } from '../place/place-name.js';
import { sayMoment } from '../place/say-moment.js';
import { soundEnd, struckHead } from '../subjects/sounding.js';
import { be, printBe } from '../terms/verb.js';

/** A note that is held over a bar line, into a bar where that is said. */
export interface TieSays {
  readonly into?: string;
}

const overTheLine = quiet(
  optional(
    word(
      'over',
      'across',
      'over the bar line',
      'over the barline',
      'across the bar line',
      'across the barline',
    ),
  ),
);
const complement: Parser<TieSays> = map(
  sequence(
    word('tied', 'held', 'sustained'),
    choice(
      map(sequence(overTheLine, word('into', 'to'), oneBar), ([, , into]) => into),
      map(
        word('over', 'over the bar line', 'over the barline', 'across the bar line', 'across the barline'),
        () => undefined,
      ),
    ),
  ),
  ([, into]) => (into === undefined ? {} : { into }),
);

/** The bars in which a note sounds, from the one where it is struck. */
function barsOf(note: Note, context: ClaimContext): readonly string[] {
  const { score } = context.analysis;
  const head = struckHead(note, score.notes);
  const end = soundEnd(head, score);
  const first = barAt(score, head.onset);
  if (first === undefined) return [];
  return score.bars.filter(bar => bar.index >= first.index && isBefore(bar.start, end)).map(bar => bar.label);
}

function checkNote(note: Note, says: TieSays, _span: unknown, context: ClaimContext): NoteFinding<TieSays> {
  const [, ...others] = barsOf(note, context);
  const holds = says.into === undefined ? others.length > 0 : others.includes(says.into);
  const head = struckHead(note, context.analysis.score.notes);
  return {
    verdict: holds ? 'holds' : 'fails',
    code: holds ? 'C1641' : 'C1642',
    reason:
      others.length === 0
        ? `${printPitch(note.pitch)} is not held over a bar line`
        : `${printPitch(note.pitch)}, struck in ${sayMoment(head.onset, context)}, is held into bar ${others.at(-1) ?? ''}`,
    evidence: [noteEvidence(holds ? 'supports' : 'contradicts', head, 'the note that is held', context)],
    ...(holds || others.length === 0 ? {} : { instead: [{ into: others.at(-1) ?? '' }] }),
  };
}

/** Ties over the bar line: claim A1 of the trade, a note that sounds and is not struck. */
export const tieFamily = noteFamily<TieSays>({
  name: 'tie',
  examples: ['the C#5 of bar 2 is tied into bar 3', 'the F#5 of bar 4 is tied over the bar line'],
  phrases: [[be, complement]],
  print: ({ into }, form) =>
    `${printBe(form)} tied ${into === undefined ? 'over the bar line' : `into bar ${into}`}`,
  checkNote,
}).ofNotes;
