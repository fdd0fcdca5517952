import { z } from 'zod';
import { defaultConventions } from '../claims/index.js';
import type { Code } from '../diagnostics/index.js';
import { barRangePattern } from './bars.js';
import { barsHint, keyHint, listHint, numberHint, textHint, wordHint, yesOrNoHint } from './hints.js';
import type { Hint } from './hints.js';
import { keyPattern } from './home.js';
import { instrumentNames } from './instrument.js';
import { noteValueNames } from './note-value.js';
import { waitPattern } from './wait.js';

/** What to say where a value does not fit its schema. */
export interface Expectation {
  readonly code: Code;
  /** Ends the sentence "`key` takes ...". */
  readonly expected: string;
  /** Types of value to which `code` applies; another type is the wrong type. */
  readonly types: readonly ('string' | 'number' | 'boolean')[];
  readonly hint?: Hint;
}

const expectations = new WeakMap<z.ZodType, Expectation>();

/** The expectation of a schema that stands for one value. */
export const expectationOf = (schema: z.ZodType): Expectation | undefined => expectations.get(schema);

interface About {
  readonly description: string;
  readonly examples?: readonly unknown[];
  readonly default?: unknown;
}

function leaf<S extends z.ZodType>(schema: S, expectation: Expectation, about: About): S {
  const described = schema.meta({ ...about });
  expectations.set(described, expectation);
  return described;
}

const aText: Expectation = { code: 'L0103', expected: 'a text', types: ['string'], hint: textHint };

const text = (about: About): z.ZodString => leaf(z.string().regex(/\S/), aText, about);

const word = <const W extends readonly [string, ...string[]]>(
  words: W,
  about: About,
  expected = alternatives(words),
) => leaf(z.enum(words), { code: 'L0104', expected, types: ['string'], hint: wordHint(words) }, about);

const number = <S extends z.ZodNumber>(schema: S, expected: string, about: About) =>
  leaf(schema, { code: 'L0105', expected, types: ['number'], hint: numberHint }, about);

function alternatives(words: readonly string[]): string {
  const quoted = words.map(one => `\`${one}\``);
  const last = quoted.pop() ?? '';
  return quoted.length === 0 ? last : `${quoted.join(', ')} or ${last}`;
}

const bars = (about: About) =>
  leaf(
    z.union([z.int().min(0), z.string().regex(barRangePattern)]),
    {
      code: 'L0201',
      expected: 'a bar such as `3` or a range of bars such as `1-4`',
      types: ['string', 'number'],
      hint: barsHint,
    },
    about,
  );

const key = (about: About) =>
  leaf(
    z.string().regex(keyPattern),
    {
      code: 'L0204',
      expected: 'a key with its mode, such as `G major` or `F# minor`',
      types: ['string'],
      hint: keyHint,
    },
    about,
  );

const answer = (about: About) =>
  leaf(z.union([z.string().regex(/\S/), z.number()]), { ...aText, types: ['string', 'number'] }, about);

const claimText = { description: 'One sentence of the claim language, checked against the notes.' };

/** A claim as a sentence, or with the reason for which its verdict is set aside. */
export const claimShape = {
  claim: text({ ...claimText, examples: ['bar 3 is V7/V'] }),
  accept: leaf(z.string(), aText, {
    description: 'Why the verdict is set aside, in two words or more. The report keeps the reason.',
    examples: ['the author hears the E as an appoggiatura'],
  }).optional(),
};
const claimSentence = text({
  ...claimText,
  examples: ['bar 3 is V7/V', 'bars 1-4 are in G major', 'bar 4 is a half cadence'],
});
export const ClaimSchema = z.union([claimSentence, z.strictObject(claimShape)]);

export const playShape = {
  bars: bars({ description: 'The bars that are played.', examples: ['1-4', 3] }),
  as: word(['written', 'stack', 'block', 'arpeggio'], {
    description:
      'How the bars are played: as written; their notes gathered and stacked in thirds; as one chord; as a broken chord.',
    default: 'written',
  }).optional(),
  tempo: number(z.number().min(10).max(400), 'a percentage from 10 to 400', {
    description: "Percentage of the lesson's tempo.",
    examples: [60],
    default: 100,
  }).optional(),
  voice: text({ description: 'Id or name of the one voice of the score that is played.' }).optional(),
  score: text({
    description: 'Another version of the piece, beside the lesson.',
    examples: ['plain-version.abc'],
  }).optional(),
  times: number(z.int().min(1).max(20), 'a whole number from 1 to 20', {
    description: 'How often the bars are played, with a silence between.',
    default: 1,
  }).optional(),
  loop: number(z.int().min(2).max(20), 'a whole number from 2 to 20', {
    description: 'How often the bars go round in time, without a break.',
    examples: [4],
  }).optional(),
  under: leaf(
    z.boolean(),
    { code: 'L0103', expected: '`true` or `false`', types: ['boolean'], hint: yesOrNoHint },
    { description: 'The next `say` is spoken over this playing.', default: false },
  ).optional(),
};

