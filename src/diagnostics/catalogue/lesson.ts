import { explain } from './entry.js';
import type { CatalogueEntry } from './entry.js';

/** Findings of the lesson stage: codes L0001 and up. */
export const lessonCatalogue = {
  L0001: {
    name: 'unreadable-yaml',
    summary: 'A line cannot be read as YAML.',
    explanation: explain({
      meaning:
        'A lesson is a YAML file: keys with values, lists behind dashes, and indentation that shows what belongs together. This line does not fit its surroundings, most often because it begins one column too far to the left or to the right.',
      example: ['steps:', '  - title: Home', '   bars: 1-4        # one column short of `title`'],
      remedy: 'Let all keys of one mapping, and all dashes of one list, begin in the same column.',
      source: 'YAML 1.2.2, section 6.1 (indentation spaces).',
    }),
  },
  L0002: {
    name: 'colon-in-text',
    summary: 'A colon with a space after it stands in an unquoted text.',
    explanation: explain({
      meaning: 'A colon with a space after it ends a key. In an unquoted text it breaks the text in two.',
      example: ['say: bar 5: the first applied chord'],
      remedy:
        'Put the whole text in double quotes, or below the key after `|`.\n\n```yaml\nsay: "bar 5: the first applied chord"\n```',
      source: 'YAML 1.2.2, section 7.3.3 (plain style).',
    }),
  },
  L0003: {
    name: 'reserved-first-character',
    summary: 'An unquoted text begins with a character that YAML keeps for itself.',
    explanation: explain({
      meaning: '`%`, `@` and the backquote cannot begin an unquoted text.',
      example: ['say: "%43 is no figure"   # right', 'say: %43 is no figure     # wrong'],
      remedy: 'Put the whole text in double quotes.',
      source: 'YAML 1.2.2, section 5.3 (indicator characters).',
    }),
  },
  L0004: {
    name: 'text-cut-by-remark',
    summary: 'A text was cut off because the rest of its line was taken for a remark.',
    explanation: explain({
      meaning:
        'In YAML a `#` with a space before it begins a remark, and everything after it is lost. Names of chords and degrees with a sharp before them fall into this trap, and so does a sharp with a space before it.',
      example: ['claims:', '  - bar 3 is #ivo7', 'home: F # minor'],
      remedy:
        'Put the whole text in double quotes (`"bar 3 is #ivo7"`) or close the gap (`F# minor`). If it really is a remark, put a space after the `#`.',
      source: 'YAML 1.2.2, section 6.6 (comments).',
    }),
  },
  L0005: {
    name: 'text-after-value',
    summary: 'A text begins with a character that makes YAML expect something else.',
    explanation: explain({
      meaning:
        'A value that begins with `[` is a list, with `{` a mapping, with a quotation mark a text that ends at the next one, with `*` a reference, with `>` or `|` a text on the next lines. What follows then has no place.',
      example: ['say: [The first chord]{bar 1 is I} is home.'],
      remedy:
        'Put the whole text in double quotes, or below the key after `|`.\n\n```yaml\nsay: |\n  [The first chord]{bar 1 is I} is home.\n```',
      source: 'YAML 1.2.2, section 5.3 (indicator characters).',
    }),
  },
  L0006: {
    name: 'unknown-type',
    summary: 'A value begins with `!`, which names a type in YAML.',
    explanation: explain({
      meaning: 'A lesson has texts, numbers, lists and mappings and no types of its own.',
      example: ['say: !Listen to the bass.'],
      remedy: 'Put the whole text in double quotes.',
      source: 'YAML 1.2.2, section 6.8.2 (tags).',
    }),
  },
  L0007: {
    name: 'unknown-reference',
    summary:
      'A value begins with `*`, which refers to another place of the file, and there is no such place.',
    explanation: explain({
      meaning:
        '`*name` repeats the value that was named `&name` earlier in the file. A text that begins with stress in Markdown is taken for such a reference.',
      example: ['say: *Now* the bass moves.'],
      remedy: 'Put the whole text in double quotes, or below the key after `|`.',
      source: 'YAML 1.2.2, section 7.1 (alias nodes).',
    }),
  },
  L0008: {
    name: 'tab-indentation',
    summary: 'A line is indented with a tab.',
    explanation: explain({
      meaning: 'YAML knows only spaces for indentation, since a tab has no fixed width.',
      example: ['steps:', '\t- title: Home'],
      remedy: 'Indent with spaces.',
      source: 'YAML 1.2.2, section 6.1 (indentation spaces).',
    }),
  },
  L0009: {
    name: 'duplicate-key',
    summary: 'A key stands twice in one mapping.',
    explanation: explain({
      meaning: 'Only one of the two values could count, and nothing says which. Neither is dropped silently.',
      example: ['title: Home', 'bars: 1-4', 'title: Away'],
      remedy: 'Remove one of the two, or rename it.',
      source: 'YAML 1.2.2, section 3.2.1.3 (keys are unique).',
    }),
  },
  L0010: {
    name: 'several-lessons',
    summary: 'A file holds more than one lesson.',
    explanation: explain({
      meaning: 'A line `---` begins a new document. Everything after it would be dropped.',
      example: ['format: 1', 'title: Home', '---', 'format: 1'],
      remedy: 'Remove the line, or move what follows to a file of its own.',
      source: 'YAML 1.2.2, section 9.2 (document markers).',
    }),
  },
  L0011: {
    name: 'lesson-too-long',
    summary: 'The lesson is longer than what is read.',
    explanation: explain({
      meaning:
        'A quarter of a million characters are some four thousand claims. A longer file is most likely not a lesson.',
      example: ['score: lamplight.abc   # and a quarter of a million characters more'],
      remedy: 'Split the lesson, or name the right file.',
    }),
  },
  L0012: {
    name: 'lesson-too-deep',
    summary:
      'Lists and mappings are nested too deeply, or references multiply the lesson beyond all measure.',
    explanation: explain({
      meaning: 'A lesson is at most a handful of levels deep.',
      example: ['steps: [[[[[[[[[[[[[[[['],
      remedy: 'Remove the brackets that were not meant as lists.',
    }),
  },
  L0013: {
    name: 'unwanted-escape',
    summary: 'A backslash in double quotes makes something that nobody wants.',
    explanation: explain({
      meaning:
        'In double quotes a backslash begins an escape such as `\\n` (a line end) or `\\"`. Another letter after it is either no escape at all or makes a control character: `\\f` is a form feed, so that `\\flat` loses its first letter.',
      example: ['say: "the \\flat side of the key"', 'say: "the \\sharp side of the key"'],
      remedy: 'Write `\\\\` for a backslash, or use single quotes, in which a backslash is only a backslash.',
      source: 'YAML 1.2.2, section 5.7 (escaped characters).',
    }),
  },
  L0014: {
    name: 'colon-without-space',
    summary: 'A key has no space after its colon.',
    explanation: explain({
      meaning: 'Without the space the key and its value are one text.',
      example: ['title:Where the lamps turn'],
      remedy: 'Put a space after the colon.',
      source: 'YAML 1.2.2, section 7.4.2 (flow mappings).',
    }),
  },
  L0015: {
    name: 'open-quote',
    summary: 'A quotation mark or a bracket is opened and never closed.',
    explanation: explain({
      meaning: 'Everything after it would belong to the text or the list.',
      example: ['title: "Where the lamps turn', 'score: lamplight.abc'],
      remedy: 'Close it where the text ends.',
      source: 'YAML 1.2.2, section 7.3 (flow scalar styles).',
    }),
  },
  L0016: {
    name: 'more-findings',
    summary: 'The lesson has more findings than are shown.',
    explanation: explain({
      meaning: 'Two hundred findings are more than anybody reads; most often one fault is repeated all over.',
      example: ['clams:   # two hundred times'],
      remedy: 'Mend what is shown, then check again.',
    }),
  },
  L0101: {
    name: 'unknown-key',
    summary: 'A key cannot stand where it stands.',
    explanation: explain({
      meaning:
        'Unknown keys are never dropped silently: a misspelt `claims` would leave a whole step unchecked.',
      example: ['steps:', '  - title: Home', '    clams:', '      - bar 1 is I'],
      remedy:
        'Use the key that the help proposes. All keys are listed in `lesson-schema/lesson.schema.json`.',
    }),
  },
  L0102: {
    name: 'missing-key',
    summary: 'A key that cannot be left out is missing.',
    explanation: explain({
      meaning:
        'A lesson needs `format`, `title`, `score`, `home` and `steps`; a step needs `title`; an `ask` needs `answer`; a `play` with braces needs `bars`.',
      example: [
        'format: 1',
        'title: Where the lamps turn',
        'score: lamplight.abc',
        'steps: []          # `home` is missing',
      ],
      remedy: 'Add the key.',
    }),
  },
  L0103: {
    name: 'wrong-type',
    summary: 'A value is of another kind than its key takes.',
    explanation: explain({
      meaning:
        'A text, a number, `true` or `false`, a list and a mapping are told apart. `12` is a number and `"12"` a text; `true` and `null` are no texts; `no` is one.',
      example: ['title: 12', 'steps: Home'],
      remedy: 'Write the value as the message says; quotes make a text of anything.',
      source: 'YAML 1.2.2, section 10.3.2 (core schema).',
    }),
  },
  L0104: {
    name: 'unknown-word',
    summary: 'A value is not one of the words to choose from.',
    explanation: explain({
      meaning: 'Some keys take one of a few words: `as`, `show`, `beat` and the conventions.',
      example: ['- play: { bars: 3, as: stak }'],
      remedy: 'Use one of the words that the message lists.',
    }),
  },
  L0105: {
    name: 'number-out-of-range',
    summary: 'A number is too small or too large.',
    explanation: explain({
      meaning: 'The limits keep the lesson playable: a tempo of 0 would never end.',
      example: ['tempo: 0'],
      remedy: 'Choose a number within the limits of the message.',
    }),
  },
  L0106: {
    name: 'unknown-format',
    summary: 'The lesson is written in a format that this version does not read.',
    explanation: explain({
      meaning: '`format` counts the versions of the lesson format. Format 1 is the only one so far.',
      example: ['format: 2'],
      remedy: 'Write `format: 1`, or read the lesson with the version that it was written for.',
    }),
  },
  L0107: {
    name: 'empty-lesson',
    summary: 'There is nothing in the lesson, in its steps or in a script.',
    explanation: explain({
      meaning: 'An empty list most often means that its items were lost or put in the wrong place.',
      example: ['steps: []'],
      remedy:
        'Add at least one item, or remove the key where it may be left out. `barwise draft SCORE` writes a first lesson.',
    }),
  },
  L0108: {
    name: 'not-a-lesson',
    summary: 'The file is YAML, but not a lesson.',
    explanation: explain({
      meaning: 'A lesson is a mapping of keys to values. This file holds a single text or a list.',
      example: ['- title: Home', '- title: Away'],
      remedy: 'Begin with `format: 1`, and put the list under `steps:`.',
    }),
  },
  L0109: {
    name: 'say-beside-script',
    summary: 'A step has both `say` and `script`.',
    explanation: explain({
      meaning:
        '`say` alone is short for a script that plays the bars of the step and then speaks. Beside a script it is not clear when the words come.',
      example: ['- title: Home', '  say: Four bars, four chords.', '  script:', '    - play: 1-4'],
      remedy: 'Move the words into the script.',
    }),
  },
  L0110: {
    name: 'no-single-action',
    summary: 'An item of a script is not exactly one action.',
    explanation: explain({
      meaning: 'A script is a list of actions, each with one of the keys `play`, `say`, `wait` and `ask`.',
      example: ['script:', '  - play: 1-4', '    say: Listen to the bass.'],
      remedy: 'Put a dash before each action.',
    }),
  },
  L0111: {
    name: 'idle-step',
    summary: 'A step says, plays and claims nothing.',
    explanation: explain({
      meaning: 'The step shows its title and is over at once.',
      example: ['- title: Home', '  bars: 1-4'],
      remedy: 'Add `say`, `script` or `claims`.',
    }),
  },
  L0201: {
    name: 'not-a-bar-range',
    summary: 'A value does not name bars.',
    explanation: explain({
      meaning:
        'Bars are named by one number or by two with a hyphen between them. Bar 1 is the first full bar, bar 0 the pickup; `8a` and `8b` are the bar 8 of a first and of a second ending.',
      example: ['bars: 1 to 4'],
      remedy: 'Write `1-4`, `3`, or `8a`.',
    }),
  },
  L0202: {
    name: 'backwards-bars',
    summary: 'The last bar of a range comes before its first.',
    explanation: explain({
      meaning: 'A range names its earlier bar first, since the bars are played from left to right.',
      example: ['bars: 8-5'],
      remedy: 'Swap the two numbers.',
    }),
  },
  L0203: {
    name: 'ambiguous-bar-number',
    summary: 'A bar number is written in a way that readers of YAML take for different numbers.',
    explanation: explain({
      meaning: '`010` is ten in YAML 1.2 and eight in YAML 1.1; `1e1` is ten and does not look like it.',
      example: ['bars: 010'],
      remedy: 'Write the number plainly: `bars: 10`.',
      source: 'YAML 1.2.2, section 10.3.2 (core schema), and YAML 1.1, type int.',
    }),
  },
  L0204: {
    name: 'not-a-key',
    summary: 'A value does not name a key.',
    explanation: explain({
      meaning:
        'A key is a tonic with its mode: `G major`, `F# minor`, `B flat major`. The mode cannot be left out, since a capital and a small letter are easily mistaken for each other.',
      example: ['home: g'],
      remedy: 'Write the tonic as a capital letter, and the mode.',
    }),
  },
  L0205: {
    name: 'not-a-time',
    summary: 'A value does not name a time of at most a minute.',
    explanation: explain({
      meaning: '`wait` takes seconds: a number alone, or with `s` or `ms`.',
      example: ['- wait: a moment'],
      remedy: 'Write `1 s`, `1.5 s` or `500 ms`.',
    }),
  },
  L0206: {
    name: 'answer-not-a-choice',
    summary: 'The answer to a question is not one of its choices.',
    explanation: explain({
      meaning: 'The student could never answer right.',
      example: ['- ask: Which note leaves home?', '  choices: [C, C sharp, F sharp]', '  answer: C#'],
      remedy: 'Write the answer exactly as the choice is written.',
    }),
  },
  L0301: {
    name: 'broken-claim-mark',
    summary: 'A mark for a claim in narration is not complete.',
    explanation: explain({
      meaning:
        '`[words]{claim}` shows the words and checks the claim. The bracket and the brace must touch, both must be closed, and there must be words.',
      example: ['say: Bar 3 is [the dominant of the dominant] {bar 3 is V7/V}.'],
      remedy: 'Complete the mark, or write `\\]` for a bracket that is only a bracket.',
    }),
  },
  L0302: {
    name: 'refused-link',
    summary: 'A link in narration does not lead to a web page.',
    explanation: explain({
      meaning:
        'The walkthrough page is opened from disks and school servers. Links other than `https://` and `http://` could run a program or lead nowhere.',
      example: ['say: See [the plan](plan.docx).'],
      remedy: 'Give the full address of a web page. For a claim, use braces: `[words]{claim}`.',
    }),
  },
  L0303: {
    name: 'html-in-narration',
    summary: 'There is HTML in narration, where it has no effect.',
    explanation: explain({
      meaning:
        'Narration is spoken as well as shown, so its Markdown has paragraphs, lists, stress and links. HTML is shown as the text that it is.',
      example: ['say: Now <b>listen</b>.'],
      remedy: 'Use `**strong stress**` of Markdown.',
    }),
  },
  L0304: {
    name: 'picture-in-narration',
    summary: 'There is a picture in narration.',
    explanation: explain({
      meaning:
        'Narration is spoken, and a picture cannot be spoken. The bars of the step are engraved beside it.',
      example: ['say: Look ![here](bar3.png).'],
      remedy: 'Say it in words, or show labels with `show:`.',
    }),
  },
  L0305: {
    name: 'empty-claim',
    summary: 'The braces after some words hold no claim.',
    explanation: explain({
      meaning: 'Nothing would be checked, though the words look as if they were.',
      example: ['say: Bar 1 is [home]{}.'],
      remedy: 'Write one sentence in the braces, or remove brackets and braces.',
    }),
  },
  L0306: {
    name: 'narration-too-long',
    summary: 'The narration of one `say` is longer than what is read.',
    explanation: explain({
      meaning: 'Ten thousand characters are about ten minutes of uninterrupted talk.',
      example: ['say: Once upon a time ...   # and ten thousand characters more'],
      remedy: 'Break it into several `say`, with music between them.',
    }),
  },
  L0401: {
    name: 'acceptance-without-reason',
    summary: 'A verdict is set aside without a reason.',
    explanation: explain({
      meaning:
        '`accept` overrules the notes in front of every reader of the report, so it has to say why, in two words or more.',
      example: ['claims:', '  - { claim: bar 7 is IV, accept: ok }'],
      remedy: 'Say why the claim stands: `accept: "the E is an appoggiatura for the author"`.',
    }),
  },
  L0402: {
    name: 'acceptance-not-needed',
    summary: 'A verdict is set aside that needs no setting aside.',
    explanation: explain({
      meaning: 'The claim holds. The acceptance would hide a change of the score that breaks it one day.',
      example: ['claims:', '  - { claim: bar 1 is I, accept: "the fifth is missing" }   # bar 1 is I'],
      remedy: 'Remove `accept` and leave the claim.',
    }),
  },
  L0501: {
    name: 'bars-outside-piece',
    summary: 'The lesson names bars that the score does not have.',
    explanation: explain({
      meaning:
        'Bar 1 is the first full bar and bar 0 the pickup, so a piece of 32 bars with a pickup has the bars 0 to 32. Bars of alternative endings share a number, with a letter: `8a`, `8b`.',
      example: ['bars: 30-34       # the piece ends with bar 32'],
      remedy: 'Name bars that are in the score.',
    }),
  },
  L0502: {
    name: 'unknown-voice',
    summary: 'A `play` names a voice that the score does not have.',
    explanation: explain({
      meaning: 'A voice is named by its id or its printed name in the score (`V:RH name="Right hand"`).',
      example: ['- play: { bars: 1-4, voice: alto }'],
      remedy: 'Use one of the voices that the help lists.',
    }),
  },
  L0503: {
    name: 'score-not-read',
    summary: 'A claim could not be checked because the score could not be read.',
    explanation: explain({
      meaning:
        'Without notes there is nothing to check a claim against, so its verdict is `undecided`. The finding about the score says what is wrong with it.',
      example: ['score: lamplihgt.abc    # there is no such file'],
      remedy: 'Mend the score, or its path.',
    }),
  },
  L0504: {
    name: 'words-contradict-claim',
    summary: 'The narration says something that a claim of the same step contradicts.',
    explanation: explain({
      meaning:
        'The words name a chord, a key or a cadence outright, the notes say otherwise, and so does a claim of the same step that holds. Words that ask, deny, compare, expect or speak of other bars are never reported.',
      example: ['- say: Bar three is ii7 here.', 'claims:', '  - bar 3 is V7'],
      remedy: 'Change the words. Where they are meant of other bars, name the bars.',
    }),
  },
  L0505: {
    name: 'words-without-claim',
    summary: 'Words of the narration say something of the notes, and no claim checks it.',
    explanation: explain({
      meaning:
        'The words name a chord, a key, a cadence or a non-chord tone. They are taken to speak of the bars of their step, and the note says what the notes say to that. It is a hint, never an error: the words may be meant of other bars. `check --unchecked` lists these notes.',
      example: ['- say: Listen to the D dominant seventh here.'],
      remedy: 'Put a claim behind the words: `the [D dominant seventh]{bar 3 is D7}`. Or leave them.',
    }),
  },
  L0506: {
    name: 'words-of-opinion',
    summary: 'Words of the narration speak of history, intention, feeling or taste.',
    explanation: explain({
      meaning:
        'The notes can neither confirm nor contradict them, so they are counted apart. `check --unchecked` lists them.',
      example: ['- say: A beautiful chord, and the composer knew it.'],
      remedy: 'Name a source for history, and let an opinion be heard as one.',
    }),
  },
} as const satisfies Record<`L${number}`, CatalogueEntry>;
