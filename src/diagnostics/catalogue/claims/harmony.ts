import type { CatalogueEntry } from '../entry.js';

/** Findings about chords, numerals, keys and cadences. */
export const harmonyClaims = {
  C0101: {
    name: 'chord-supported',
    summary: 'The notes make the chord that the claim names.',
    explanation:
      'Root, quality and, where the claim gives one, the bass fit what sounds; no other reading is clearly better. The evidence lists the notes of the chord and the notes set aside, each with the kind of non-chord tone that it is.',
  },
  C0102: {
    name: 'chord-rivalled',
    summary: 'The chord can be heard so, and another reading fits as well.',
    explanation:
      'Some sets of notes stack in two ways (A C E G is A minor seventh and C with an added sixth), and a note that moves by step may be a member or not. The reason names the other reading. Keep the claim if it is what you teach, and say why in the narration, or set the verdict aside with `accept:` and a reason.',
  },
  C0103: {
    name: 'chord-open',
    summary: 'The notes do not settle whether the chord is the one named.',
    explanation:
      'A tone that decides never sounds: without a third a chord is neither major nor minor, without a seventh it is no seventh chord. The reason says what is missing.',
  },
  C0104: {
    name: 'chord-contradicted',
    summary: 'The notes make another chord.',
    explanation:
      'Frequent causes: the bass is taken for the root, a passing tone is counted in, the chord begins a bar or a beat later, a half-diminished seventh is called diminished. The nearest true statement names the chord that is there.',
  },
  C0105: {
    name: 'chord-over-another-bass',
    summary: 'The chord is right, but the symbol puts its root in the bass and another tone is there.',
    explanation:
      'A chord symbol without a slash has its root in the bass (lead-sheet practice; Hutchinson, Music Theory for the 21st-Century Classroom, Lead-Sheet Symbols). Write the bass after a slash (`D7/F#`), or name the chord in words, which leave the bass open: `bar 5 is a D dominant seventh chord`.',
  },
  C0121: {
    name: 'chord-relation-as-claimed',
    summary: 'The chords of the two places lie to each other as the claim says.',
    explanation:
      'The same triad, whatever its bass and with a seventh or without; or a major chord on the fifth above the other root, its dominant.',
  },
  C0122: {
    name: 'chord-relation-otherwise',
    summary: 'The chords of the two places lie to each other otherwise.',
    explanation: 'The reason names both chords and says how they lie to each other.',
  },
  C0201: {
    name: 'numeral-supported',
    summary: 'The notes make the chord that the numeral names in its key.',
    explanation:
      'The numeral is turned into spelled tones in the key of the claim, the step or the lesson, and these are compared with what sounds; figures fix the bass. Without `in KEY` the home key of the step or the lesson is meant.',
  },
  C0202: {
    name: 'numeral-rivalled',
    summary: 'The numeral is defensible, and another one fits as well.',
    explanation:
      'One chord can have several numerals (a pivot is vi in one key and ii in the other), and some notes can be counted in or set aside. The reason names the rival.',
  },
  C0203: {
    name: 'numeral-open',
    summary: 'The notes do not settle whether the numeral is right.',
    explanation: 'A tone that tells the numeral from its neighbours never sounds. The reason says which.',
  },
  C0204: {
    name: 'numeral-contradicted',
    summary: 'The notes contradict the numeral.',
    explanation:
      'Frequent causes: the numeral of the old key after a modulation, upper case for a minor chord, figures of another inversion, an applied chord without its altered note (V7/V needs the raised fourth degree; without it the chord is ii7). In minor, `vii` and `viio` stand on the raised seventh degree and `VII`, `VI`, `III` on the natural ones (RomanText). The nearest true statement names the numeral that is there.',
  },
  C0205: {
    name: 'seventh-on-I-otherwise',
    summary: 'The numeral is right under the other meaning of a plain 7.',
    explanation:
      'In C major `I7` is C E G B in Open Music Theory and RomanText (the diatonic seventh), and C E G B flat in Hutchinson, who writes `IM7` for the other. The convention `seventh-on-I` says which is meant; its default is `major`, the diatonic seventh.\n\n```yaml\nconventions: { seventh-on-I: minor }\n```',
  },
  C0401: {
    name: 'key-supported',
    summary: 'The passage is in the key that the claim names, or goes there.',
    explanation:
      'A key needs its set of tones and its tonic: the tones fit best, and dominant and tonic or a cadence confirm the tonic. A modulation needs a cadence in the new key (Open Music Theory, Modulation: at least one; Hutchinson: an eventual cadence). A tonicization is an applied chord with its resolution and no cadence.',
  },
  C0402: {
    name: 'key-rivalled',
    summary: 'Another key fits the passage as well.',
    explanation:
      'Relative keys share their tones, and a short passage may fit two neighbours on the circle of fifths. The reason names the other key.',
  },
  C0403: {
    name: 'key-open',
    summary: 'The notes do not settle the key.',
    explanation: 'Too few tones sound, or none that tells the key from its neighbours.',
  },
  C0404: {
    name: 'key-contradicted',
    summary: 'The passage is in another key.',
    explanation:
      'Frequent causes: the key signature is read instead of the notes, the relative key is named, a chord or two applied to a degree are taken for a key. The nearest true statement names the key of the passage.',
  },
  C0405: {
    name: 'key-left',
    summary: 'The passage does not stay in the key.',
    explanation:
      '`stays in G major` says that no other key is established within the passage. The reason says where one is. `is in G major` asks only for the key of the passage as a whole.',
  },
  C0406: {
    name: 'modulation-unconfirmed',
    summary: 'A new key begins, but no cadence confirms it.',
    explanation:
      'Open Music Theory asks for at least one perfect, imperfect or half cadence in the new key, Hutchinson for an eventual one; without it many speak of a tonicization. Extend the bars so that they hold the cadence, or say `tonicizes`.',
  },
  C0407: {
    name: 'key-already-there',
    summary: 'The passage cannot modulate to a key in which it already is.',
    explanation:
      'The new key begins before the first bar that the claim names, or with it under a key signature of its own. Begin earlier, or say `stays in`.',
  },
  C0408: {
    name: 'more-than-a-tonicization',
    summary: 'A cadence confirms the key: most would call it a modulation.',
    explanation:
      'A tonicization is an applied chord and its resolution without a cadence in that key. Where a cadence confirms the key, Open Music Theory and Hutchinson speak of a modulation.',
  },
  C0409: {
    name: 'no-tonicization',
    summary: 'No chord of the passage is applied to that key and resolves to it.',
    explanation:
      'An applied chord has a tone foreign to the key, usually the leading tone of its target, and resolves to the target. A diatonic V-I of another degree is no tonicization.',
  },
  C0411: {
    name: 'dominant-of-either-mode',
    summary: 'The dominant of a minor key is tonicized: a major chord, whose key has both modes.',
    explanation:
      'V of B minor is F# major, and the key of the dominant is F# minor (closely related keys). Say which is meant, or name the degree: `bar 6 tonicizes V`.',
  },
  C0412: {
    name: 'return-after-a-close',
    summary: 'The analysis hears no other key before the place, but a cadence in one closes there.',
    explanation:
      'A phrase that closes with a perfect authentic cadence in another key can be heard as a modulation or as a tonicization on a large scale; what follows is a return in the first case only.',
  },
  C0413: {
    name: 'mode-of-the-end',
    summary: 'A minor key ends on its major tonic: the last chord and the key have different modes.',
    explanation:
      'A Picardy third raises the third of the last chord and leaves the key minor (Hutchinson; Open Music Theory). Say what is meant: `ends with a Picardy third`, `ends in minor`, `ends on a major chord`.',
  },
  C0414: {
    name: 'goal-of-a-tonicization',
    summary: 'The passage begins with the chord that is tonicized; what is applied to it comes just before.',
    explanation:
      'An applied chord and its resolution make the tonicization (Open Music Theory, Tonicization). Some name it by the bar of the applied chord, some by that of the goal: name both bars.',
  },
  C0410: {
    name: 'key-in-passing',
    summary: 'The notes of the place fit the key, but nothing confirms it as a key of its own.',
    explanation:
      'A bar or two of applied dominant and target can be read in the key of the target; without a cadence most would say that the key around it is tonicizing one of its degrees. Say `tonicizes`, or extend the place.',
  },
  C0501: {
    name: 'cadence-supported',
    summary: 'A cadence of that kind arrives at the place.',
    explanation:
      'Perfect authentic: V (or V7) to I, both in root position, the soprano on the tonic at the arrival. Imperfect authentic: any other close V-I. Half: the phrase ends on V. Deceptive: V goes to another chord than I where I was due, usually vi. Plagal: IV-I. Evaded: the tonic is due and the line is cut off. Sources: Open Music Theory, Cadence Types; Hutchinson, Roman Numerals and Cadences and Phrases in Combination.',
  },
  C0502: {
    name: 'cadence-rivalled',
    summary: 'The chords make the cadence, but something speaks against a close.',
    explanation:
      'A dominant and a tonic within a phrase are a progression, not yet a cadence: metre, length, a rest and the melody tell a close. The reason says what is doubtful.',
  },
  C0503: {
    name: 'cadence-open',
    summary: 'The notes do not settle the cadence.',
    explanation: 'A tone that decides, often the third of the dominant, never sounds.',
  },
  C0504: {
    name: 'cadence-contradicted',
    summary: 'There is no such cadence at the place.',
    explanation:
      'Frequent causes: the bar of the dominant is given and not the bar of arrival, the soprano is not on the tonic (then it is imperfect), a half cadence is taken for an authentic cadence in the key of the dominant, the key is another. The nearest true statement names the cadence that is there or its place.',
  },
  C0505: {
    name: 'cadence-of-another-convention',
    summary: 'It is a cadence under the other convention.',
    explanation:
      '`inverted-authentic`: V6-I and viio6-I close a phrase as an imperfect authentic cadence (Hutchinson), or not at all because the bass must go from 5 to 1 (Open Music Theory). `half-on-V7`: a half cadence may end on V7 (Hutchinson), or almost invariably ends on a triad (Open Music Theory). Both are `cadence` unless the lesson says `none`.',
  },
  C0506: {
    name: 'cadence-name-of-another-country',
    summary: 'The name is right in the other usage of cadence names.',
    explanation:
      'In Britain a perfect cadence is any authentic one and an imperfect cadence a half cadence; in America “imperfect” is short for imperfect authentic (British usage: common practice, from memory). The convention `cadence-names` is `US` unless the lesson says `UK`.',
  },
  C0507: {
    name: 'half-cadence-not-phrygian',
    summary: 'It is a half cadence, but not a Phrygian one.',
    explanation:
      'A Phrygian half cadence goes from iv6 to V in minor: the bass steps down a semitone from the sixth degree to the fifth (common practice).',
  },
} as const satisfies Record<`C${number}`, CatalogueEntry>;
