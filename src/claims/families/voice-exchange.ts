import { equals, pitchClassOf, printPitch } from '../../score/index.js';
import type { Chord } from '../../harmony/index.js';
import type { ClaimContext } from '../model.js';
import { segmentAt } from '../../harmony/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, nothing, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { together } from '../subjects/pair.js';
import type { Pair, Together } from '../subjects/pair.js';
import { article } from '../terms/chord-name.js';
import { isNamed, noteName, printNoteName } from '../terms/note-name.js';
import type { NoteName } from '../terms/note-name.js';
import { have, haveNo, printHas, printVerb, verb } from '../terms/verb.js';

/** Two lines that take each other's note, and which two where they are named. */
export interface ExchangeSays {
  readonly notes?: readonly [NoteName, NoteName];
}

const twoNotes: Parser<ExchangeSays> = map(
  sequence(
    quiet(optional(word('the notes', 'notes', 'the tones', 'their notes'))),
    noteName,
    word('and', 'with', 'for'),
    noteName,
  ),
  ([, first, , second]) => ({ notes: [first, second] }),
);
const anExchange: Parser<ExchangeSays> = map(
  sequence(
    quiet(optional(article)),
    word('voice exchange', 'exchange of voices', 'exchange'),
    optional(map(sequence(word('of', 'on', 'with'), twoNotes), ([, says]) => says)),
  ),
  ([, , says]) => says ?? {},
);
const exchanged: Parser<ExchangeSays> = choice(
  twoNotes,
  map(word('notes', 'their notes', 'pitches', 'voices', 'places'), () => ({})),
  nothing({}),
);

/** Notes of each line between its two notes of an exchange while the harmony changes: one may pass between them (common practice). */
const mostBetween = 1;
/** Bars over which the members of one harmony may change places, with other chords that pass between them. */
const mostBars = 2;

interface Exchange {
  readonly from: Together;
  readonly to: Together;
  /** Both are members of the same harmony at both ends. */
  readonly inOneChord: boolean;
}

const passedIn = (between: readonly Together[], line: 'upper' | 'lower', ends: readonly Together[]): number =>
  new Set(between.map(each => each[line].id).filter(id => !ends.some(each => each[line].id === id))).size;

/** The chord of a moment where both notes belong to it. */
function chordUnder({ upper, lower, start }: Together, { analysis }: ClaimContext): Chord | undefined {
  const chord = segmentAt(analysis, start)?.chord;
  return [upper, lower].every(({ pitch }) => chord?.tones.includes(pitchClassOf(pitch)) === true)
    ? chord
    : undefined;
}

/** Where the upper line takes the note of the lower and the lower that of the upper, those of one harmony first. */
function exchangesIn(
  pairs: readonly Together[],
  { notes }: ExchangeSays,
  context: ClaimContext,
): readonly Exchange[] {
  const isAsked = ({ upper, lower }: Together): boolean =>
    notes === undefined ||
    (isNamed(upper, notes[0]) && isNamed(lower, notes[1])) ||
    (isNamed(upper, notes[1]) && isNamed(lower, notes[0]));
  const found = pairs.flatMap((from, at) => {
    const [a, b] = [pitchClassOf(from.upper.pitch), pitchClassOf(from.lower.pitch)];
    if (a === b || !isAsked(from)) return [];
    return pairs.slice(at + 1).flatMap((to, index): readonly Exchange[] => {
      if (pitchClassOf(to.upper.pitch) !== b || pitchClassOf(to.lower.pitch) !== a) return [];
      const between = pairs.slice(at + 1, at + 1 + index);
      const chord = chordUnder(from, context);
      const inOneChord =
        chord !== undefined &&
        chordUnder(to, context)?.root === chord.root &&
        to.upper.bar - from.upper.bar <= mostBars;
      const isNear = (['upper', 'lower'] as const).every(
        line => passedIn(between, line, [from, to]) <= mostBetween,
      );
      return inOneChord || isNear ? [{ from, to, inOneChord }] : [];
    });
  });
  return [...found].sort((x, y) => Number(y.inOneChord) - Number(x.inOneChord));
}

/** Voice exchange: claim I8 of the trade. */
export const voiceExchangeFamily = family<Pair, ExchangeSays>({
  name: 'voice exchange',
  examples: ['the soprano and the bass of bars 1-3 have a voice exchange'],
  phrases: [
    [have, anExchange],
    [haveNo, anExchange],
    [verb('makes', 'make'), anExchange],
    [verb('exchanges', 'exchange'), exchanged],
    [verb('swaps', 'swap'), exchanged],
  ],
  print: ({ notes }, form) =>
    notes === undefined
      ? printHas(form, 'a', 'voice exchange')
      : `${printVerb('exchanges', 'exchange', form)} ${notes.map(printNoteName).join(' and ')}`,
  check: (pair, says, context): Finding<Pair> => {
    const pairs = together(pair.upper, pair.lower).filter(
      (each, at, all) => !equals(each.start, all[at - 1]?.start ?? each.end),
    );
    const [found] = exchangesIn(pairs, says, context);
    if (found === undefined)
      return {
        verdict: 'fails',
        code: 'C1064',
        reason: `neither line of ${pair.name} takes the note of the other while the other takes its note`,
        evidence: [],
      };
    const { from, to, inOneChord } = found;
    const notes = [from, to].flatMap(({ upper, lower }) => [upper, lower]);
    const holds = inOneChord || says.notes !== undefined;
    return {
      verdict: holds ? 'holds' : 'arguable',
      code: holds ? 'C1063' : 'C1065',
      reason: `${printPitch(from.upper.pitch)} over ${printPitch(from.lower.pitch)} becomes ${printPitch(to.upper.pitch)} over ${printPitch(to.lower.pitch)}${inOneChord ? '' : ', but the chord changes'}`,
      evidence: notes.map(note => noteEvidence('supports', note, 'exchanged', context)),
    };
  },
});
