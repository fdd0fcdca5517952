import { midiOf, printPitch } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, list, map, mark, optional, quiet, sequence, shapes, token, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { once } from '../subjects/note.js';
import { soundingIn } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { isNamed, noteShape, pitchClassName, pitchClassOfName, printNoteName } from '../terms/note-name.js';
import type { NoteName } from '../terms/note-name.js';
import { count, several } from '../terms/number.js';
import { have, printHave, verb } from '../terms/verb.js';
import { silence } from './judged.js';

/** How often notes are there at once: `three Fs and one A`. */
export interface NoteCountsSays {
  readonly counts: readonly { readonly number: number; readonly note: NoteName }[];
}

/** `Fs`, `F's`, `B flats`. */
const severalOfName: Parser<NoteName> = token({
  name: 'NotesOfAName',
  label: 'notes such as `Fs` or `B flats`',
  shape: shapes.inOrder(noteShape, shapes.oneOf("'s", '’s', 's')),
  value: matched => {
    const pitchClass = pitchClassOfName(matched.replace(/['’]?s$/u, ''));
    return pitchClass === undefined ? undefined : { pitchClass };
  },
});
const oneOfName: Parser<NoteName> = map(pitchClassName, pitchClass => ({ pitchClass }));
const counted: Parser<NoteCountsSays['counts'][number]> = choice(
  map(sequence(count, choice(severalOfName, oneOfName)), ([number, note]) => ({ number, note })),
  map(sequence(article, oneOfName), ([, note]) => ({ number: 1, note })),
);
const next = quiet(
  choice(
    map(sequence(mark(','), optional(word('and'))), () => undefined),
    map(word('and'), () => undefined),
  ),
);
/** One name has to be in the plural or beside another: `one A` alone says how often it occurs. */
const complement: Parser<NoteCountsSays> = choice(
  map(
    sequence(
      map(sequence(several, severalOfName), ([number, note]) => ({ number, note })),
      optional(map(sequence(next, list(counted, next)), ([, others]) => others)),
    ),
    ([first, others]) => ({ counts: [first, ...(others ?? [])] }),
  ),
  map(
    sequence(
      map(sequence(count, oneOfName), ([number, note]) => ({ number, note })),
      next,
      list(counted, next),
    ),
    ([first, , others]) => ({ counts: [first, ...others] }),
  ),
);

const saying = (number: number, note: NoteName): string =>
  `${String(number)} ${printNoteName(note)}${number === 1 ? '' : 's'}`;

/** The most notes of a name that sound at once. */
function mostAtOnce(
  notes: readonly Note[],
  name: NoteName,
  sounding: (at: Note) => readonly Note[],
): readonly Note[] {
  return notes
    .filter(note => isNamed(note, name))
    .map(note => once(sounding(note).filter(each => isNamed(each, name))))
    .reduce<readonly Note[]>((most, each) => (each.length > most.length ? each : most), []);
}

/** Doublings counted by name: claim B8 of the trade. */
export const noteCountsFamily = family<Span, NoteCountsSays>({
  name: 'number of notes',
  examples: ['bar 32 has 2 Bs and 1 D'],
  phrases: [
    [have, complement],
    [verb('consists of', 'consist of'), complement],
  ],
  print: ({ counts }, form) =>
    `${printHave(form)} ${counts.map(({ number, note }) => saying(number, note)).join(' and ')}`,
  check: (span, { counts }, context, make): Finding<Span> => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const { score } = context.analysis;
    const notes = soundingIn(score, span.range).filter(note => !note.grace);
    const found = counts.map(({ number, note }) => ({
      number,
      note,
      notes: mostAtOnce(notes, note, each => soundingIn(score, { start: each.onset, end: each.onset })),
    }));
    const wrong = found.filter(each => each.notes.length !== each.number);
    const shown = (wrong.length > 0 ? wrong : found).flatMap(each => each.notes);
    return {
      verdict: wrong.length === 0 ? 'holds' : 'fails',
      code: wrong.length === 0 ? 'C0306' : 'C0307',
      reason: found
        .map(each =>
          each.notes.length === 0
            ? `no ${printNoteName(each.note)} sounds`
            : `${each.notes
                .map(({ pitch }) => pitch)
                .sort((a, b) => midiOf(a) - midiOf(b))
                .map(printPitch)
                .join(' and ')} sound${each.notes.length === 1 ? 's' : ''} at once`,
        )
        .join('; '),
      evidence: shown
        .slice(0, 8)
        .map(note => noteEvidence(wrong.length === 0 ? 'supports' : 'contradicts', note, 'counted', context)),
      instead: () =>
        found.every(each => each.notes.length > 0)
          ? [make({ counts: found.map(each => ({ number: each.notes.length, note: each.note })) })]
          : [],
      local: true,
    };
  },
});
