import type { CatalogueEntry } from '../entry.js';

/** Findings that any claim can have: reading, places, lines. */
export const generalClaims = {
  C0001: {
    name: 'unreadable-claim',
    summary: 'The sentence is none that Barwise can check.',
    explanation:
      'Reading stopped at the marked word. The help lists what could stand there and the sentence of the reference that looks most like what was written.\n\n```\nbar 5 modulats to D major\n      ^^^^^^^^\n```\n\nThe whole language is described in `lesson-schema/claim-language.md`; its formal grammar is `lesson-schema/claim-language.ebnf`. What cannot be checked from the notes belongs in the narration without a claim behind it.',
  },
  C0002: {
    name: 'claim-too-long',
    summary: 'A claim has more than 1000 characters.',
    explanation:
      'One claim is one sentence. Split a long one into several: each gets its own verdict, its own evidence and its own nearest true statement.',
  },
  C0003: {
    name: 'place-outside-piece',
    summary: 'The claim names a bar, a beat or a pickup that the piece does not have.',
    explanation:
      'Bars are counted as printed: the first full bar is bar 1, a pickup is bar 0, alternative endings share a number and are told apart by a letter (`8a`, `8b`). Beats count from 1 in the beat of the metre (a dotted note in 6/8, 9/8 and 12/8) or in the note value that the lesson sets with `beat:`. After `until`, one beat past the last means the end of the bar.\n\n```\nbar 40 is I                          # the piece ends with bar 32\nbar 5 beat 4 has F#                  # the bar has 3 beats\n```\n\nNothing can be true of a place that is not there, so the claim fails, affirmed or denied.',
  },
  C0004: {
    name: 'place-runs-backwards',
    summary: 'A stretch ends before it begins.',
    explanation:
      '`until` names the first moment that no longer belongs to the place; it has to come after the start.\n\n```\nbar 6 beat 2 until bar 5 beat 3 is V7    # the two ends are swapped\nbars 8-5 are in G major\n```',
  },
  C0005: {
    name: 'silent-place',
    summary: 'Nothing sounds at the place of the claim.',
    explanation:
      'A bar of rest has no harmony, so a claim about its chord is neither confirmed nor contradicted: the verdict is `undecided`. Name the bars in which the chord sounds, or say what is true: `bar 12 is silent`.',
  },
  C0006: {
    name: 'unknown-line',
    summary: 'The score has no voice of that name.',
    explanation:
      'A line is `the soprano`, `the top line`, `the bass`, `the bottom line`, `the right hand`, `the left hand`, or `voice NAME` with the id or the printed name that the score gives its voices (`V:2 name="Violin"`). `the alto` and `the tenor` need voices of that name or a score of four voices.',
  },
  C0007: {
    name: 'endings-differ',
    summary: 'Alternative endings share the bar number, and the claim is true of only some of them.',
    explanation:
      'Bar 8 of a repeated section is printed twice: 8a is played the first time, 8b the second. A claim about `bar 8` speaks of both. Name the one that is meant: `bar 8b is I`.',
  },
  C0009: {
    name: 'no-rule-for-it',
    summary: 'The sentence speaks of something that the notes may show and that no rule here decides.',
    explanation:
      'Genre, form beyond the phrase, motives, articulation and the like are recognised and left undecided. Say what stands in which bars: instead of `the first phrase ends on V` write `bars 1-8 end on V`.',
  },
  C0008: {
    name: 'not-in-the-notes',
    summary: 'The sentence is about history, intention, feeling or taste.',
    explanation:
      'When a piece was written, what its composer meant and whether a chord is beautiful cannot be read from the notes. The sentence is recognised so that it is never passed over in silence, and its verdict is always `undecided`: give the reader a source, or mark it as an opinion.\n\nWords of a list make such a sentence (beautiful, painful, composer, century, should be played ...), never a word that is merely unknown. `opinion: bar 29 is a door into another room` and `history: ...` say so outright, whatever the words. What can be checked in the sentence is checked: `bar 8 is a beautiful half cadence` fails where there is none. A misspelt word of the trade is an error, and so is `sounds`, `means` or `brings` with something checkable behind it.',
  },
  C0010: {
    name: 'section-told-in-several-ways',
    summary:
      'The claim names a section whose borders the notes leave open, or that another count places elsewhere.',
    explanation:
      'Phrases are counted by the cadences that end them, strains and halves by repeat signs, a trio by its title or its key signature. Where nothing parts the piece plainly, or a claim is true only of longer or shorter phrases than the ones that were counted, the verdict is `undecided`; what is true of a dance only with its trio is `arguable`. Name the bars: instead of `the first phrase ends on V` write `bars 1-8 end on V`.',
  },
  C0011: {
    name: 'key-of-another-signature',
    summary: 'The claim is true in the home key, and another key signature is printed there.',
    explanation:
      'A numeral without a key is read in the home key of the lesson. Where the score prints a new key signature, as for a trio, it is read in the key of that signature; one that is true in the home key alone is `arguable`. Name the key: `bar 18 is V65 in Eb major`.',
  },
} as const satisfies Record<`C${number}`, CatalogueEntry>;
