import type { Key } from '../../harmony/index.js';
import type { PitchClass } from '../../score/index.js';
import type { Family } from '../family.js';
import type { Extreme } from '../subjects/extreme.js';
import type { Line } from '../subjects/line.js';
import type { PointedNotes } from '../subjects/note.js';
import type { Pair } from '../subjects/pair.js';
import type { Span } from '../subjects/span.js';
import type { Thing } from '../subjects/thing.js';
import { accidentalsFamily } from './accidentals.js';
import { anyCadenceFamily } from './any-cadence.js';
import { anyModulationFamily } from './any-modulation.js';
import { appliedFamily } from './applied.js';
import { boundsFamily } from './bounds.js';
import { cadenceFamily } from './cadence.js';
import { chosenNoteFamily } from './chosen-note.js';
import { chordFamily } from './chord.js';
import { chordRelationFamily } from './chord-relation.js';
import { chordSuccessionFamily } from './chord-succession.js';
import { chordWithinFamily } from './chord-within.js';
import { contentFamily } from './content.js';
import { crossRelationFamily } from './cross-relation.js';
import { crossingFamily, placeCrossingFamily } from './crossing.js';
import { verticalIntervalFamily } from './dissonance.js';
import { degreeRowFamily } from './degree-row.js';
import { dominantResolutionFamily } from './dominant-resolution.js';
import { lineRhythmFamily, rhythmFamily } from './durations.js';
import { eitherFamily } from './either.js';
import { endingFamily } from './ending.js';
import { enharmonicFamily } from './enharmonic.js';
import { figurationFamily, lineFigurationFamily } from './figuration.js';
import { formFamily } from './form.js';
import { frequencyFamily } from './frequency.js';
import type { Ranked } from './frequency.js';
import { functionFamily } from './function.js';
import { harmonicRhythmFamily } from './harmonic-rhythm.js';
import { intervalFamily } from './interval.js';
import { keyFamily } from './key.js';
import { keySignatureFamily } from './key-signature.js';
import { keyRelationFamily } from './key-relation.js';
import { linePitchFamily } from './line-pitch.js';
import { markingsFamily } from './markings.js';
import { melodicFamily } from './melodic.js';
import { membersFamily } from './members.js';
import { meterFamily } from './meter.js';
import { mixtureFamily } from './mixture.js';
import { motionFamily } from './motion.js';
import { nativeNotesFamily } from './native-notes.js';
import {
  lineNonChordToneFamily,
  nonChordToneInLineFamily,
  noteNonChordToneFamily,
  spanNonChordToneFamily,
} from './non-chord-tone.js';
import { namedChordFamily } from './named-chord.js';
import { lineInChordFamily, noteInChordFamily } from './note-in-chord.js';
import { noteApproachFamily } from './note-approach.js';
import { noteCountsFamily } from './note-counts.js';
import { noteLineFamily } from './note-line.js';
import { noteMixtureFamily } from './note-mixture.js';
import { notePitchFamily } from './note-pitch.js';
import { toneFamily, tonePairFamily } from './pitch-relation.js';
import type { TonePair } from './pitch-relation.js';
import { numeralFamily } from './numeral.js';
import { chosenFamily, occurrenceFamily } from './occurrence.js';
import type { Chosen } from './occurrence.js';
import { leapSizeFamily } from './leap-size.js';
import { linearChordFamily } from './linear-chord.js';
import { lineCrossingFamily } from './line-crossing.js';
import { lineOutlineFamily } from './line-outline.js';
import { lineSequenceFamily } from './line-sequence.js';
import { lineVersionFamily } from './line-version.js';
import { lineOrnamentFamily, noteOrnamentFamily, spanOrnamentFamily } from './ornaments.js';
import { parallelsFamily } from './parallels.js';
import { linePedalFamily, pedalFamily } from './pedal.js';
import { pickupFamily } from './pickup.js';
import { pivotFamily } from './pivot.js';
import { prevailingValuesFamily } from './prevailing-values.js';
import { progressionFamily } from './progression.js';
import { prolongationFamily } from './prolongation.js';
import { recurrenceFamily } from './recurrence.js';
import { extremeFamily, lineRangeFamily } from './register.js';
import { notesABarFamily } from './notes-a-bar.js';
import { noThirdFamily } from './no-third.js';
import { repeatsFamily } from './repeats.js';
import { stillLineFamily } from './still-line.js';
import { suspensionChainFamily } from './suspension-chain.js';
import { lineRestFamily, restFamily } from './rest.js';
import { lineResolutionFamily, noteResolutionFamily } from './resolution.js';
import { lineDegreeFamily, noteDegreeFamily } from './scale-degree.js';
import { roleInLineFamily } from './role-in-line.js';
import { sameEndFamily } from './same-end.js';
import { sequenceFamily } from './sequence.js';
import { sixFourFamily } from './six-four.js';
import { textureFamily } from './texture.js';
import { tieFamily } from './tie.js';
import { versionFamily } from './version.js';
import { voiceExchangeFamily } from './voice-exchange.js';

