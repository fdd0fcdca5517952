import { midiOf, pitchClassOf, printPitchClass, transposed } from '../../score/index.js';
import type { Note, PitchClass } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, sequence, shapes, token, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { soundingIn } from '../subjects/sounding.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { article, withArticle } from '../terms/chord-name.js';
import { pitchClassName, pitchClassOfName } from '../terms/note-name.js';
import { be, printBe } from '../terms/verb.js';
import { silence } from './judged.js';

type Kind = 'sus4' | 'sus2' | 'open fifth';

/** A chord without a third: a fourth or a second stands in its place, or nothing. */
export interface NoThirdSays {
  readonly kind: Kind;
  readonly root?: PitchClass;
}

const { character, inOrder, maybe, oneOf } = shapes;

/** `Dsus4` (common practice of chord symbols). */
const symbol: Parser<NoThirdSays> = token({
  name: 'SuspendedChord',
  label: 'a suspended chord such as `Dsus4`',
  shape: inOrder(character('A-G'), maybe(oneOf('#', 'b', '♯', '♭')), oneOf('sus4', 'sus2', 'sus')),
  value: matched => {
    const [, name = '', kind] = /^(.*?)sus([24]?)$/u.exec(matched) ?? [];
    const root = pitchClassOfName(name);
    return root === undefined ? undefined : { kind: kind === '2' ? 'sus2' : 'sus4', root };
  },
});
const made = (kind: Kind, root: PitchClass | undefined): NoThirdSays =>
  root === undefined ? { kind } : { kind, root };
const chordNoun = quiet(optional(word('chord', 'harmony')));
const complement: Parser<NoThirdSays> = choice(
  map(sequence(quiet(optional(article)), symbol, chordNoun), ([, says]) => says),
  map(
    sequence(
      quiet(optional(article)),
      optional(pitchClassName),
      wordsFor<Kind>([
        ['sus4', 'sus4', 'suspended fourth', 'suspended'],
        ['sus2', 'sus2', 'suspended second'],
      ]),
      word('chord', 'harmony'),
      optional(map(sequence(word('on'), pitchClassName), ([, root]) => root)),
    ),
    ([, before, kind, , after]) => made(kind, before ?? after),
  ),
  map(
    sequence(
      quiet(optional(article)),
      word('open fifth', 'bare fifth', 'empty fifth'),
      optional(map(sequence(word('on'), pitchClassName), ([, root]) => root)),
    ),
    ([, , root]) => made('open fifth', root),
  ),
);

/** Above its root, in fifths: a fifth is one up, a fourth one down, a second two up. */
const tonesOn = (root: PitchClass, kind: Kind): readonly PitchClass[] => {
  const fifth = transposed(root, 1);
  return kind === 'open fifth' ? [root, fifth] : [root, transposed(root, kind === 'sus4' ? -1 : 2), fifth];
};

const nameOf = ({ kind, root }: NoThirdSays): string => {
  const noun = kind === 'open fifth' ? kind : `${kind} chord`;
  return withArticle(root === undefined ? noun : `${noun} on ${printPitchClass(root)}`);
};

/** Suspended chords and open fifths: claim B4 of the trade, by all the notes that sound. */
export const noThirdFamily = family<Span, NoThirdSays>({
  name: 'chord without a third',
  examples: ['bar 8 beat 1 is a sus4 chord', 'bar 8 is an open fifth on F#'],
  phrases: [[be, complement]],
  print: (says, form) => `${printBe(form)} ${nameOf(says)}`,
  check: (span, says, context, make): Finding<Span> => {
    const range = rangeOrMoment(span);
    const silent = silence<Span>(range, span.name, context);
    if (silent !== undefined) return silent;
    const notes = soundingIn(context.analysis.score, range).filter(note => !note.grace);
    const present = [...new Set(notes.map(note => pitchClassOf(note.pitch)))];
    const bass = notes.reduce<Note | undefined>(
      (low, note) => (low === undefined || midiOf(note.pitch) < midiOf(low.pitch) ? note : low),
      undefined,
    );
    const bassTone = bass === undefined ? undefined : pitchClassOf(bass.pitch);
    const isAll = (root: PitchClass, kind: Kind): boolean => {
      const wanted = tonesOn(root, kind);
      return wanted.length === present.length && wanted.every(tone => present.includes(tone));
    };
    const roots = says.root === undefined ? present : [says.root];
    const root =
      roots.find(each => isAll(each, says.kind) && each === bassTone) ??
      roots.find(each => isAll(each, says.kind));
    const sounding = present.map(printPitchClass).join(' ');
    if (root !== undefined) {
      // D G A is Dsus4 and Gsus2: the bass says which.
      const isSure = root === bassTone || says.kind === 'open fifth';
      return {
        verdict: isSure ? 'holds' : 'arguable',
        code: isSure ? 'C0101' : 'C0102',
        reason: isSure
          ? `${sounding} sound, and no third of ${printPitchClass(root)}`
          : `${sounding} sound, and ${printPitchClass(root)} is not the bass: another name fits them as well`,
        evidence: notes.slice(0, 8).map(note => noteEvidence('supports', note, 'sounding', context)),
      };
    }
    const kinds: readonly Kind[] = ['sus4', 'sus2', 'open fifth'];
    return {
      verdict: 'fails',
      code: 'C0104',
      reason: `${sounding} sound in ${span.name}`,
      evidence: notes.slice(0, 8).map(note => noteEvidence('contradicts', note, 'sounding', context)),
      instead: () =>
        kinds.flatMap(kind =>
          present
            .filter(each => isAll(each, kind) && each === bassTone)
            .map(each => make({ kind, root: each })),
        ),
    };
  },
});
