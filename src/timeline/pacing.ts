import type { Diagnostic, Span } from '../diagnostics/index.js';
import type { Lesson } from '../lesson/index.js';
import { captionCues } from './caption-cues.js';
import { shownWords } from './estimate-speech.js';
import type { PassageEvent, SpeechEvent, Timeline } from './model.js';
import { defaultSilences } from './silence.js';

/** From when on the schedule of a lesson deserves a remark. */
export interface PacingLimits {
  /** Words a minute that listeners still follow with ease: 180, the upper end for radio (E. Rodero, Text & Talk 32(3), 2012). */
  readonly fastestSpeech: number;
  /** Seconds that a reader needs for each word of a caption: 0.3 (BBC Subtitle Guidelines, 4.1). */
  readonly secondsPerCaptionWord: number;
  /** Seconds of talk without any music. Common practice: 20 s to 25 s. */
  readonly longestTalk: number;
  /** Silence in seconds before and after an example. Common practice. */
  readonly beforeExample: number;
  readonly afterExample: number;
  /** Seconds that words may go on after the music under them has ended. */
  readonly overrun: number;
}

export const defaultPacingLimits: PacingLimits = {
  fastestSpeech: 180,
  secondsPerCaptionWord: 0.3,
  longestTalk: 25,
  beforeExample: defaultSilences.beforeExample,
  afterExample: defaultSilences.afterExample,
  overrun: 0.5,
};

/** The limits of a lesson: its own `pacing` before the defaults. */
export function pacingLimitsOf({ pacing = {} }: Pick<Lesson, 'pacing'>): PacingLimits {
  const limits = defaultPacingLimits;
  return {
    fastestSpeech: pacing['fastest-speech'] ?? limits.fastestSpeech,
    secondsPerCaptionWord: pacing['caption-word'] ?? limits.secondsPerCaptionWord,
    longestTalk: pacing['longest-talk'] ?? limits.longestTalk,
    beforeExample: pacing['before-example'] ?? limits.beforeExample,
    afterExample: pacing['after-example'] ?? limits.afterExample,
    overrun: pacing.overrun ?? limits.overrun,
  };
}

/** Too few words to speak of a pace. */
const fewestWords = 6;
/**
 * Characters of an ordinary word with its space: short words are spoken faster than long ones, so a pace is counted in words of this
 * length. Source, from memory: R. P. Carver, "Word length, prose difficulty, and reading rate", Journal of Reading Behavior 8 (1976).
 */
const charactersPerWord = 6;
/** A caption that is too short by less than this reads as long enough, in seconds. */
const readingTolerance = 0.1;
/** Times are compared with this tolerance, in seconds. */
const tolerance = 0.01;

const seconds = (value: number): string => `${value.toFixed(1)} s`;

/**
 * Remarks on the pace of a lesson, in the order of the timeline: T0020 words that outlast the music under them, T0021 speech that is too
 * fast, T0022 a caption that cannot be read in its time, T0023 a long block of talk, T0024 a silence that is missing at an example.
 */
export function pacingFindings(
  lesson: Lesson,
  timeline: Timeline,
  limits: PacingLimits = pacingLimitsOf(lesson),
): readonly Diagnostic[] {
  const spanOf = (event: { readonly step: number; readonly action: number }): Span | undefined =>
    lesson.steps[event.step]?.script[event.action]?.span ?? lesson.steps[event.step]?.span;
  const report = (
    code: Diagnostic['code'],
    event: PassageEvent | SpeechEvent,
    finding: Pick<Diagnostic, 'message' | 'notes' | 'help' | 'severity'>,
  ): Diagnostic => {
    const span = spanOf(event);
    return { code, ...finding, ...(span === undefined ? {} : { span }) };
  };
  const speeches = timeline.events.filter(event => event.kind === 'speech');
  const passages = timeline.events.filter(event => event.kind === 'passage');
  return [
    ...overruns(speeches, passages, limits, report),
    ...tooFast(speeches, limits, report),
    ...unreadable(timeline, speeches, limits, report),
    ...longTalks(timeline, speeches, limits, report),
    ...missingSilences(speeches, passages, limits, report),
  ];
}

type Report = (
  code: Diagnostic['code'],
  event: PassageEvent | SpeechEvent,
  finding: Pick<Diagnostic, 'message' | 'notes' | 'help' | 'severity'>,
) => Diagnostic;

function overruns(
  speeches: readonly SpeechEvent[],
  passages: readonly PassageEvent[],
  limits: PacingLimits,
  report: Report,
): readonly Diagnostic[] {
  return speeches.flatMap(speech => {
    const music = passages
      .filter(passage => speech.over && passage.step === speech.step && passage.action === speech.action - 1)
      .at(-1);
    if (music === undefined || speech.end - music.end <= limits.overrun) return [];
    return [
      report('T0020', speech, {
        severity: 'warning',
        message: `the words go on for ${seconds(speech.end - music.end)} after the music under them has ended`,
        notes: [
          `the music lasts ${seconds(music.end - music.start)}, the words ${seconds(speech.end - speech.start)}`,
        ],
        help: 'play more bars, play them slower or more than once (`times`), hold the chord (`as: block`), or say less',
      }),
    ];
  });
}

