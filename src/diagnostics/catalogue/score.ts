import type { CatalogueEntry } from './entry.js';

const abc = (text: string): string => `\n\n\`\`\`abc\n${text}\n\`\`\`\n\n`;
const standard = (section: string): string => ` Source: ABC standard 2.1, section ${section}.`;

/** Findings of the score stage: codes S0001 and up. Each explanation holds an example that raises its code, unless it is too long to print. */
export const scoreCatalogue = {
  S0001: {
    name: 'score-too-large',
    summary: 'The score text is larger than what is read.',
    explanation:
      'A score of more than 200,000 characters, some 3,000 bars of piano music, is refused before anything is read, so that no file can stall the check. Split it into movements, one file each.',
  },
  S0002: {
    name: 'too-many-voices',
    summary: 'The score names more voices than are read.',
    explanation: 'A score may have 64 voices. Leave out those that the lesson does not speak of.',
  },
  S0003: {
    name: 'reserved-voice-name',
    summary: 'A voice has a name that the engraver keeps for itself.',
    explanation: `A few words cannot name a voice, because the engraver uses them for its own ends:${abc('X:1\nM:4/4\nL:1/4\nK:C\nV:constructor\nCDEF|')}Any other name will do: \`1\`, \`RH\`, \`Soprano\`.`,
  },
  S0004: {
    name: 'endless-run',
    summary: 'The same sign stands too often in a row.',
    explanation:
      'More than 400 equal signs in a row, spaces or any others, mean nothing and would stall the engraver, and so would 2,000 characters of fields in brackets without a note. Take them out.',
  },
  S0005: {
    name: 'inexact-time',
    summary: 'The note lengths of the score add up to a time that cannot be held exactly.',
    explanation:
      'All times are exact fractions of a whole note. Lengths whose denominators have nothing in common (`C/997 C/991 ...`) add up to fractions too long to hold. Use the lengths of notation: halves, thirds, fifths, sevenths and their halves.',
  },
  S0006: {
    name: 'engraver-failure',
    summary: 'The engraver cannot read the score at all.',
    explanation: `The library that reads music code and draws it gives up on a few things, such as a decoration inside a chord that is never closed.${abc('X:1\nM:4/4\nL:1/4\nK:C\nCDEF|\n[!CE]4|')}Correct the line that the finding shows.`,
  },
  S0007: {
    name: 'open-slurs',
    summary: 'Too many slurs are open at once.',
    explanation:
      'A slur that is never closed stays open to the end of the score, and more than 300 of them would stall the engraver. Close each `(` with `)`. Source: ABC standard 2.1, section 4.11.',
  },
  S0008: {
    name: 'too-many-overlays',
    summary: 'Too many overlays lie over one bar.',
    explanation: `A bar may have 15 overlays.${abc('X:1\nM:4/4\nL:1/4\nK:C\nC4' + '&C4'.repeat(16) + '|')}Write the parts as voices of their own.${standard('7.4')}`,
  },
  S0009: {
    name: 'open-grace-notes',
    summary: 'Too many groups of grace notes are never closed.',
    explanation:
      'A group of grace notes stands between `{` and `}`. More than 100 groups without an end would stall the engraver. Close each of them. Source: ABC standard 2.1, section 4.12.',
  },
  S0010: {
    name: 'too-many-notes',
    summary: 'The score has more notes than are read.',
    explanation:
      'A score may have 60,000 notes, rests and bar lines, ten times as many as a long movement for piano. Split it into movements, one file each.',
  },
  S0011: {
    name: 'not-abc',
    summary: 'The score is in another format.',
    explanation: `Scores are read in ABC notation alone.${abc('<?xml version="1.0"?>\n<score-partwise version="4.0"/>')}Write the score in ABC, or convert it.`,
  },
  S0101: {
    name: 'missing-number',
    summary: 'The tune has no `X:` field.',
    explanation: `A tune begins with its number.${abc('M:4/4\nL:1/4\nK:C\nCDEF|')}Put \`X:1\` in the first line.${standard('3.1.1')}`,
  },
  S0102: {
    name: 'missing-key',
    summary: 'The tune has no `K:` field.',
    explanation: `The key ends the header of a tune. Without it no note has a certain pitch.${abc('X:1\nM:4/4\nL:1/4\nCDEF|')}Write the key as the last field in front of the music: \`K:Gm\`, or \`K:none\` for no signature.${standard('3.1.14')}`,
  },
  S0103: {
    name: 'missing-unit-length',
    summary: 'The tune has no `L:` field.',
    explanation: `Without \`L:\` the unit note length follows from the metre: 1/16 where the metre as a decimal is below 0.75, else 1/8. A reader may not know that.${abc('X:1\nM:4/4\nK:C\nCDEFGABc|')}Write \`L:1/8\`.${standard('3.1.7')}`,
  },
  S0104: {
    name: 'missing-meter',
    summary: 'The tune has no `M:` field.',
    explanation: `Without \`M:\` the metre is free: the length of bars cannot be checked, and beats are quarters.${abc('X:1\nL:1/4\nK:C\nCDEF|')}Write \`M:3/4\`, or \`M:none\` where the metre is meant to be free.${standard('3.1.6')}`,
  },
  S0105: {
    name: 'no-music',
    summary: 'The score holds no notes.',
    explanation: `There is nothing to teach about.${abc('X:1\nM:4/4\nL:1/4\nK:C\nz4|')}Check that the music follows the \`K:\` line without an empty line between.`,
  },
  S0106: {
    name: 'several-tunes',
    summary: 'The file holds more than one tune; the first one is read.',
    explanation: `A lesson speaks of one score.${abc('X:1\nM:4/4\nL:1/4\nK:C\nCDEF|\n\nX:2\nM:4/4\nL:1/4\nK:C\nGFED|')}Put the other tunes into files of their own.${standard('2.2')}`,
  },
  S0107: {
    name: 'text-after-tune',
    summary: 'Text stands after the empty line that ends the tune.',
    explanation: `An empty line ends a tune; what follows is free text and is neither read nor drawn.${abc('X:1\nM:4/4\nL:1/4\nK:C\nCDEF|\n\nGFED|')}Take the empty line out, or write \`%\` in it.${standard('2.2.1')}`,
  },
  S0108: {
    name: 'field-in-music',
    summary: 'A line of music begins like a field.',
    explanation: `A capital letter and a colon at the start of a line are an information field, so this line is not music:${abc('X:1\nM:4/4\nL:1/4\nK:C\nCDEF|\nG:|')}Put a space or a bar line in front of the note.${standard('3')}`,
  },
  S0109: {
    name: 'unread-field',
    summary: 'A field says something that is not followed.',
    explanation: `Macros (\`m:\`), symbol lines (\`s:\`), continued lyrics (\`+:\`), an order of parts (\`P:\` in the header) and \`%%MIDI transpose\` are not followed.${abc('X:1\nM:4/4\nL:1/4\nP:AAB\nK:C\nP:A\nCDEF|\nP:B\nGFED|')}Write the decorations into the music, write macros out, and write the order of parts with repeat signs.${standard('3.1.9, 4.15 and 9')}`,
  },
  S0110: {
    name: 'comment-in-quotes',
    summary: 'A percent sign cuts off a text in quotes.',
    explanation: `\`%\` starts a comment everywhere, even inside quotes.${abc('X:1\nM:4/4\nL:1/4\nK:C\n"^50% slower"CDEF|')}Write \`\\%\`.${standard('2.2.5')}`,
  },
  S0201: {
    name: 'odd-key',
    summary: 'The key would need more than seven sharps or flats.',
    explanation: `No signature has eight sharps.${abc('X:1\nM:4/4\nL:1/4\nK:G#\nCDEF|')}Write the same key with the other name: A flat for G sharp major. Source: MusicXML 4.0, element fifths; common practice of notation.`,
  },
  S0202: {
    name: 'unreadable-key',
    summary: 'A `K:` field names no key.',
    explanation: `A key is a capital letter, perhaps \`#\` or \`b\`, and a mode.${abc('X:1\nM:4/4\nL:1/4\nK:H\nCDEF|')}Write \`K:Bm\`, \`K:F#min\`, \`K:D dorian\` or \`K:none\`.${standard('3.1.14')}`,
  },
  S0203: {
    name: 'unreadable-meter',
    summary: 'An `M:` field names no metre.',
    explanation: `A metre is two numbers, \`C\`, \`C|\` or \`none\`.${abc('X:1\nM:waltz\nL:1/4\nK:C\nCDE|')}Write \`M:3/4\`.${standard('3.1.6')}`,
  },
  S0204: {
    name: 'unreadable-unit-length',
    summary: 'An `L:` field names no note length.',
    explanation: `A unit note length is a fraction of a whole note.${abc('X:1\nM:4/4\nL:eighth\nK:C\nCDEF|')}Write \`L:1/8\`.${standard('3.1.7')}`,
  },
  S0205: {
    name: 'unreadable-tempo',
    summary: 'A `Q:` field names no tempo.',
    explanation: `A tempo is a note value, an equals sign and beats a minute, with or without words in quotes.${abc('X:1\nM:4/4\nL:1/4\nQ:fast\nK:C\nCDEF|')}Write \`Q:1/4=96\`, \`Q:"Allegro" 1/4=120\` or \`Q:"Allegro"\`.${standard('3.1.8')}`,
  },
  S0206: {
    name: 'voice-not-in-layout',
    summary: 'A voice is missing from the `%%score` directive.',
    explanation: `Only the voices that the directive names are drawn; another one is heard, but the engraver leaves it out or draws it into a voice that it knows.${abc('X:1\nM:4/4\nL:1/4\n%%score 1\nK:C\nV:1\nCDEF|\nV:2\nEFGA|')}Name the voice in the directive.${standard('11.1')}`,
  },
  S0207: {
    name: 'unknown-voice-in-layout',
    summary: 'The `%%score` directive names a voice that the tune does not have.',
    explanation: `The directive and the \`V:\` fields must agree.${abc('X:1\nM:4/4\nL:1/4\n%%score 1 2\nK:C\nV:1\nCDEF|')}Check the spelling of the voice.${standard('11.1')}`,
  },
  S0208: {
    name: 'music-before-voice',
    summary: 'Music stands before the first `V:` of the tune body.',
    explanation: `In a score of several voices every note needs its voice.${abc('X:1\nM:4/4\nL:1/4\nV:1\nV:2\nK:C\nCDEF|\nV:2\nEFGA|')}Put the \`V:\` field in front of the music.${standard('7')}`,
  },
  S0209: {
    name: 'octave-of-clef',
    summary: 'A voice is written where it sounds, and its clef lowers it by an octave.',
    explanation: `Behind \`clef=treble-8\` the notes sound an octave lower than they are written. This voice lies below the bass with every note; an octave higher it would lie above it.${abc('X:1\nM:4/4\nL:1/4\nV:T clef=treble-8\nV:B clef=bass\nK:C\nV:T\nG,A,B,C|B,2G,2|]\nV:B\nC,D,E,F,|D,2C,2|]')}Write \`clef=treble-8 octave=1\`, so that the letters say what sounds, or write the notes an octave higher.${standard('4.6')}`,
  },
  S0301: {
    name: 'bar-length',
    summary: 'A bar is shorter or longer than its metre asks.',
    explanation: `The notes of the bar do not add up to the metre.${abc('X:1\nM:3/4\nL:1/4\nK:C\nCDE|FGAB|c3|')}Check the lengths, or change the metre with \`[M:4/4]\` where the bar is meant to be so. A pickup, the bar that completes it at the end, and a bar that a repeat sign cuts in two are no faults.`,
  },
  S0302: {
    name: 'voices-disagree',
    summary: 'The voices write a bar of different lengths.',
    explanation: `Voices sound together only if each bar lasts as long in all of them.${abc('X:1\nM:3/4\nL:1/4\nK:C\nV:1\nCDE|FGA|\nV:2\nC3|FGAB|')}Check the lengths in the voice that the finding names; until then the length that most voices write is taken.`,
  },
  S0303: {
    name: 'missing-bars',
    summary: 'A voice has fewer bars than the others.',
    explanation: `A voice that stops early has probably lost a bar.${abc('X:1\nM:3/4\nL:1/4\nK:C\nV:1\nCDE|FGA|\nV:2\nC3|')}Write the rests out: \`z3\` or \`Z\` for a whole bar.`,
  },
  S0304: {
    name: 'key-in-one-voice',
    summary: 'The voices stand in different keys.',
    explanation: `A \`K:\` in the tune body applies to the voice in which it stands, but the engraver draws it on all staves.${abc('X:1\nM:4/4\nL:1/4\nK:C\nV:1\nCDEF|[K:G]GABc|\nV:2\nC4|G4|')}Write the change into every voice, at the same bar.`,
  },
  S0305: {
    name: 'repeat-in-one-voice',
    summary: 'A repeat sign or an ending is missing in some voices.',
    explanation: `All voices are repeated together.${abc('X:1\nM:4/4\nL:1/4\nK:C\nV:1\n|:CDEF:|\nV:2\n|:C4|')}Write the same repeat signs into every voice; until then each sign counts for all.`,
  },
  S0306: {
    name: 'overlay-too-long',
    summary: 'An overlay is longer than the bar it lies over.',
    explanation: `What follows \`&\` starts again at the bar line and must fit into the bar.${abc('X:1\nM:4/4\nL:1/4\nK:C\nCDEF & G4A|')}Check the lengths behind the \`&\`.${standard('7.4')}`,
  },
  S0401: {
    name: 'dangling-tie',
    summary: 'A tie finds no second note of the same pitch.',
    explanation: `A tie joins two notes of one pitch that follow each other in a voice. The engraver draws any curve; to the ear the notes stay two.${abc('X:1\nM:4/4\nL:1/4\nK:C\nC2-D2|')}Take the \`-\` away, or write a slur \`(CD)\`.${standard('4.11')}`,
  },
  S0402: {
    name: 'no-tuplet',
    summary: 'The numbers of a tuplet make no sense.',
    explanation: `A tuplet puts p notes into the time of q.${abc('X:1\nM:4/4\nL:1/4\nK:C\n(3:200:3CDE F2|')}Write \`(3CDE\`, or \`(p:q:r\` with numbers up to 99.${standard('4.13')}`,
  },
  S0403: {
    name: 'microtone',
    summary: 'An accidental of less than a semitone.',
    explanation: `A spelled pitch is altered by whole semitones; the note is read without its accidental.${abc('X:1\nM:4/4\nL:1/4\nK:C\n^/CDEF|')}Write \`^\` or \`_\`.`,
  },
  S0404: {
    name: 'impossible-length',
    summary: 'A note has a length that no notation knows.',
    explanation: `The length is nothing, or beyond all use.${abc('X:1\nM:4/4\nL:1/4\nK:C\nC0DEF|')}Check the number behind the note.${standard('4.3')}`,
  },
  S0405: {
    name: 'unreadable-ending',
    summary: 'An ending names no pass from 1 to 99.',
    explanation: `The number of an ending says on which pass it is played.${abc('X:1\nM:4/4\nL:1/4\nK:C\n|:CDEF|[1-100 GABc:|')}Write \`[1\`, \`[2,3\` or \`[1-3\`.${standard('4.10')}`,
  },
  S0406: {
    name: 'endless-rest',
    summary: 'A rest goes on beyond bar 5000.',
    explanation: `The number behind \`Z\` counts bars.${abc('X:1\nM:4/4\nL:1/4\nK:C\nC4|Z5000|')}Check it.${standard('4.5')}`,
  },
  S0407: {
    name: 'missing-sign',
    summary: 'A direction leads to a sign that the score does not have.',
    explanation: `\`D.S.\` needs a segno, \`al fine\` a fine, \`al coda\` two coda signs.${abc('X:1\nM:4/4\nL:1/4\nK:C\nCDEF|GABc!D.S.!|')}Write the sign as a decoration where the music goes on: \`!segno!\`, \`!fine!\`, \`!coda!\`. The music is read as going on from its beginning, to its end.${standard('4.14')}`,
  },
  S0408: {
    name: 'endless-repeats',
    summary: 'The repeats unfold to more bars than are played.',
    explanation:
      'The playing order is cut after 100,000 bars. Check the numbers of the endings and the colons of the repeat signs.',
  },
  S0409: {
    name: 'no-note-value',
    summary: 'No single note can be written as long as this one.',
    explanation: `A note lasts a power of two, with dots a half, three quarters and so on more. Five quarters take two notes.${abc('X:1\nM:5/4\nL:1/4\nK:C\nC5|')}Write tied notes, \`C4-C\`, or a tuplet.`,
  },
  S0410: {
    name: 'accidental-sign',
    summary: 'An accidental is written with its printed sign.',
    explanation: `In music code a sharp is \`^\`, a flat \`_\` and a natural \`=\`, in front of the note; the printed signs are passed over.${abc('X:1\nM:4/4\nL:1/4\nK:C\nCDE♯F|')}Write \`^F\`.${standard('4.2')}`,
  },
  S0501: {
    name: 'engraver-complaint',
    summary: 'The engraver does not understand something.',
    explanation: `The library that draws the notation leaves out what it does not understand, and says so.${abc('X:1\nM:4/4\nL:1/4\nK:C\nCD?EF|')}Check the place that the finding shows.`,
  },
  S0502: {
    name: 'note-not-drawn',
    summary: 'A note is read and heard but not drawn.',
    explanation: `The student would hear a note that is not on the page.${abc('X:1\nM:4/4\nL:1/4\nK:C\nCDEF|\nH:a history, which the engraver takes to go on\nGABc|')}Look for what the engraver takes the line to be: here, field \`H:\` belongs into the header.`,
  },
  S0503: {
    name: 'lost-note',
    summary: 'A note cannot be read because of the signs behind it.',
    explanation: `The parts of a note have a fixed order: accidental, letter, octave, length, tie, end of a slur.${abc('X:1\nM:4/4\nL:1/4\nK:C\nC(DE-)2F|')}Write \`(DE2)-F\`.${standard('4.20')}`,
  },
  S0504: {
    name: 'metre-not-drawn',
    summary: 'A change of metre is read but not drawn.',
    explanation: `A voice is drawn with the metres that stand in it.${abc('X:1\nM:4/4\nL:1/4\nK:C\nV:1\nC4|\nV:2\nC4|\nV:1\n[M:3/4]C3|\nV:2\nC3|')}Write the change in every voice: \`[M:3/4]\` in front of the first bar that it holds for.`,
  },
} as const satisfies Record<`S${string}`, CatalogueEntry>;