const playBars = bars({ description: 'Plays these bars as written.', examples: ['1-4'] });

export const playActionShape = { play: z.union([playBars, z.strictObject(playShape)]) };

const narration = (description: string) =>
  text({
    description: `${description} Markdown; \`[words]{claim}\` shows the words and checks the claim.`,
    examples: ['Bar 3 is [the dominant of the dominant]{bar 3 is V7/V}.'],
  });

export const sayActionShape = { say: narration('What is said.') };

export const waitActionShape = {
  wait: leaf(
    z.union([z.number().min(0).max(60), z.string().regex(waitPattern)]),
    {
      code: 'L0205',
      expected: 'a time up to a minute, such as `1 s` or `500 ms`',
      types: ['string', 'number'],
    },
    { description: 'Silence.', examples: ['1 s', '500 ms'] },
  ),
};

export const askActionShape = {
  ask: text({
    description: 'A question to the student.',
    examples: ['Which note tells you that we are leaving home?'],
  }),
  choices: leaf(
    z
      .array(answer({ description: 'One choice.' }))
      .min(2)
      .max(12),
    { code: 'L0103', expected: 'a list of two to twelve texts', types: [], hint: listHint },
    { description: 'The answers to choose from.', examples: [['C', 'C sharp', 'F sharp']] },
  ).optional(),
  answer: answer({ description: 'The right answer, one of the choices.', examples: ['C sharp'] }),
  because: ClaimSchema.optional(),
};

export const ActionSchema = z.union([
  z.strictObject(playActionShape),
  z.strictObject(sayActionShape),
  z.strictObject(waitActionShape),
  z.strictObject(askActionShape),
]);

const layers = ['chords', 'numerals', 'figures', 'keys', 'functions', 'non-chord tones'] as const;

export const stepShape = {
  title: text({ description: 'Title of the step.', examples: ['Settling into G'] }),
  bars: bars({
    description: 'The bars that the step is about; the whole piece where absent.',
    examples: ['1-4'],
  }).optional(),
  home: key({
    description: "Key in which this step's numerals are read, where it is not the lesson's.",
  }).optional(),
  say: narration('What is said after the bars are played; for anything else write a `script`.').optional(),
  script: z.array(ActionSchema).min(1).meta({ description: 'What happens, in order.' }).optional(),
  show: z
    .array(word(layers, { description: 'Labels under the staff.' }))
    .meta({ description: 'Labels that are shown while the step lasts.', examples: [['chords', 'numerals']] })
    .optional(),
  claims: z.array(ClaimSchema).meta({ description: 'What is checked and not said.' }).optional(),
};
/** `say` is short for a script, so a step has one of the two. */
export const StepSchema = z.strictObject(stepShape).meta({ not: { required: ['say', 'script'] } });

export const conventionsShape = {
  'seventh-on-I': word(['major', 'minor'], {
    description:
      'What a plain 7 on I and IV means in major: the diatonic seventh (Open Music Theory) or the minor seventh, IM7 for the other (Hutchinson).',
    default: defaultConventions['seventh-on-I'],
  }).optional(),
  cadential: word(['I64', 'cad64'], {
    description: 'Name printed for the six-four over 5 before V; both names are always read.',
    default: defaultConventions.cadential,
  }).optional(),
  'inverted-authentic': word(['cadence', 'none'], {
    description:
      'Whether V6-I and viio6-I close a phrase as an imperfect authentic cadence (Hutchinson) or not at all (Open Music Theory).',
    default: defaultConventions['inverted-authentic'],
  }).optional(),
  'half-on-V7': word(['cadence', 'none'], {
    description:
      'Whether a half cadence may end on V7 (Hutchinson) or only on the triad (Open Music Theory).',
    default: defaultConventions['half-on-V7'],
  }).optional(),
  'cadence-names': word(['US', 'UK'], {
    description:
      'US: imperfect means imperfect authentic. UK: imperfect means half, perfect means authentic, interrupted means deceptive.',
    default: defaultConventions['cadence-names'],
  }).optional(),
  'iii-and-vi': word(['tonic', 'prolongation'], {
    description:
      'Function of iii and vi: tonic (Open Music Theory) or a prolongation of the tonic (Hutchinson).',
    default: defaultConventions['iii-and-vi'],
  }).optional(),
};