/*
 * Every family of claims, by what its sentences are about. A new family is a file of this folder and a line here: the grammar, the
 * printed sentence, the check, the probes for the nearest true statement and the examples of the reference follow from it. Where two
 * families read the same words, the one that stands first is meant.
 */

/** About a stretch of the score: `bar 5 ...`. */
export const spanFamilies: readonly Family<Span>[] = [
  numeralFamily,
  namedChordFamily,
  chordFamily,
  keyFamily,
  anyModulationFamily,
  cadenceFamily,
  anyCadenceFamily,
  contentFamily,
  functionFamily,
  spanNonChordToneFamily,
  pedalFamily,
  progressionFamily,
  sequenceFamily,
  dominantResolutionFamily,
  chordSuccessionFamily,
  prolongationFamily,
  sixFourFamily,
  linearChordFamily,
  mixtureFamily,
  appliedFamily,
  membersFamily,
  pivotFamily,
  endingFamily,
  enharmonicFamily,
  nativeNotesFamily,
  parallelsFamily,
  crossRelationFamily,
  placeCrossingFamily,
  verticalIntervalFamily,
  harmonicRhythmFamily,
  textureFamily,
  figurationFamily,
  meterFamily,
  pickupFamily,
  rhythmFamily,
  formFamily,
  recurrenceFamily,
  versionFamily,
  chordWithinFamily,
  eitherFamily,
  chordRelationFamily,
  accidentalsFamily,
  keySignatureFamily,
  markingsFamily,
  restFamily,
  repeatsFamily,
  noThirdFamily,
  suspensionChainFamily,
  spanOrnamentFamily,
  noteCountsFamily,
];

/** Of a stretch that is named by what it is, besides what is said of every stretch: `the second phrase ...`. */
export const sectionFamilies: readonly Family<Span>[] = [boundsFamily];

/** Families whose things are named without a verb in a note to oneself: `half cadence in bar 8`. */
export const nameableFamilies: readonly Family<Span>[] = [
  cadenceFamily,
  anyCadenceFamily,
  anyModulationFamily,
  keyFamily,
  spanNonChordToneFamily,
  pedalFamily,
  sequenceFamily,
  parallelsFamily,
  crossRelationFamily,
  chordWithinFamily,
];

/** About one line of the texture: `the bass of bar 5 ...`. */
export const lineFamilies: readonly Family<Line>[] = [
  linePitchFamily,
  melodicFamily,
  lineRangeFamily,
  lineRhythmFamily,
  lineFigurationFamily,
  linePedalFamily,
  lineNonChordToneFamily,
  nonChordToneInLineFamily,
  lineDegreeFamily,
  lineInChordFamily,
  lineResolutionFamily,
  lineRestFamily,
  lineOrnamentFamily,
  lineVersionFamily,
  lineOutlineFamily,
  lineSequenceFamily,
  notesABarFamily,
  leapSizeFamily,
  roleInLineFamily,
  prevailingValuesFamily,
  lineCrossingFamily,
  degreeRowFamily,
  stillLineFamily,
];

/** About two lines: `the soprano and the bass of bar 5 ...`. */
export const pairFamilies: readonly Family<Pair>[] = [
  intervalFamily,
  motionFamily,
  crossingFamily,
  sameEndFamily,
  voiceExchangeFamily,
];

/** About single notes: `the F#5 of bar 5 ...`, `the seventh of bar 5 ...`. */
export const noteFamilies: readonly Family<PointedNotes>[] = [
  notePitchFamily,
  noteNonChordToneFamily,
  noteDegreeFamily,
  noteInChordFamily,
  tieFamily,
  noteResolutionFamily,
  noteOrnamentFamily,
  noteLineFamily,
  noteMixtureFamily,
  noteApproachFamily,
];

/** About the highest or lowest note: `the highest note of the piece ...`. */
export const extremeFamilies: readonly Family<Extreme>[] = [extremeFamily];

/** About a kind of thing wherever it occurs: `the note F# ...`, `a half cadence ...`. */
export const thingFamilies: readonly Family<Thing>[] = [occurrenceFamily];

/** About the first, last or only one: `the first V7/V of the piece ...`. */
export const chosenFamilies: readonly Family<Chosen>[] = [chosenFamily, chosenNoteFamily];

/** About what is most frequent: `the most frequent chord of the piece ...`. */
export const rankedFamilies: readonly Family<Ranked>[] = [frequencyFamily];

/** About notes as such: `A# is the leading tone in B minor`. */
export const toneFamilies: readonly Family<PitchClass>[] = [toneFamily];

/** About two notes as such: `C to D# is an augmented second`. */
export const tonePairFamilies: readonly Family<TonePair>[] = [tonePairFamily];

/** About keys as such: `D major ...`. */
export const keyFamilies: readonly Family<Key>[] = [keyRelationFamily];
