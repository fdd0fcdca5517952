import type { CatalogueEntry } from '../entry.js';

/** Findings about texture, register, metre, rhythm, form, recurrence, versions, counts. */
export const pieceClaims = {
  C1301: {
    name: 'harmonic-rhythm-as-claimed',
    summary: 'The chords change as often as the claim says.',
    explanation:
      'Chords are counted by root and triad: a new inversion, an added seventh and a change of figuration make no new chord.',
  },
  C1302: {
    name: 'harmonic-rhythm-otherwise',
    summary: 'The chords change more or less often.',
    explanation:
      'The reason gives the first bar that breaks the claim with its chords. The last bar of a passage is the usual exception.',
  },
  C1311: {
    name: 'texture-as-claimed',
    summary: 'The texture is as the claim says.',
    explanation:
      'Voices are the most keys of the keyboard that sound at once, unisons counted once. Homophonic: every note begins together with all that sound with it. Figuration: rhythm and contour of every bar are those of the first, pitches forgotten.',
  },
  C1312: {
    name: 'texture-otherwise',
    summary: 'The texture is not as the claim says.',
    explanation:
      'Sustained notes count as voices while they sound. The reason names the first bar or moment that differs.',
  },
  C1315: {
    name: 'parts-with-double-stops',
    summary: 'So many parts play, but at times more notes sound than there are parts.',
    explanation:
      'Voices can be counted as parts, or as notes that sound together; a part that plays two notes at once makes the difference.',
  },
  C1316: {
    name: 'figure-breaks-off-for-the-close',
    summary: 'The bars have the figure, but for those of a cadence.',
    explanation:
      'An accompaniment often gives up its figure where the phrase closes; many still speak of the whole passage (common practice). Name the bars without the cadence to be exact.',
  },
  C1314: {
    name: 'texture-by-hearing',
    summary: 'The voices do not move together, and the notes do not say which of them leads.',
    explanation:
      'Homophonic is said of voices that move together and of a melody over its accompaniment (Open Music Theory, Texture), polyphonic of lines of equal weight. The first is a fact: `bars 1-4 are homorhythmic`.',
  },
  C1313: {
    name: 'figuration-of-one-bar',
    summary: 'There are fewer than two whole bars to compare.',
    explanation: 'A figuration is kept from bar to bar. Take two bars or more.',
  },
  C1401: {
    name: 'extreme-as-claimed',
    summary: 'The highest or lowest note is the one, or in the place, that the claim says.',
    explanation:
      'Grace notes are left out. Every note that reaches the same pitch is listed. Octave 4 begins at middle C (MusicXML 4.0).',
  },
  C1402: {
    name: 'extreme-is-another-note',
    summary: 'Another note is higher or lower.',
    explanation: 'The evidence gives the highest or lowest note with its place.',
  },
  C1403: {
    name: 'extreme-is-elsewhere',
    summary: 'The highest or lowest note is in another place.',
    explanation: 'The evidence lists every note that reaches that pitch.',
  },
  C1404: {
    name: 'extreme-more-than-once',
    summary: 'The pitch is reached in the place and elsewhere too.',
    explanation:
      'An equal peak before or after is easily missed. Say which one is meant: `the highest note of bars 9-16 is in bar 14`.',
  },
  C1405: {
    name: 'extreme-as-often',
    summary: 'The highest or lowest note is struck more or less often than the claim says.',
    explanation: 'A tied note counts once. The reason lists the places.',
  },
  C1411: {
    name: 'range-as-claimed',
    summary: 'The line reaches as far as the claim says.',
    explanation: 'From the lowest to the highest note of the line, as spelled.',
  },
  C1412: {
    name: 'range-otherwise',
    summary: 'The line reaches another interval.',
    explanation: 'A range is named with its octaves: from C4 to E5 is a major tenth.',
  },
  C1501: {
    name: 'sounds-as-claimed',
    summary: 'The keys of the keyboard are those of the chord that the claim names.',
    explanation:
      'Twelve equal keys to the octave are assumed. Which chord it is depends on spelling: a German sixth sounds like a dominant seventh and is none.',
  },
  C1502: {
    name: 'sounds-otherwise',
    summary: 'The chord has other keys of the keyboard.',
    explanation: 'Sets that differ by one note are not enharmonic.',
  },
  C1503: {
    name: 'sound-open',
    summary: 'No chord can be read at the place.',
    explanation: 'Too few notes sound to make a chord.',
  },
  C1601: {
    name: 'metre-as-claimed',
    summary: 'The metre is as the claim says.',
    explanation:
      'The time signature in force. Compound metres (6/8, 9/8, 12/8) divide the beat in three and have a dotted beat (common practice).',
  },
  C1602: {
    name: 'metre-otherwise',
    summary: 'A bar of the place is in another metre.',
    explanation:
      'A change of time signature within the place is easily missed. 6/8 has two beats of three divisions, 3/4 three beats of two.',
  },
  C1603: {
    name: 'beats-or-divisions',
    summary: 'The number counts divisions of a compound metre, not its beats.',
    explanation: '6/8 is counted in two, and in six only in a slow tempo; both are taught.',
  },
  C1611: {
    name: 'rhythm-as-claimed',
    summary: 'The note values or the figure of the claim are there.',
    explanation:
      'Written values, ties not joined. Syncopation: a note begins on a weaker place than one over which it is held. Hemiola: two bars of triple metre are struck in three groups of two beats.',
  },
  C1612: {
    name: 'rhythm-otherwise',
    summary: 'The place has other note values, or no such figure.',
    explanation:
      'The last note of a phrase is the usual exception. American and British names are read: an eighth note is a quaver.',
  },
  C1614: {
    name: 'values-for-the-most-part',
    summary: 'Most notes have the values that the claim names, and some have others.',
    explanation:
      '“In quavers” is often said where a longer note ends the passage; “mostly” may count notes or the time that they take. Say `moves only in` or `moves mostly in`, or take a shorter place.',
  },
  C1613: {
    name: 'note-values-counted-otherwise',
    summary: 'The number is right by one way of counting notes and wrong by another.',
    explanation:
      'A chord can count as one note value or as many as it has notes. Name the line, or say how many chords or notes are meant.',
  },
  C1631: {
    name: 'rest-as-claimed',
    summary: 'The line or the place is silent as the claim says.',
    explanation:
      'What is silent is read off the notes: a tied or held note is no rest, and a staccato note lasts as long as it is written. A line enters where it sounds after silence.',
  },
  C1632: {
    name: 'rest-otherwise',
    summary: 'Something sounds where the claim has a rest.',
    explanation:
      'The evidence names what sounds there. Of a whole place a rest in any line counts; name the line if one is meant.',
  },
  C1633: {
    name: 'rest-in-some-lines',
    summary: 'Some lines rest at that end of the place and others sound.',
    explanation: 'Say which line is meant: `the left hand of bar 4 ends with a rest`.',
  },
  C1641: {
    name: 'held-over-the-bar-line',
    summary: 'The note is held over the bar line as the claim says.',
    explanation:
      'A note that is tied sounds on and is not struck again: `bar 3 beat 1 holds C#5` says the same of the bar into which it is held.',
  },
  C1642: {
    name: 'not-held-over-the-bar-line',
    summary: 'The note ends before the bar that the claim names, or with its own bar.',
    explanation:
      'A note that is struck again has no tie, though its pitch stays. A tie may be missing in the score: a note that should be held is then printed twice.',
  },
  C1621: {
    name: 'marking-as-claimed',
    summary: 'The score is marked as the claim says.',
    explanation:
      'A tempo in beats per minute, a fermata, a dynamic or a hairpin stands in the score. What a word such as Andante means in beats per minute is opinion: published ranges disagree.',
  },
  C1622: {
    name: 'marking-otherwise',
    summary: 'The score is marked otherwise, or not at all.',
    explanation: 'The reason says what is written there.',
  },
  C1623: {
    name: 'no-tempo',
    summary: 'The score gives no tempo in beats per minute.',
    explanation: 'Give the score a tempo (`Q:1/4=90`), or mark the sentence as an opinion.',
  },
  C1624: {
    name: 'fermatas-counted-otherwise',
    summary: 'The number is right by one way of counting fermatas and wrong by another.',
    explanation:
      'Voices that pause together have a sign each and make one pause. Say which of the two is counted, or name the bars.',
  },
  C1701: {
    name: 'returns-as-claimed',
    summary: 'Every note returns as the claim says.',
    explanation:
      'Struck notes are compared with their place, length and pitch; ornaments are left out. An interval with its quality asks for an exact transposition, a number alone (`a second lower`) for one within the key.',
  },
  C1702: {
    name: 'returns-otherwise',
    summary: 'The passage is not that repetition.',
    explanation:
      'The reason counts the notes that differ and names the first. The bars may be off by one, or the copy may be transposed by another interval.',
  },
  C1703: {
    name: 'returns-with-changes',
    summary: 'Most notes return, some are changed.',
    explanation:
      'At most a quarter of the notes differ. Say it of the part that returns exactly, or of one line: `bars 25-27 repeat bars 1-3 in the soprano`.',
  },
  C1801: {
    name: 'form-as-claimed',
    summary: 'The passage has the form that the claim names.',
    explanation:
      'A phrase ends with a cadence; its length counts both outer bars, not the pickup. A period is two phrases, the second closed more firmly than the first; parallel where both begin alike. A sentence is an idea, its repetition, and a continuation as long as both (Open Music Theory v1, The period, The sentence).',
  },
  C1802: {
    name: 'form-otherwise',
    summary: 'The passage does not have that form.',
    explanation:
      'From bar 5 to bar 8 are four bars, not three. Two equal cadences make a repetition, not a period.',
  },
  C1803: {
    name: 'phrase-with-a-close-inside',
    summary: 'The passage ends with a cadence, but one within it closes as firmly.',
    explanation: 'Then many would hear two phrases.',
  },
  C1804: {
    name: 'bars-otherwise',
    summary: 'The place has another number of bars.',
    explanation:
      'Printed numbers count: a pickup is bar 0, alternative endings share their numbers, repeats are not unfolded.',
  },
  C1805: {
    name: 'phrase-with-a-disputed-close',
    summary: 'The passage ends with a deceptive cadence.',
    explanation:
      'Hutchinson (Music Theory for the 21st-Century Classroom, Cadences) counts the deceptive cadence among those that end a phrase; in Open Music Theory the phrase goes on until the close comes that was put off. The nearest statement names the longer phrase.',
  },
  C1806: {
    name: 'phrases-alike-in-part',
    summary: 'The two phrases begin with one rhythm and contour, but not with the same intervals.',
    explanation:
      'A period is parallel where its phrases begin with the same melody, on whatever step (Open Music Theory, The period). How much must agree is not laid down.',
  },
  C1807: {
    name: 'introduction-counted-in',
    summary: 'The passage is of that form, but it begins before the melody does.',
    explanation:
      'The accompaniment alone introduces the melody: most count the first phrase from the bar in which its voice enters (common practice).',
  },
  C1901: {
    name: 'quantity-as-claimed',
    summary: 'As many bars, beats or chords are so as the claim says.',
    explanation:
      'Every bar, beat or chord of the place is asked for itself; the reason counts them and names those of which the sentence is true.',
  },
  C1902: {
    name: 'counterexample',
    summary: 'A bar, beat or chord breaks the claim.',
    explanation:
      'The reason names it and says why. For `first` and `only` the counterexample is the earlier or the other place.',
  },
  C1903: {
    name: 'quantity-depends',
    summary: 'Whether the number is right depends on places that are arguable or undecided.',
    explanation: 'The reason names them. Ask about one of them to see its own reason.',
  },
  C1911: {
    name: 'occurs-as-claimed',
    summary: 'The thing occurs as often, or where, the claim says.',
    explanation:
      'A held note counts once, a chord once while it lasts, repeats are not unfolded. The reason lists the places.',
  },
  C1912: {
    name: 'occurs-otherwise',
    summary: 'The thing occurs more or less often, or elsewhere.',
    explanation:
      'The reason lists every place, so that an occurrence that was overlooked is found. Mind the scope: the piece or a section.',
  },
  C1921: {
    name: 'most-frequent-as-claimed',
    summary: 'It is the most frequent one.',
    explanation: 'Counted by how often it begins; inversions are put together.',
  },
  C1922: {
    name: 'most-frequent-is-another',
    summary: 'Something else is more frequent.',
    explanation: 'The reason gives the ranking by count.',
  },
  C1923: {
    name: 'most-frequent-by-one-measure',
    summary: 'It leads by count or by duration, not by both, or shares the lead.',
    explanation: 'Say which measure is meant in the narration; a tie has no single answer.',
  },
  C2001: {
    name: 'version-as-claimed',
    summary: 'The two versions agree or differ as the claim says.',
    explanation:
      'Notes are compared by place in the bar, pitch as spelled, and length, whatever their voices.',
  },
  C2002: {
    name: 'version-otherwise',
    summary: 'The two versions differ in another way.',
    explanation: 'The reason lists the notes that only one of them has. Bars are those of this version.',
  },
  C2003: {
    name: 'version-has-other-bars',
    summary: 'The two versions do not have the same bars there.',
    explanation:
      'A bar that is put in moves the numbers of all that follow; the reason says which bars have no partner.',
  },
  C2004: {
    name: 'unknown-version',
    summary: 'The other version of the piece could not be read.',
    explanation:
      'A version is named by its score file in quotes, `"altered.abc"`, and read beside the lesson; the finding about the file says what is wrong with it. Without its notes there is nothing to compare, so the verdict is `undecided`.',
  },
} as const satisfies Record<`C${number}`, CatalogueEntry>;
