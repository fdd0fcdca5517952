import { numeralToken } from '../terms/numeral.js';
import { rootedChord } from '../terms/chord-name.js';
import { chord, printChord, printRomanNumeral, realize } from '../../harmony/index.js';
import type { Chord, RomanNumeral } from '../../harmony/index.js';
import { pitchClassOf, printPitchClass, subtract, toNumber } from '../../score/index.js';
import type { Finding, Subject } from '../claim.js';
import { family } from '../family.js';
import { choice, map, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Range } from '../model.js';
import { printPlace, scope } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { segmentsIn } from '../segments.js';
import { harmoniesOf } from '../subjects/harmonies.js';
import { soundEnd, soundingIn } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { subjectAt } from '../subjects/subject-at.js';
import { chordSymbol } from '../terms/chord-name.js';
import { pitchClassName } from '../terms/note-name.js';
import { be, printBe } from '../terms/verb.js';
import { nothingSounds } from './judged.js';

type What = 'note' | 'chord';

/** The notes or chords of a place, to be ranked. */
export interface Ranked {
  readonly what: What;
  readonly span: Span;
}

const ranked = (what: What, place: Place): Subject<Ranked> =>
  subjectAt({
    content: { ranked: what, place },
    print: () => `the most frequent ${what} of ${printPlace(place)}`,
    place,
    fixed: true,
    again: other => ranked(what, other),
    find: whole => ({ kind: 'found', subject: { what, span: whole } }),
  });

/** `the most frequent chord of bars 1-8`. */
export const rankedSubject: Parser<Subject<Ranked>> = map(
  sequence(
    word('the'),
    word('most frequent', 'commonest', 'most common'),
    wordsFor<What>([
      ['note', 'note', 'pitch'],
      ['chord', 'chord', 'harmony'],
    ]),
    scope,
  ),
  ([, , what, place]) => ranked(what, place),
);

interface Entry {
  readonly name: string;
  times: number;
  length: number;
}

function tally(what: What, range: Range, context: ClaimContext): readonly Entry[] {
  const entries = new Map<string, Entry>();
  const add = (name: string, length: number): void => {
    const entry = entries.get(name) ?? { name, times: 0, length: 0 };
    entry.times += 1;
    entry.length += length;
    entries.set(name, entry);
  };
  const { score } = context.analysis;
  if (what === 'note')
    for (const note of soundingIn(score, range)) {
      if (note.tiedFrom === undefined && !note.grace)
        add(printPitchClass(pitchClassOf(note.pitch)), toNumber(subtract(soundEnd(note, score), note.onset)));
    }
  else
    for (const { segments, start, end } of harmoniesOf(segmentsIn(context.analysis, range)))
      add(printChord({ ...segments[0].chord, inversion: 0 }), toNumber(subtract(end, start)));
  return [...entries.values()];
}

const top = (entries: readonly Entry[], by: 'times' | 'length'): readonly string[] => {
  const most = Math.max(...entries.map(entry => entry[by]));
  return entries.filter(entry => entry[by] === most).map(entry => entry.name);
};

type FrequencySays = { readonly name: string } | { readonly numeral: RomanNumeral };

/** Superlatives of frequency: claim O2 of the trade. Ties and the difference between count and duration are told. */
export const frequencyFamily = family<Ranked, FrequencySays>({
  name: 'frequency',
  examples: ['the most frequent chord of bars 1-3 is Bm', 'the most frequent note of the piece is B'],
  phrases: [
    [
      be,
      choice<FrequencySays>(
        map(chordSymbol, (of: Chord) => ({ name: printChord({ ...of, inversion: 0 }) })),
        map(pitchClassName, tone => ({ name: printPitchClass(tone) })),
        map(rootedChord, ({ root, quality }) => ({ name: printChord(chord(root, quality)) })),
        map(numeralToken, numeral => ({ numeral })),
      ),
    ],
  ],
  print: (says, form) => `${printBe(form)} ${'name' in says ? says.name : printRomanNumeral(says.numeral)}`,
  check: ({ what, span: where }, says, context, make): Finding<Ranked> => {
    const name =
      'name' in says
        ? says.name
        : printChord({
            ...realize(says.numeral, context.home, context.conventions['seventh-on-I']),
            inversion: 0,
          });
    const entries = tally(what, where.range, context);
    if (entries.length === 0) return nothingSounds(where.name);
    const byTimes = top(entries, 'times');
    const byLength = top(entries, 'length');
    const ranking = [...entries]
      .sort((a, b) => b.times - a.times || b.length - a.length)
      .slice(0, 4)
      .map(entry => `${entry.name} ${String(entry.times)}`)
      .join(', ');
    const alone = byTimes.length === 1 && byTimes[0] === name;
    const instead = () => byTimes.slice(0, 1).map(each => make({ name: each }));
    if (alone && byLength.includes(name))
      return { verdict: 'holds', code: 'C1921', reason: `by count ${ranking}`, evidence: [] };
    if (byTimes.includes(name) || byLength.includes(name))
      return {
        verdict: 'arguable',
        code: 'C1923',
        reason: byTimes.includes(name)
          ? byTimes.length > 1
            ? `${byTimes.join(' and ')} are equally frequent: ${ranking}`
            : `by count ${ranking}; ${byLength.join(' and ')} sounds longest`
          : `it sounds longest, but by count ${ranking}`,
        evidence: [],
        instead,
      };
    return { verdict: 'fails', code: 'C1922', reason: `by count ${ranking}`, evidence: [], instead };
  },
});
