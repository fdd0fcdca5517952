import type { CatalogueEntry } from '../entry.js';

/** Findings about single notes, lines, intervals and voice leading. */
export const lineClaims = {
  C0314: {
    name: 'one-of-several-notes',
    summary: 'The place has several notes of that name, and the claim is true of only some.',
    explanation: 'Name the beat, the octave or the voice: `the E5 of bar 3 beat 2 is a passing tone`.',
  },
  C0601: {
    name: 'tone-as-claimed',
    summary: 'The note is the kind of tone that the claim names.',
    explanation:
      'A non-chord tone is told by its approach and departure: passing (step, step on), neighbour (step, step back), suspension (held, step down), retardation (held, step up), appoggiatura (leap, step), escape tone (step, leap), anticipation (step, same note), pedal (held) (Hutchinson, Non-Chord Tones). Figures are intervals above the bass, a suspension in the bass counts from the upper voice.',
  },
  C0602: {
    name: 'tone-of-no-kind',
    summary: 'The note is foreign to its chord and fits none of the usual kinds.',
    explanation:
      'Neither its approach nor its departure makes it a passing tone, neighbour, suspension or another kind of the table. Perhaps the chord is another one; the evidence names the chord that was read.',
  },
  C0603: {
    name: 'tone-otherwise',
    summary: 'The note is another kind of tone, or a member of its chord.',
    explanation:
      'Frequent causes: the note belongs to the chord, the figure is counted from the root and not from the bass, there is no preparation (then it is an appoggiatura), “chromatic” is said of a semitone step that is native to the key.',
  },
  C0605: {
    name: 'passing-over-an-augmented-second',
    summary: 'The tone goes on by letters in one direction, but one of the intervals is an augmented second.',
    explanation:
      'A passing tone is approached and left by step. Between the sixth and the raised seventh degree of a minor key lies an augmented second: a step by its letters, a leap by its size.',
  },
  C0604: {
    name: 'tone-open',
    summary: 'No chord can be read where the note sounds.',
    explanation: 'What is no chord tone depends on the chord, and too few notes sound to make one.',
  },
  C0611: {
    name: 'suspensions-in-a-chain',
    summary: 'Suspensions follow each other, the resolution of one preparing the next.',
    explanation:
      'Two that are linked make the shortest chain. A figure counts intervals above the bass: 7-6, 4-3.',
  },
  C0612: {
    name: 'suspensions-not-linked',
    summary: 'There are several suspensions, and none of them prepares another.',
    explanation: 'In a chain the note of resolution is held or struck again as the next suspension.',
  },
  C0613: {
    name: 'no-chain-of-suspensions',
    summary: 'The place has fewer than two such suspensions.',
    explanation: 'The reason names those that were found, with their figures.',
  },
  C1001: {
    name: 'interval-as-claimed',
    summary: 'The two lines are as far apart as the claim says.',
    explanation:
      'Letters give the number, semitones the quality (Open Music Theory v1, Intervals). An interval within the octave also names its compounds: a tenth may be called a third.',
  },
  C1002: {
    name: 'interval-otherwise',
    summary: 'The two lines are another interval apart.',
    explanation: 'Count both letters: C to E is a third. The evidence gives the two notes.',
  },
  C1003: {
    name: 'interval-enharmonic',
    summary: 'It sounds like the interval of the claim, and has another name.',
    explanation: 'C to D sharp is an augmented second, C to E flat a minor third: the letters decide.',
  },
  C1004: {
    name: 'interval-at-one-moment',
    summary: 'The lines are that far apart at one moment of the place, not throughout.',
    explanation: 'Name the beat: `the soprano and the bass of bar 3 beat 1 are a minor tenth apart`.',
  },
  C1005: {
    name: 'interval-over-other-octaves',
    summary: 'The lines make that interval with an octave more or less between them.',
    explanation:
      'A tenth over a further octave is a seventeenth. Many call every compound third a tenth, others count on; a third may be said of either.',
  },
  C1011: {
    name: 'motion-as-claimed',
    summary: 'The two lines move against each other as the claim says.',
    explanation:
      'Parallel: same direction, same number. Similar: same direction. Contrary: opposite. Oblique: one stays (Open Music Theory v1, Types of contrapuntal motion). Repeated notes are left out.',
  },
  C1012: {
    name: 'motion-otherwise',
    summary: 'The two lines move in another way.',
    explanation:
      'Similar motion is parallel only where the number of the interval is kept. Where most moves are as claimed, the claim is arguable and the first exception is named.',
  },
  C1013: {
    name: 'no-motion',
    summary: 'The two lines do not move together in the place.',
    explanation: 'A motion needs two neighbouring moments at which both lines sound. Take a longer stretch.',
  },
  C1021: {
    name: 'parallels-found',
    summary: 'Two lines make the parallels of the claim.',
    explanation:
      'Parallel: both move the same way from a perfect interval to the same one, compounds counted (Open Music Theory: a fifth to a twelfth). Hidden: both move the same way into one while the upper line leaps. Contrary: they move apart or together between two of them.',
  },
  C1022: {
    name: 'no-parallels',
    summary: 'No two lines make such parallels.',
    explanation:
      'A perfect fifth beside a diminished one is not parallel, and a line doubled in octaves throughout is one line.',
  },
  C1023: {
    name: 'parallels-over-the-bar-line',
    summary: 'The parallels begin before the place and land in it.',
    explanation:
      'Two intervals make the fault, one before the place and one in it. Many mark the place of the second; name both bars: `bars 1-2 have parallel fifths`.',
  },
  C1024: {
    name: 'hidden-between-inner-lines',
    summary: 'The perfect interval is reached from the same side, but not between the outer lines.',
    explanation:
      'Hidden fifths and octaves are a fault between soprano and bass when the soprano leaps (Open Music Theory; Hutchinson, Objectionable Parallels); where an inner line takes part most teachers let them pass.',
  },
  C1031: {
    name: 'cross-relation-found',
    summary: 'One letter appears in two forms in different lines, at once or one after the other.',
    explanation: 'The same step in one voice is a chromatic step and no cross relation (common practice).',
  },
  C1032: {
    name: 'no-cross-relation',
    summary: 'No letter appears in two forms in neighbouring lines and chords.',
    explanation:
      'Notes further apart than neighbouring chords do not count, nor do two spellings of one key of the keyboard.',
  },
  C1033: {
    name: 'cross-relation-apart',
    summary: 'One letter appears in two forms in neighbouring chords, but other notes come between them.',
    explanation:
      'Strict books count neighbouring chords, whatever comes between; the ear hears it the less the more notes do. Name the two notes if they are meant.',
  },
  C1041: {
    name: 'resolves-as-claimed',
    summary: 'The next note of the voice is the one that the claim names.',
    explanation:
      'Leading tones rise, sevenths fall, suspensions fall by step (Open Music Theory, Tendency tones). The next different note of the same voice counts.',
  },
  C1042: {
    name: 'resolves-otherwise',
    summary: 'The voice goes on to another note.',
    explanation:
      'An inner leading tone may fall to the fifth, and the seventh in I-V43-I6 may rise (Hutchinson): neither is a mistake of the music, but the sentence is false.',
  },
  C1043: {
    name: 'nothing-follows',
    summary: 'The voice has no further note.',
    explanation: 'The note is the last of its voice, so it does not resolve.',
  },
  C1044: {
    name: 'resolution-in-another-voice',
    summary: 'Another voice takes the resolution, or another octave.',
    explanation:
      'A transferred resolution is accepted by many teachers and refused by strict rules, so the claim is arguable. The evidence names both notes.',
  },
  C1051: {
    name: 'interval-sounds',
    summary: 'Two notes of the place that sound together make the interval.',
    explanation:
      'Notes are compared as spelled; a tritone is an augmented fourth or a diminished fifth. That an interval is unstable is opinion, that it sounds is fact.',
  },
  C1052: {
    name: 'interval-never-sounds',
    summary: 'No two notes that sound together make the interval.',
    explanation: 'The two notes may be there and never meet. The evidence names them.',
  },
  C1053: {
    name: 'interval-in-a-broken-chord',
    summary: 'The two notes make the interval one after the other, in a chord that is broken.',
    explanation: 'A broken chord is heard as one chord, but strictly its notes do not sound together.',
  },
  C1061: {
    name: 'lines-cross-as-claimed',
    summary: 'The lines cross, overlap or keep a tone as the claim says.',
    explanation:
      'Crossing: the upper line lies below the lower one. Overlap: a line passes the note that the other has just left (Open Music Theory, First species). A unison is no crossing.',
  },
  C1062: {
    name: 'lines-do-not-cross',
    summary: 'The lines do not cross, overlap or keep a tone.',
    explanation:
      'The line that is named first is taken for the upper one. An overlap is often called a crossing.',
  },
  C1063: {
    name: 'voices-exchange',
    summary: 'Each of the two lines takes the note that the other had.',
    explanation:
      'Its members change places while one harmony lasts, with chords that pass within it, or the two notes are named. An octave more or less does not matter (common practice).',
  },
  C1064: {
    name: 'no-voice-exchange',
    summary: 'The two lines do not take each other’s notes.',
    explanation:
      'Both have to change over within two bars of one harmony, or with no more than one passing note in each line.',
  },
  C1065: {
    name: 'voices-exchange-over-a-change',
    summary: 'The two lines take each other’s notes, but the harmony changes meanwhile.',
    explanation:
      'A voice exchange is mostly said of one harmony that lasts: its members change places. Name the two notes if the exchange alone is meant: `the soprano and the bass of bars 1-2 exchange E and C`.',
  },
  C1101: {
    name: 'line-moves-as-claimed',
    summary: 'The line moves as the claim says.',
    explanation:
      'A step is a second or a chromatic semitone; anything larger is a leap, the augmented second among them. Repeated notes do not count.',
  },
  C1102: {
    name: 'line-moves-otherwise',
    summary: 'The line moves in another way.',
    explanation:
      'The evidence gives the first move that breaks the claim, with its interval and direction. In a texture of bass notes and chords, `the bass` is the bass note of each harmony and `the bottom line` whatever lies lowest.',
  },
  C1103: {
    name: 'line-stays',
    summary: 'The line does not move in the place.',
    explanation: 'It has one note, or repeats it. Take a longer stretch.',
  },
  C1104: {
    name: 'line-without-leap',
    summary: 'The line has no leap of that size.',
    explanation:
      'Leaps are larger than a second; a gap to be filled is a fourth or more, and leaps in one direction through a chord are left out.',
  },
  C1105: {
    name: 'lament-in-part',
    summary: 'The bass goes down the tetrachord of a lament, and not only that, or not in minor.',
    explanation:
      'A lament bass goes down from the tonic of a minor key to its dominant, by the notes of the key or by semitones. Name the bars in which it stands.\n\n```\nthe bass of bars 1-4 is a lament bass\n```',
  },
  C1106: {
    name: 'one-diatonic-semitone',
    summary: 'The line moves by one diatonic semitone, with a note that is foreign to the key.',
    explanation:
      'A chromatic semitone keeps its letter (C-C#), a diatonic one goes to the next (C-Db). A single diatonic semitone is chromatic only in so far as one of its notes is foreign to the key.',
  },
  C1107: {
    name: 'leap-filled-later',
    summary: 'The line leaps at the end of the place, and the step back comes after it.',
    explanation: 'Name the place with the note that follows the leap.',
  },
  C1108: {
    name: 'leap-between-phrases',
    summary: 'What decides is a move over a rest or a fermata, from one phrase to the next.',
    explanation:
      'Such a move is sung over a breath, and many do not count it among the leaps of a line. Name the bars of one phrase.',
  },
  C1109: {
    name: 'row-goes-on',
    summary: 'The line goes through these notes into the last bar of the place, and on from there.',
    explanation: 'Name the notes of the whole place, or end it with the beat of the last note.',
  },
  C1201: {
    name: 'degree-as-claimed',
    summary: 'The note is the degree that the claim names.',
    explanation:
      'Degrees count from the tonic of the key at that place, in minor against the natural scale; a sharp or flat before the number alters it. Syllables are movable do with do-based minor (Open Music Theory v1).',
  },
  C1202: {
    name: 'degree-otherwise',
    summary: 'The note is another degree.',
    explanation:
      'Frequent cause: counting from the old tonic after a modulation. In minor, 6 is the natural sixth and #6 the raised one.',
  },
  C1203: {
    name: 'native-otherwise',
    summary: 'The note is native to the key, or foreign to it, against the claim.',
    explanation:
      'In minor the raised sixth and seventh are native (Open Music Theory, Hutchinson): the leading tone is no chromatic note.',
  },
  C1204: {
    name: 'degree-of-the-home-key',
    summary: 'The claim is true of the home key, but the music is in another key there.',
    explanation: 'Add the key that is meant: `the A of bar 12 is scale degree 5 in D major`.',
  },
  C1211: {
    name: 'native-notes-as-claimed',
    summary: 'The place has foreign notes, or none, as the claim says.',
    explanation:
      'Each note is compared with the key of its harmony, or with the key that the claim names. In minor the raised sixth and seventh are native.',
  },
  C1212: {
    name: 'no-chromatic-note',
    summary: 'Every note of the place is native to its key.',
    explanation:
      'The key may have changed since: a note that is foreign to the home key can be native to the key of the place. Add `in KEY` to compare with another key.',
  },
  C1213: {
    name: 'chromatic-note-found',
    summary: 'A note of the place is foreign to the key.',
    explanation: 'The evidence lists the foreign notes in order, so that an earlier one is not overlooked.',
  },
} as const satisfies Record<`C${number}`, CatalogueEntry>;
