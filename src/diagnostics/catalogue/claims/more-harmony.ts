import type { CatalogueEntry } from '../entry.js';

/** Findings about chord members, six-fours, mixture, pivots, endings, relations of keys, function and progression. */
export const moreHarmonyClaims = {
  C0111: {
    name: 'members-as-claimed',
    summary: 'The members of the chord are there, missing, doubled or spaced as the claim says.',
    explanation:
      'Members are counted over the whole place, doublings at one moment. Close position: the three upper notes lie within an octave (common practice).',
  },
  C0112: {
    name: 'members-otherwise',
    summary: 'The members of the chord are not as the claim says.',
    explanation:
      'A member that is missing in one hand may sound in the other or in an inner voice; a doubling needs two notes of the member at the same moment. The evidence names the notes.\n\n```\nbar 5 has no fifth      # an inner voice has it\n```',
  },
  C0113: {
    name: 'too-few-notes-for-a-position',
    summary: 'Fewer than three notes sound together, so the chord has no close or open position.',
    explanation: 'Name the beat on which the whole chord sounds: `bar 1 beat 2 is in close position`.',
  },
  C0114: {
    name: 'member-in-the-line-of-some-chords',
    summary: 'The line has that member of one chord of the place, not of all.',
    explanation: 'Name the beat of the chord that is meant: `in bar 12 beat 3 the third is in the tenor`.',
  },
  C0115: {
    name: 'member-of-its-chord',
    summary: 'The note is the member of its chord that the claim names.',
    explanation:
      'Members are counted in thirds from the root, whatever the bass is. The verdict is `arguable` where the chord changes while the note sounds and the sentence is true of one chord only: name the beat.',
  },
  C0116: {
    name: 'another-member-of-its-chord',
    summary: 'The note is another member of its chord, or none.',
    explanation:
      'A frequent cause: the member is counted from the bass instead of the root. In B7 over D# the bass is the third of the chord, though it is its lowest note.',
  },
  C0117: {
    name: 'member-later-in-the-chord',
    summary: 'The beat that is named lacks the member; it comes later in the same chord.',
    explanation:
      'A broken chord brings its tones one after another, and a seventh may come after the triad. Name the beats of the whole chord: `bar 2 beats 3-4 have a seventh`.',
  },
  C0211: {
    name: 'six-four-as-claimed',
    summary: 'The six-four is of the kind that the claim names.',
    explanation:
      'Cadential: over the fifth degree, before the dominant on the same bass. Passing: its bass lies between two neighbours in one direction. Pedal: its bass stays before and after. Arpeggiated: the same chord stands beside it in another inversion (common practice; Open Music Theory, six-four chords).',
  },
  C0212: {
    name: 'six-four-of-another-kind',
    summary: 'It is a six-four, but of another kind.',
    explanation:
      'A passing six-four is often called cadential. The cadential one stands over the fifth degree on a beat that is not weaker than the dominant after it, and is no return of the tonic.',
  },
  C0213: {
    name: 'no-six-four',
    summary: 'The chord is no triad in second inversion.',
    explanation: 'A six-four has the fifth of a triad in the bass. Check the bass and the bar.',
  },
  C0214: {
    name: 'linear-chord',
    summary: 'The bass of the chord passes by step, or leaves a tone and comes back.',
    explanation:
      'A passing chord has its bass between those of its neighbours, in one direction by step; a neighbour chord has it a step from one bass that stands before and after (common practice: V43 between I and I6, V65 between I and I).',
  },
  C0215: {
    name: 'no-linear-chord',
    summary: 'The bass does not move as it does around a passing or a neighbour chord.',
    explanation:
      'Look at the bass of the chords before and after: into a passing chord and out of it the bass moves by step in one direction; around a neighbour chord it leaves a tone by step and comes back to it.',
  },
  C0221: {
    name: 'borrowed-chord',
    summary: 'The chord takes tones of the parallel mode.',
    explanation:
      'In major the lowered third, sixth and seventh degrees come from the parallel minor (Open Music Theory, Modal mixture). In minor the leading tone and the raised sixth are native and do not count.',
  },
  C0222: {
    name: 'borrowed-or-applied',
    summary: 'The chord has tones of the parallel mode, but can be read as an applied chord.',
    explanation:
      'The Neapolitan, augmented sixths and chords that resolve as dominants are usually not counted as mixture.',
  },
  C0223: {
    name: 'not-borrowed',
    summary: 'The chord takes nothing from the parallel mode.',
    explanation:
      'Either all its tones are native to the key, or its foreign tone is not of the parallel mode either (then it is likely an applied chord). In minor the leading tone is native.',
  },
  C0421: {
    name: 'pivot-as-claimed',
    summary: 'The chord is native to both keys and leads to the new one.',
    explanation:
      'The pivot is the last chord that both keys have before the first one that only the new key has. Its two numerals are in the reason (Open Music Theory, Modulation).',
  },
  C0422: {
    name: 'no-pivot',
    summary: 'The chord is not native to both keys, or no new key follows.',
    explanation:
      'A pivot is native to both keys. The dominant of the new key is no pivot: it has a tone that is foreign to the old one, or, in the relative major of a minor key, is heard there as applied to III. The reason gives both numerals.',
  },
  C0423: {
    name: 'pivot-disputed',
    summary: 'One school calls the chord a pivot, the other does not.',
    explanation:
      'A chord that is applied in the old key and dominant in the new is no pivot for Open Music Theory (then the modulation is direct); Hutchinson allows chromatic pivots.',
  },
  C0431: {
    name: 'ending-as-claimed',
    summary: 'The last chord has the third that the claim names.',
    explanation:
      'The third of the last tonic chord tells the mode of the ending. A Picardy third is a major third at the end of a passage in minor.',
  },
  C0432: {
    name: 'ending-otherwise',
    summary: 'The passage ends in another mode, or not on the tonic.',
    explanation: 'A major tonic in minor that goes on to the subdominant is V/iv and no Picardy third.',
  },
  C0433: {
    name: 'ending-without-third',
    summary: 'The last chord has no third, so the notes do not settle the mode.',
    explanation: 'An open fifth is neither major nor minor, even at the end of a piece in minor.',
  },
  C0441: {
    name: 'keys-related-as-claimed',
    summary: 'The two keys stand to each other as the claim says.',
    explanation:
      'Relative keys share a signature, parallel keys a tonic; closely related keys differ by one accidental at most (Hutchinson, Modulation). Each key has five of them.',
  },
  C0442: {
    name: 'keys-related-otherwise',
    summary: 'The two keys stand to each other in another way.',
    explanation:
      'Relative and parallel are often exchanged: E minor is the relative of G major, G minor its parallel.',
  },
  C0701: {
    name: 'function-as-claimed',
    summary: 'Every chord of the place has the function that the claim names.',
    explanation:
      'Tonic: I, iii, vi. Predominant: ii, IV, the Neapolitan, augmented sixths and chords applied to V. Dominant: V, vii and the cadential six-four (Open Music Theory, Harmonic functions).',
  },
  C0702: {
    name: 'function-of-another-school',
    summary: 'iii and vi are tonic for one school and prolong the tonic for the other.',
    explanation:
      'The convention `iii-and-vi` is `tonic` (Open Music Theory) unless the lesson says `prolongation` (Hutchinson, Harmonic Function).',
  },
  C0703: {
    name: 'function-open',
    summary: 'No chord can be read at the place.',
    explanation: 'Too few notes sound to make a chord. Name the bars that hold the whole harmony.',
  },
  C0704: {
    name: 'function-otherwise',
    summary: 'A chord of the place has another function.',
    explanation:
      'The six-four over the fifth degree has dominant function although its notes are those of I. Where only some chords of the place differ, the claim is arguable.',
  },
  C0711: {
    name: 'dominant-resolves-as-claimed',
    summary: 'The dominant goes where the claim says.',
    explanation:
      'A dominant, applied ones included, leads one to expect its tonic. Deceptively: another chord comes. Late: the tonic comes within a bar after something else.',
  },
  C0712: {
    name: 'dominant-resolves-otherwise',
    summary: 'The dominant goes somewhere else, or the chord is no dominant.',
    explanation:
      'A half cadence is no deceptive resolution: the phrase rests on the dominant. A dominant that is struck again has not resolved yet.',
  },
  C0721: {
    name: 'prolonged-as-claimed',
    summary: 'The passage begins and ends on the chord, with a stepwise bass between.',
    explanation:
      'Only the surface is judged: first chord, last chord, and whether the bass moves by step between them. How deep a reduction goes is interpretation.',
  },
  C0722: {
    name: 'not-prolonged',
    summary: 'The passage does not begin and end on the chord.',
    explanation: 'Choose the bars so that the first and the last chord are the prolonged one.',
  },
  C0723: {
    name: 'prolongation-open',
    summary: 'No chord can be read in the passage.',
    explanation: 'Too few notes sound to make chords.',
  },
  C0724: {
    name: 'prolongation-by-interpretation',
    summary: 'The passage frames the chord, but the bass leaps between.',
    explanation:
      'Whether the chords between are passing or weigh as much as the frame is a matter of interpretation, so the claim is arguable.',
  },
  C0801: {
    name: 'pedal-as-claimed',
    summary: 'A note is held or repeated while chords change over it.',
    explanation:
      'A pedal lasts through two chords or more and is foreign to at least one of them (Hutchinson, Non-Chord Tones). Its extent is counted in bars.',
  },
  C0802: {
    name: 'pedal-shorter',
    summary: 'There is such a pedal, but not through all of the place.',
    explanation: 'The reason gives the bars in which the note is held or repeated.',
  },
  C0803: {
    name: 'no-pedal',
    summary: 'No such pedal sounds in the place.',
    explanation:
      'A note that belongs to every chord over it is a common tone. Check the degree too: a pedal on the fifth degree is a dominant pedal.',
  },
  C0804: {
    name: 'pedal-or-seventh',
    summary: 'A note stays while the chords change, but it belongs to each of them, to one as its seventh.',
    explanation:
      'A pedal is foreign to a chord above it; a note that makes the seventh of a chord can be heard either way: as a pedal under a triad or as a member of the chord.',
  },
  C0901: {
    name: 'progression-as-claimed',
    summary: 'The chords of the place follow each other as the claim says.',
    explanation:
      'Chords are taken in order; a chord counts once while it lasts, and a plain V may be V7. Falling fifths may have one diminished fifth, as IV-vii in a diatonic circle.',
  },
  C0902: {
    name: 'progression-otherwise',
    summary: 'The place has other chords, or in another order.',
    explanation:
      'A skipped chord and an exchanged pair (V-IV for IV-V) are the usual causes. The reason lists the chords of the place.',
  },
  C0911: {
    name: 'sequence-as-claimed',
    summary: 'A model is repeated on other steps as the claim says.',
    explanation:
      'Statements are counted with the model. Tonal: intervals change so that the music stays in the key. Real: every interval is kept.',
  },
  C0915: {
    name: 'sequence-with-its-goal',
    summary: 'The place is a sequence and the chord at which it arrives.',
    explanation:
      'A sequence is a model and its copies; the chord that it leads to is counted in by some and not by others. The nearest true statement names the bars of the statements alone.',
  },
  C0916: {
    name: 'sequence-by-one-bent-copy',
    summary: 'There is one copy of the model, and it does not keep every note.',
    explanation:
      'The last copy of a sequence is often bent towards the cadence; where it is the only one it can be heard as a copy or as something new.',
  },
  C0912: {
    name: 'no-sequence',
    summary: 'Nothing in the place is repeated on another step.',
    explanation: 'A repetition at the same pitch is no sequence.',
  },
  C0913: {
    name: 'sequence-elsewhere',
    summary: 'There is a sequence, but it does not cover the place.',
    explanation: 'Choose the bars so that they hold the model and its repetitions and nothing else.',
  },
  C0914: {
    name: 'sequence-otherwise',
    summary: 'The sequence differs from the claim in direction, interval, number or kind.',
    explanation:
      'Count statements, not repetitions: a model and one copy are two statements. The interval goes from the start of one statement to the start of the next.',
  },
} as const satisfies Record<`C${number}`, CatalogueEntry>;
