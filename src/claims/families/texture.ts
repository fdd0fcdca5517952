import { article } from '../terms/chord-name.js';
import { compare, equals, isBefore, midiOf } from '../../score/index.js';
import type { Fraction, Note } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import { choice, map, mark, nothing, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { negation } from '../negation.js';
import { sayMoment } from '../place/say-moment.js';
import { soundingIn, noteEnd } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { count } from '../terms/number.js';
import { be, have, printBe, printHave, verb } from '../terms/verb.js';
import { textureFinding } from './texture-finding.js';
import { nothingSounds } from './judged.js';

/** How many notes sound together, and whether they move together. */
export type TextureSays =
  | { readonly kind: 'voices'; readonly voices: number }
  | { readonly kind: 'homophonic' | 'homorhythmic' | 'polyphonic' | 'monophonic' | 'silent' };

const voices: Parser<TextureSays> = map(
  sequence(count, word('voices', 'voice', 'parts', 'part')),
  ([number]) => ({ kind: 'voices', voices: number }),
);
const kinds: Parser<TextureSays> = choice<TextureSays>(
  // `Chordal` is said of a chorale with its passing notes too.
  map(word('homophonic', 'chordal'), () => ({ kind: 'homophonic' })),
  map(word('homorhythmic', 'in block chords'), () => ({ kind: 'homorhythmic' })),
  map(word('polyphonic', 'contrapuntal'), () => ({ kind: 'polyphonic' })),
  map(word('monophonic', 'in unison'), () => ({ kind: 'monophonic' })),
  map(word('silent', 'a rest', 'empty'), () => ({ kind: 'silent' })),
  map(sequence(count, quiet(optional(mark('-'))), word('part', 'voice')), ([number]) => ({
    kind: 'voices',
    voices: number,
  })),
);
const aTexture: Parser<TextureSays> = choice(
  map(
    sequence(article, count, quiet(optional(mark('-'))), word('part', 'voice'), word('texture')),
    ([, voices_]): TextureSays => ({
      kind: 'voices',
      voices: voices_,
    }),
  ),
  map(sequence(article, kinds, word('texture')), ([, says]) => says),
);
/** Moments at which a note begins. */
function onsets(notes: readonly Note[], { range }: Span): readonly Fraction[] {
  const all = notes
    .filter(note => note.tiedFrom === undefined && compare(range.start, note.onset) <= 0)
    .map(note => note.onset)
    .sort(compare);
  return all.filter((onset, at) => at === 0 || !equals(onset, all[at - 1] ?? onset));
}

const soundingAt = (notes: readonly Note[], moment: Fraction): readonly Note[] =>
  notes.filter(note => compare(note.onset, moment) <= 0 && isBefore(moment, noteEnd(note)));

/** Keys of the keyboard that sound at once: doubled unisons count once. */
const size = (notes: readonly Note[]): number => new Set(notes.map(note => midiOf(note.pitch))).size;

/** Voices that strike together so often are chords with passing tones rather than lines (common practice: a chorale is homophonic). */
const mostlyTogether = 0.75;

/** Number of voices, homophony: claim J2 of the trade. */
export const textureFamily = family<Span, TextureSays>({
  name: 'texture',
  examples: ['bar 1 beat 1 has 2 voices', 'bars 1-4 are homophonic', 'bar 12 is silent'],
  phrases: [
    [have, voices],
    [be, kinds],
    [have, aTexture],
    [be, map(sequence(word('in'), voices), ([, says]) => says)],
  ],
  aspects: [
    [word('texture'), be, kinds],
    [
      sequence(word('all'), quiet(optional(choice<unknown>(word('the'), count))), word('voices', 'parts')),
      choice(
        verb('moves together', 'move together'),
        verb('moves in the same rhythm', 'move in the same rhythm'),
      ),
      nothing<TextureSays>({ kind: 'homorhythmic' }),
    ],
  ],
  print: (says, form) => {
    switch (says.kind) {
      case 'voices':
        return `${printHave(form)} ${String(says.voices)} ${says.voices === 1 ? 'voice' : 'voices'}`;
      case 'homophonic':
      case 'homorhythmic':
      case 'polyphonic':
      case 'monophonic':
      case 'silent':
        return `${printBe(form)} ${says.kind}`;
    }
  },
  check: (span, says, context, make): Finding<Span> => {
    const { score } = context.analysis;
    const notes = soundingIn(score, span.range).filter(note => !note.grace);
    if (says.kind === 'silent')
      return {
        ...textureFinding(
          notes.length === 0,
          notes.length === 0
            ? `nothing sounds in ${span.name}`
            : `${String(notes.length)} notes sound in ${span.name}`,
          notes,
          context,
        ),
        local: true,
      };
    if (notes.length === 0) return nothingSounds(span.name);
    const times = onsets(notes, span);
    const most = times.reduce(
      (max, time) => Math.max(max, size(soundingAt(notes, time))),
      size(soundingAt(notes, span.range.start)),
    );
    switch (says.kind) {
      case 'voices': {
        const fuller = times.filter(time => size(soundingAt(notes, time)) > says.voices);
        const [first] = fuller;
        const parts = new Set(
          score.voices.filter(
            ({ id, overlayOf }) => overlayOf === undefined && notes.some(note => note.voice === id),
          ),
        ).size;
        // So many parts, one of which plays a double stop now and then.
        if (
          first !== undefined &&
          parts === says.voices &&
          times.length - fuller.length >= mostlyTogether * times.length
        )
          return {
            ...textureFinding(false, '', soundingAt(notes, first), context),
            verdict: 'arguable',
            code: 'C1315',
            reason: `${String(parts)} parts play, and one of them more than one note at once: ${String(most)} notes sound in ${sayMoment(first, context)}`,
          };
        return {
          ...textureFinding(
            most === says.voices,
            `at most ${String(most)} ${most === 1 ? 'note sounds' : 'notes sound'} together`,
            notes,
            context,
          ),
          instead: () => [make({ kind: 'voices', voices: most })],
        };
      }
      case 'monophonic':
        return {
          ...textureFinding(most === 1, `at most ${String(most)} notes sound together`, notes, context),
          instead: () => [make({ kind: 'voices', voices: most })],
        };
      case 'homophonic':
      case 'homorhythmic':
      case 'polyphonic': {
        const alone = times.filter(time => {
          const struck = notes.filter(note => equals(note.onset, time) && note.tiedFrom === undefined).length;
          return struck < soundingAt(notes, time).length;
        });
        const [first] = alone;
        const together = times.length - alone.length;
        const isMostly = together >= mostlyTogether * times.length;
        const moving = first === undefined ? [] : notes.filter(note => equals(note.onset, first));
        if (says.kind === 'homophonic' && first !== undefined && most > 1 && isMostly)
          return {
            ...textureFinding(true, '', moving, context),
            reason: `all voices strike together ${String(together)} of ${String(times.length)} times; between them single voices pass`,
          };
        if (says.kind !== 'homorhythmic' && first !== undefined && most > 1)
          return {
            ...textureFinding(false, '', moving, context),
            verdict: says.kind === 'homophonic' ? 'arguable' : 'undecided',
            code: 'C1314',
            reason: `${String(alone.length)} of ${String(times.length)} times a voice moves while another is held; whether that is a melody with its accompaniment, which many call homophonic, or lines of equal weight is a matter of hearing`,
            instead: () => [negation(make({ kind: 'homorhythmic' }))],
          };
        if (says.kind === 'polyphonic')
          return {
            ...textureFinding(
              false,
              most > 1 ? 'all voices strike together' : 'one note sounds at a time',
              notes,
              context,
            ),
            instead: () => [make({ kind: most > 1 ? 'homorhythmic' : 'monophonic' })],
          };
        return textureFinding(
          alone.length === 0,
          alone.length === 0
            ? 'all voices strike together'
            : `${String(alone.length)} of ${String(times.length)} times a voice moves while another is held`,
          first === undefined ? notes : moving,
          context,
        );
      }
    }
  },
});
