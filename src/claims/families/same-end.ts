import { midiOf, pitchClassOf, printPitch } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { Pair } from '../subjects/pair.js';
import { article, withArticle } from '../terms/chord-name.js';
import {
  intervalBetween,
  intervalSize,
  isOfSize,
  printInterval,
  printSize,
  simple,
} from '../terms/interval-name.js';
import type { IntervalSize } from '../terms/interval-name.js';
import { isNamed, noteName, printNoteName } from '../terms/note-name.js';
import type { NoteName } from '../terms/note-name.js';
import { printVerb, verb } from '../terms/verb.js';

/** The first or the last notes of two lines: the same note, one that is named, or so far apart. */
export type SameEndSays = { readonly how: 'begin' | 'end' } & (
  { readonly note?: NoteName } | { readonly apart: IntervalSize }
);
type Relation = { readonly note?: NoteName } | { readonly apart: IntervalSize };

const relation: Parser<Relation> = choice<Relation>(
  map(
    word(
      'on the same note',
      'on the same pitch',
      'with the same note',
      'on a unison',
      'on the unison',
      'with a unison',
      'in unison',
      'on one note',
    ),
    () => ({}),
  ),
  map(sequence(word('together on', 'on', 'both on'), quiet(optional(article)), noteName), ([, , note]) => ({
    note,
  })),
  map(
    sequence(quiet(optional(word('with', 'on'))), quiet(optional(article)), intervalSize, word('apart')),
    ([, , apart]) => ({ apart }),
  ),
  map(word('in octaves'), () => ({ apart: { steps: 7, semitones: 12 } })),
);

const edges = (
  [
    ['begins', 'begin', 'begin'],
    ['starts', 'start', 'begin'],
    ['opens', 'open', 'begin'],
    ['ends', 'end', 'end'],
    ['finishes', 'finish', 'end'],
    ['closes', 'close', 'end'],
    ['concludes', 'conclude', 'end'],
  ] as const
).map(
  ([singular, plural, how]) =>
    [verb(singular, plural), map(relation, (says): SameEndSays => ({ how, ...says }))] as const,
);

/** Two lines that begin or end together: claims A1 and I1 of the trade, for two lines at once. */
export const sameEndFamily = family<Pair, SameEndSays>({
  name: 'two lines at their ends',
  examples: ['the right hand and the left hand of bars 31-32 end on B'],
  phrases: edges,
  print: (says, form) =>
    `${says.how === 'end' ? printVerb('ends', 'end', form) : printVerb('begins', 'begin', form)} ${
      'apart' in says
        ? `${withArticle(printSize(says.apart))} apart`
        : says.note === undefined
          ? 'on the same note'
          : `on ${printNoteName(says.note)}`
    }`,
  check: ({ upper, lower, name }, says, context, make): Finding<Pair> => {
    const [a, b] = [upper, lower].map(line => (says.how === 'end' ? line.at(-1) : line[0])?.note);
    if (a === undefined || b === undefined)
      return {
        verdict: 'undecided',
        code: 'C0005',
        reason: `one of the lines rests in ${name}`,
        evidence: [],
        pointless: true,
      };
    const size = intervalBetween(a.pitch, b.pitch);
    const isSame = midiOf(a.pitch) === midiOf(b.pitch);
    const inOctaves = !isSame && pitchClassOf(a.pitch) === pitchClassOf(b.pitch);
    const { holds, nearly } = fitting(says, a, b);
    return {
      verdict: holds ? 'holds' : nearly ? 'arguable' : 'fails',
      code: holds ? 'C1001' : nearly ? 'C1005' : 'C1002',
      reason: `the ${says.how === 'end' ? 'last' : 'first'} notes are ${printPitch(a.pitch)} and ${printPitch(b.pitch)}, ${isSame ? 'a unison' : withArticle(printInterval(size))}`,
      evidence: [a, b].map(note =>
        noteEvidence(
          holds || nearly ? 'supports' : 'contradicts',
          note,
          `the ${says.how === 'end' ? 'last' : 'first'} note`,
          context,
        ),
      ),
      instead: () =>
        inOctaves || isSame
          ? [make({ how: says.how, note: { pitchClass: pitchClassOf(a.pitch) } })]
          : [make({ how: says.how, apart: size })],
    };
  },
});

/** One name in two octaves is the same note to some, and an octave to others. */
function fitting(says: SameEndSays, a: Note, b: Note): { readonly holds: boolean; readonly nearly: boolean } {
  if ('apart' in says) {
    const size = intervalBetween(a.pitch, b.pitch);
    const holds = isOfSize(size, says.apart) || isOfSize(simple(size), says.apart);
    return { holds, nearly: false };
  }
  const { note } = says;
  if (note !== undefined) return { holds: isNamed(a, note) && isNamed(b, note), nearly: false };
  return {
    holds: midiOf(a.pitch) === midiOf(b.pitch) && pitchClassOf(a.pitch) === pitchClassOf(b.pitch),
    nearly: pitchClassOf(a.pitch) === pitchClassOf(b.pitch),
  };
}
