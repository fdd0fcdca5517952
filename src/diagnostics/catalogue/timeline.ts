import type { CatalogueEntry } from './entry.js';

/** Findings of the timeline stage: codes T0001 and up. */
export const timelineCatalogue = {
  T0001: {
    name: 'bars-outside-piece',
    summary: 'A `play` names bars that the piece does not have.',
    explanation:
      'Bars are counted from the first full bar; a pickup is bar 0, and alternative endings share a number with a letter (`8a`, `8b`). Nothing is played for this action.\n\n```yaml\n- play: 30-40      # the piece ends with bar 32\n```\n\nName bars that are in the piece.',
  },
  T0002: {
    name: 'unknown-voice',
    summary: 'A `play` names a voice that the score does not have.',
    explanation:
      'A voice is named by its id or its printed name in the score (`V:RH name="Right hand"`). Nothing is played for this action.\n\n```yaml\n- play: { bars: 1-4, voice: alto }\n```\n\nUse one of the voices that the help lists.',
  },
  T0003: {
    name: 'version-not-read',
    summary: 'The other version of the piece that a `play` names could not be read.',
    explanation:
      '`play: { bars: 3, score: altered.abc }` plays the bars of another score, for a comparison. The file must lie beside the lesson and be readable. Nothing is played for this action.',
  },
  T0004: {
    name: 'no-chord-to-play',
    summary: 'A `play` asks for the chord of bars that have none.',
    explanation:
      '`as: stack`, `as: block` and `as: arpeggio` play the harmony that the engine reads in the bars. A silent bar, or one that no chord explains, has nothing to demonstrate. Use `as: written`, or other bars.',
  },
  T0005: {
    name: 'under-without-words',
    summary: '`under` is set, but no words follow.',
    explanation:
      '`under: true` means that the next `say` is spoken over this playing. Here the next action is not a `say`, so the music is played alone.\n\n```yaml\n- play: { bars: 5, as: block, under: true }\n- say: This is the chord that everything waits for.\n```',
  },
  T0010: {
    name: 'ambiguous-aloud',
    summary: 'A word of the narration can be read aloud in two ways.',
    explanation:
      'Signs of the trade are spelled for the voice: `V7/V` is read "five seven of five". Some can mean two things: `A4` is a pitch or an augmented fourth, `I` the pronoun or the numeral, a capital `A` at the head of a sentence the article or the note. Then the voice takes the reading that the finding names.\n\nWrite it out (`an augmented fourth`), or say in the lesson how it is read:\n\n```yaml\nlexicon: { A4: augmented fourth }\n```',
  },
} as const satisfies Record<`T${number}`, CatalogueEntry>;