function tooFast(
  speeches: readonly SpeechEvent[],
  limits: PacingLimits,
  report: Report,
): readonly Diagnostic[] {
  return speeches.flatMap(speech => {
    const words = shownWords(speech.text);
    const characters = words.reduce((sum, { text }) => sum + text.length + 1, 0);
    const pace = ((characters / charactersPerWord) * 60) / (speech.end - speech.start);
    if (!speech.measured || words.length < fewestWords || pace <= limits.fastestSpeech) return [];
    return [
      report('T0021', speech, {
        severity: 'warning',
        message: `this is spoken at ${pace.toFixed(0)} words a minute`,
        notes: [
          `counted in words of ${String(charactersPerWord)} characters; listeners follow up to ${String(limits.fastestSpeech)} of them a minute with ease`,
        ],
        help: 'lower `pace`, or speak the recording more slowly',
      }),
    ];
  });
}

/** One finding for each speech, at its first caption that cannot be read. */
function unreadable(
  timeline: Timeline,
  speeches: readonly SpeechEvent[],
  limits: PacingLimits,
  report: Report,
): readonly Diagnostic[] {
  const cues = captionCues(timeline).map(({ start, end, lines, say }) => {
    const text = lines.join(' ');
    const words = shownWords(text).length;
    return { say, text, words, shown: end - start, needed: words * limits.secondsPerCaptionWord };
  });
  return speeches.flatMap(speech => {
    const cue = cues.find(
      ({ say, shown, needed }) => say === speech.say && shown + readingTolerance < needed,
    );
    if (cue === undefined) return [];
    return [
      report('T0022', speech, {
        severity: 'warning',
        message: `the caption "${cue.text}" stands for ${seconds(cue.shown)}, too short to be read`,
        notes: [`its ${String(cue.words)} words need ${seconds(cue.needed)}`],
        help: 'speak more slowly, or put a `wait` after the words',
      }),
    ];
  });
}

/** Talk goes on until music is heard or a question hands over to the student. */
function longTalks(
  timeline: Timeline,
  speeches: readonly SpeechEvent[],
  limits: PacingLimits,
  report: Report,
): readonly Diagnostic[] {
  const breaks = timeline.events.filter(({ kind }) => kind === 'passage' || kind === 'question');
  const blocks: { readonly first: SpeechEvent; end: number }[] = [];
  for (const speech of speeches) {
    const open = blocks.at(-1);
    const interrupted =
      open === undefined ||
      speech.over ||
      breaks.some(({ end }) => end > open.first.start && end <= speech.start + tolerance);
    if (interrupted) blocks.push({ first: speech, end: speech.end });
    else open.end = speech.end;
  }
  return blocks
    .filter(({ first, end }) => !first.over && end - first.start > limits.longestTalk)
    .map(({ first, end }) =>
      report('T0023', first, {
        severity: 'note',
        message: `from here the lesson talks for ${seconds(end - first.start)} without music`,
        notes: [`attention holds for about ${String(limits.longestTalk)} s`],
        help: 'play a bar or a chord in between',
      }),
    );
}

function missingSilences(
  speeches: readonly SpeechEvent[],
  passages: readonly PassageEvent[],
  limits: PacingLimits,
  report: Report,
): readonly Diagnostic[] {
  const apart = speeches.filter(({ over }) => !over);
  return passages.flatMap(passage => {
    const after = apart.find(({ start }) => start >= passage.end - tolerance);
    const before = apart.findLast(({ end }) => end <= passage.start + tolerance);
    const nextPassage = passages.find(({ start }) => start >= passage.end - tolerance);
    const previousPassage = passages.findLast(({ end }) => end <= passage.start + tolerance);
    const gapAfter =
      after === undefined || (nextPassage !== undefined && nextPassage.start < after.start)
        ? Infinity
        : after.start - passage.end;
    const gapBefore =
      before === undefined || (previousPassage !== undefined && previousPassage.end > before.end)
        ? Infinity
        : passage.start - before.end;
    const missing = (gap: number, limit: number, where: string): readonly Diagnostic[] =>
      gap + tolerance >= limit
        ? []
        : [
            report('T0024', passage, {
              severity: 'note',
              message: `there is only ${seconds(gap)} of silence ${where} this example`,
              notes: [`${String(limit)} s or more let it be heard on its own`],
              help: 'make the `wait` longer, or remove it: without one the silence is added',
            }),
          ];
    return [
      ...missing(gapBefore, limits.beforeExample, 'before'),
      ...missing(gapAfter, limits.afterExample, 'after'),
    ];
  });
}
