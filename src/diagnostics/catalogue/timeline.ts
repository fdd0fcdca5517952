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
  T0006: {
    name: 'instrument-for-unknown-voice',
    summary: 'The lesson gives an instrument to a voice that the score does not have.',
    explanation:
      'Under `sound`, `voices` names voices by their id or their printed name in the score, each with its instrument. This name fits none, so the instrument is not used.\n\n```yaml\nsound: { instrument: strings, voices: { T: cello } }\n```\n\nUse one of the voices that the help lists.',
  },
  T0010: {
    name: 'ambiguous-aloud',
    summary: 'A word of the narration can be read aloud in two ways.',
    explanation:
      'Signs of the trade are spelled for the voice: `V7/V` is read "five seven of five". Some can mean two things: `A4` is a pitch or an augmented fourth, `I` the pronoun or the numeral, a capital `A` at the head of a sentence the article or the note. Then the voice takes the reading that the finding names.\n\nWrite it out (`an augmented fourth`), or say in the lesson how it is read:\n\n```yaml\nlexicon: { A4: augmented fourth }\n```',
  },
  T0011: {
    name: 'mixed-vocabulary',
    summary: 'The lesson mixes American and British names of things.',
    explanation:
      'A quarter note is a crotchet, a leading tone a leading note, a measure a bar. Both are right, but a lesson that uses both makes beginners wonder what the difference is. Keep to one side.',
  },
  T0020: {
    name: 'words-outlast-music',
    summary: 'Words that are spoken over music go on after it has ended.',
    explanation:
      'With `under: true` the next `say` is spoken over the playing. Here the words are longer, so their end stands in silence.\n\nPlay more bars, play them slower or more than once (`times`), hold the chord (`as: block` lasts as long as the words), or say less.',
  },
  T0021: {
    name: 'speech-too-fast',
    summary: 'The speech is faster than listeners follow with ease.',
    explanation:
      'Radio is read at 160 to 180 words a minute (E. Rodero, Text & Talk 32(3), 2012), lessons with new terms rather at 125 to 150. Short words are quicker to say than long ones, so the pace is counted in words of six characters with their space. Lower the `pace` of the narrator, or speak the recording more slowly.',
  },
  T0022: {
    name: 'caption-too-short',
    summary: 'A caption does not stand long enough to be read.',
    explanation:
      'A reader needs about 0.3 s for each word (BBC Subtitle Guidelines, 4.1). A caption is shorter than that where the words are spoken fast and the next ones follow at once. Speak more slowly, or put a `wait` after the words.',
  },
  T0023: {
    name: 'long-talk',
    summary: 'The lesson talks for long without any music.',
    explanation:
      'In lessons about music, talk of more than 20 to 25 seconds without an example loses its listeners (common practice). Play a bar or a chord in between, or ask a question. `pacing: { longest-talk: 40 }` in the lesson moves the limit.',
  },
  T0024: {
    name: 'missing-silence',
    summary: 'There is too little silence before or after an example.',
    explanation:
      'An example is heard on its own when about 0.4 s of silence stand before it and a second after it (common practice). The schedule adds these silences by itself; a `wait` replaces them, and here it is shorter. Make it longer, or remove it.',
  },
  T0030: {
    name: 'stale-take',
    summary: 'The words of the lesson have changed since they were recorded.',
    explanation:
      'A take is remembered together with the words that it was first used for. The recording is still the same, but the lesson says something else now, so listeners hear other words than readers see. Record it again, or delete the take: then the voice speaks the new words.',
  },
  T0031: {
    name: 'unreadable-take',
    summary: 'A recording cannot be read.',
    explanation:
      'Takes are WAV files (whole numbers of 8 to 32 bits or floating point) or MP3 files, of any sample rate, with one channel or more. This one is something else, or damaged. Export it as WAV or MP3; until then the voice speaks these words.',
  },
  T0032: {
    name: 'unused-take',
    summary: 'A recording belongs to no words of the lesson.',
    explanation:
      'A take is named after its words: `3.2.wav` is the second text of the third step (`say` and `ask` count), `3.2-1.wav` its first paragraph, `3.2.answer.wav` the answer of a question. This name fits nothing, perhaps because a step was moved or removed, or another file stands for the same words. Rename or delete it.',
  },
  T0033: {
    name: 'voice-failed',
    summary: 'The voice that was asked for failed, and the built-in voice speaks instead.',
    explanation:
      'A command as a voice reads plain text from its input and writes a WAV file to its output, within its time limit, and ends with 0. When it fails once, the whole lesson is spoken by the built-in voice, since two voices in one lesson would confuse.',
  },
} as const satisfies Record<`T${number}`, CatalogueEntry>;
