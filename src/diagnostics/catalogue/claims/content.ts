import type { CatalogueEntry } from '../entry.js';

/** Findings about which notes sound. */
export const contentClaims = {
  C0301: {
    name: 'notes-as-claimed',
    summary: 'Exactly the notes that the claim names are there, or not there where it denies them.',
    explanation:
      'A note counts where it sounds, whether it is struck at the place or held into it; grace notes count. Names are compared as spelled, with the octave where the claim gives one: octave 4 begins at middle C (MusicXML 4.0, type octave). The evidence gives the first note of each name.',
  },
  C0302: {
    name: 'note-missing',
    summary: 'A note that the claim names never sounds at the place.',
    explanation:
      'Neither that note nor one a slip away (another octave, another spelling, the same letter with another accidental) sounds there. A frequent cause is an accidental that is still in force from earlier in the bar, or that the bar line has cancelled (ABC standard 2.1, section 11.3).',
  },
  C0303: {
    name: 'foreign-note',
    summary: 'A note sounds that the claim excludes.',
    explanation:
      '`has only D F# A` says that nothing else sounds, and `has no F#` that F sharp does not. The evidence gives the first note of each name that breaks the claim. `has only` also says that every note it lists is there.',
  },
  C0304: {
    name: 'foreign-note-no-chord-tone',
    summary: 'Every chord tone is one of the notes named; what else sounds is no chord tone.',
    explanation:
      '“The bar contains only D, F sharp and A” is often said of the chord, not of every passing tone. Read as all notes the claim is false, read as chord tones it is true, so it is arguable. The evidence names each note set aside with its kind. List all notes, or claim the chord: `bar 5 is D`.',
  },
  C0305: {
    name: 'note-spelled-otherwise',
    summary: 'The note that sounds is one slip away from the one named.',
    explanation:
      'F sharp and G flat are one key of the keyboard and two notes: spelling tells where the note leads. The same goes for the octave, and for the same letter with another accidental. The reason names the note that is there.\n\n```\nbar 5 has Gb      # the bar has F#\n```',
  },
  C0306: {
    name: 'as-many-notes',
    summary: 'So many notes of the name sound at once.',
    explanation: 'Of a longer place the moment counts at which most of them sound; a tied note is one.',
  },
  C0307: {
    name: 'another-number-of-notes',
    summary: 'More or fewer notes of the name sound at once.',
    explanation: 'The reason gives those that do. Notes are compared as spelled.',
  },
  C0321: {
    name: 'signs-as-claimed',
    summary: 'Notes of the place have such signs beside them.',
    explanation: 'A sharp, a flat or a natural that the key signature does not have.',
  },
  C0322: {
    name: 'no-such-sign',
    summary: 'No note of the place has such a sign.',
    explanation: 'Neither beside the note nor in the key signature.',
  },
  C0323: {
    name: 'sign-of-the-signature',
    summary: 'Only the key signature has the sign.',
    explanation:
      'Whether a bar in D major `has sharps` when F# sounds in it and no sharp is written there is a matter of words: name the notes, `bar 1 has F#`, or the signature, `the piece has a key signature of 2 sharps`.',
  },
  C0331: {
    name: 'key-signature-as-claimed',
    summary: 'The key signature is as the claim says.',
    explanation: 'The signature in force at each bar of the place; it is not the key.',
  },
  C0332: {
    name: 'key-signature-otherwise',
    summary: 'A bar of the place has another key signature.',
    explanation: 'The reason counts its sharps or flats.',
  },
  C0341: {
    name: 'note-in-that-line',
    summary: 'The note lies in the line that the claim names.',
    explanation: 'Where several lines have it, one of them is enough. The evidence names the voice of each.',
  },
  C0342: {
    name: 'note-in-another-line',
    summary: 'The note lies in another line.',
    explanation: 'The reason names the voice that has it.',
  },
  C0311: {
    name: 'line-as-claimed',
    summary: 'The line has the note that the claim names.',
    explanation:
      'The soprano and the top line are the highest note of the top staff, the bass and the bottom line the lowest note that sounds; a voice of that name in the score comes first. Over a stretch with one harmony the bass is the bass note of the chord, whatever the accompaniment adds after it.',
  },
  C0312: {
    name: 'line-moves',
    summary: 'The line has the note, and others besides.',
    explanation:
      '`the soprano of bar 3 is F#5` says that the line is that note for the whole bar. Where it is so only for a part of the bar the claim is arguable. Name the beat (`the soprano of bar 3 beat 1 is F#5`), or say `has`, `begins on` or `ends on`.',
  },
  C0313: {
    name: 'line-has-another-note',
    summary: 'The line has other notes than the one named.',
    explanation:
      'The evidence gives the notes of the line at that place. Frequent causes: the octave (octave 4 begins at middle C), an inner voice that is taken for the outer one, a bar or beat off by one, a note spelled as its enharmonic twin.',
  },
} as const satisfies Record<`C${number}`, CatalogueEntry>;