export const narratorShape = {
  voice: word(['built-in'], { description: 'The voice that speaks.', default: 'built-in' }).optional(),
  pace: number(z.number().min(80).max(300), 'a number of words a minute from 80 to 300', {
    description: 'Words a minute.',
    default: 150,
  }).optional(),
};

export const instrument = word(instrumentNames, { description: 'An instrument.' });

export const soundShape = {
  instrument: word(instrumentNames, {
    description: 'The instrument that plays the score. Demonstrations are played on the piano.',
    default: 'piano',
  }).optional(),
  voices: z
    .record(z.string(), instrument)
    .meta({
      description: 'Instruments of single voices, by the id or the printed name of the voice.',
      examples: [{ T: 'cello' }],
    })
    .optional(),
  pedal: leaf(
    z.boolean(),
    { code: 'L0103', expected: '`true` or `false`', types: ['boolean'], hint: yesOrNoHint },
    {
      description: 'Plays with the pedal, changed with the harmony and the bar: for broken chords.',
      default: false,
    },
  ).optional(),
};

const secondsTo = (most: number, about: About) =>
  number(z.number().min(0).max(most), `a number of seconds from 0 to ${String(most)}`, about).optional();

/** The defaults are those of the timeline, where their sources stand; a test compares them. */
export const pacingShape = {
  'fastest-speech': number(z.number().min(60).max(400), 'a number of words a minute from 60 to 400', {
    description: 'Words a minute above which speech is remarked on as too fast.',
    default: 180,
  }).optional(),
  'caption-word': secondsTo(5, {
    description: 'Seconds that a reader needs for each word of a caption.',
    default: 0.3,
  }),
  'longest-talk': secondsTo(3600, {
    description: 'Seconds of talk without music that are not remarked on.',
    default: 25,
  }),
  overrun: secondsTo(60, {
    description: 'Seconds that words may go on after the music under them has ended.',
    default: 0.5,
  }),
  'before-example': secondsTo(60, {
    description:
      'Seconds of silence before an example: the schedule adds it, and a shorter `wait` is remarked on.',
    default: 0.4,
  }),
  'after-example': secondsTo(60, {
    description:
      'Seconds of silence after an example: the schedule adds it, and a shorter `wait` is remarked on.',
    default: 1,
  }),
  thinking: secondsTo(60, {
    description: 'Seconds to think after a question in sound files; the page waits for the student.',
    default: 5,
  }),
};

const spoken = text({ description: 'The spoken form.' });

export const lessonShape = {
  format: leaf(
    z.literal(1),
    { code: 'L0106', expected: 'the number 1, the version of the lesson format', types: ['number'] },
    { description: 'Version of the lesson format.' },
  ),
  title: text({ description: 'Title of the lesson.', examples: ['Where the lamps turn'] }),
  author: text({ description: 'Who wrote the lesson.' }).optional(),
  description: text({ description: 'What the lesson is about, in a sentence or two.' }).optional(),
  score: text({ description: 'The score in ABC notation, beside the lesson.', examples: ['lamplight.abc'] }),
  home: key({
    description: 'The key that the lesson calls home; numerals are read in it.',
    examples: ['G major', 'F# minor'],
  }),
  beat: word(
    noteValueNames,
    {
      description: "Note value of one beat, where it is not the metre's own.",
      examples: ['quarter', 'dotted quarter'],
    },
    'a note value such as `quarter` or `dotted quarter`',
  ).optional(),
  conventions: z
    .strictObject(conventionsShape)
    .meta({ description: 'What to go by where textbooks disagree.' })
    .optional(),
  narrator: z.strictObject(narratorShape).meta({ description: 'Who speaks, and how fast.' }).optional(),
  sound: z.strictObject(soundShape).meta({ description: 'How the music sounds.' }).optional(),
  pacing: z
    .strictObject(pacingShape)
    .meta({ description: 'Silences of the schedule, and what deserves a remark about its pace.' })
    .optional(),
  tempo: number(z.number().min(20).max(400), 'a number of beats a minute from 20 to 400', {
    description: "Beats a minute, where it is not the score's own tempo.",
    examples: [66],
  }).optional(),
  lexicon: z
    .record(z.string(), spoken)
    .meta({
      description: 'Words that the voice would misread, with their spoken form.',
      examples: [{ Dvořák: 'Dvor-zhak' }],
    })
    .optional(),
  steps: z.array(StepSchema).min(1).meta({ description: 'The steps of the lesson, in order.' }),
};

/** The whole lesson, format 1. The reader uses its parts; `lesson-schema/lesson.schema.json` is made from it. */
export const LessonSchema = z
  .strictObject(lessonShape)
  .meta({ title: 'Barwise lesson', description: 'A lesson over a score, format 1.' });

export { claimSentence, layers, playBars, spoken };
