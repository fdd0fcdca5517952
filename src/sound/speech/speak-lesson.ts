import type { Diagnostic, Result, Span } from '../../diagnostics/index.js';
import type { Lesson } from '../../lesson/index.js';
import { spokenTexts } from '../../timeline/index.js';
import type { SpokenText } from '../../timeline/index.js';
import { mixRate } from '../mono.js';
import { resample } from '../mix/resample.js';
import { paragraphsOf } from './paragraphs.js';
import type { Shelf } from '../shelf.js';
import type { Doubt, SpellingOptions } from './reading.js';
import { silenceAfter, speak } from './speak.js';
import type { SpokenSound } from './speak.js';
import { speakTake } from './speak-take.js';
import type { SoundCache } from '../sound-cache.js';
import type { Take, Takes } from './takes.js';
import type { Voice } from './voice.js';

export interface SpeakLessonOptions {
  readonly voice: Voice;
  /** Speaks the whole lesson when `voice` fails. */
  readonly fallback?: Voice;
  /** The educator's recordings; they come before any voice. */
  readonly takes?: Takes;
  readonly cache?: SoundCache;
  /** Where what was spoken lies until it is asked for; in memory where absent. */
  readonly shelf?: Shelf;
  /** Called after each text with how many of all are done. */
  readonly onProgress?: (done: number, all: number) => void;
}

type Spoken = Result<ReadonlyMap<string, SpokenSound>>;

/**
 * Speaks everything in a lesson that is read aloud, by the ids of `spokenTexts`: what `buildTimeline` and the mix need.
 *
 * Findings: T0010 a word that could be read in two ways, T0030 a take whose words have changed, T0031 a take that cannot be read (the
 * voice speaks in its place), T0032 a take that belongs to nothing, T0033 a voice that failed (the fallback speaks the whole lesson).
 */
export async function speakLesson(lesson: Lesson, options: SpeakLessonOptions): Promise<Spoken> {
  const { fallback } = options;
  if (fallback === undefined) return speakAll(lesson, options);
  try {
    return await speakAll(lesson, options);
  } catch (error) {
    const spoken = await speakAll(lesson, { ...options, voice: fallback });
    return { value: spoken.value, diagnostics: [voiceFailed(lesson, error), ...spoken.diagnostics] };
  }
}

async function speakAll(lesson: Lesson, options: SpeakLessonOptions): Promise<Spoken> {
  const texts = spokenTexts(lesson);
  const spoken = new Map<string, SpokenSound>();
  const diagnostics: Diagnostic[] = [];
  for (const text of texts) {
    const home = lesson.steps[text.step]?.home ?? lesson.home.value;
    const { value, diagnostics: found } = await speakText(
      text,
      lesson.narrator.pace,
      { lexicon: lesson.lexicon, mode: home.mode },
      options,
    );
    spoken.set(text.id, (await options.shelf?.put(value)) ?? value);
    diagnostics.push(...found);
    options.onProgress?.(spoken.size, texts.length);
  }
  diagnostics.push(...(options.takes?.unused() ?? []).map(name => unusedTake(lesson, name)));
  return { value: spoken, diagnostics };
}

/** One text: its take, or the takes of its paragraphs with the voice for the others, or the voice. */
async function speakText(
  text: SpokenText,
  pace: number,
  spelling: SpellingOptions,
  options: SpeakLessonOptions,
): Promise<Result<SpokenSound>> {
  const diagnostics: Diagnostic[] = [];
  const take = async (paragraph: number | undefined, words: string): Promise<SpokenSound | undefined> => {
    const found = await options.takes?.find(text.id, paragraph, words);
    if (found === undefined) return undefined;
    diagnostics.push(...takeFindings(text, found));
    return found.kind === 'take' ? speakTake(words, found.sound, spelling) : undefined;
  };
  const voice = async (words: string): Promise<SpokenSound> =>
    speak(words, {
      ...spelling,
      voice: options.voice,
      pace,
      ...(options.cache === undefined ? {} : { cache: options.cache }),
    });

  const whole = await take(undefined, text.text);
  if (whole !== undefined) return { value: whole, diagnostics };
  const paragraphs = paragraphsOf(text.text);
  const takes: (SpokenSound | undefined)[] = [];
  for (const [index, { words }] of paragraphs.entries()) takes.push(await take(index + 1, words));
  if (takes.every(sound => sound === undefined)) {
    const value = await voice(text.text);
    return { value, diagnostics: [...diagnostics, ...value.doubts.map(doubt => doubtful(text, doubt))] };
  }
  const parts = [];
  for (const [index, { from, words }] of paragraphs.entries()) {
    const sound = takes[index] ?? (await voice(words));
    diagnostics.push(
      ...sound.doubts.map(doubt =>
        doubtful(text, { ...doubt, from: doubt.from + from, to: doubt.to + from }),
      ),
    );
    parts.push({ from, sound, samples: await resample(sound, mixRate) });
  }
  return { value: joined(parts, (silenceAfter.paragraph * 150) / pace), diagnostics };
}

/** Paragraphs one after another, each with the offsets and times of its words moved to their place. */
function joined(
  parts: readonly { readonly from: number; readonly sound: SpokenSound; readonly samples: Float32Array }[],
  pause: number,
): SpokenSound {
  const gap = Math.round(pause * mixRate);
  const length = parts.reduce((sum, { samples }) => sum + samples.length, 0) + gap * (parts.length - 1);
  const samples = new Float32Array(length);
  const words: SpokenSound['words'][number][] = [];
  let at = 0;
  for (const part of parts) {
    samples.set(part.samples, at);
    const start = at / mixRate;
    words.push(
      ...part.sound.words.map(word => ({
        from: word.from + part.from,
        to: word.to + part.from,
        start: word.start + start,
        end: word.end + start,
      })),
    );
    at += part.samples.length + gap;
  }
  return { samples, sampleRate: mixRate, seconds: length / mixRate, words, doubts: [], recorded: true };
}

/** Where a token of the shown text stands in the lesson: as often as it occurs before in the text, it occurs before in the source. */
function spanOf({ text, span }: SpokenText, { from, written }: Doubt): Span {
  const whole = span.source.text.slice(0, span.end);
  let at = whole.indexOf(written, span.start);
  for (
    let before = text.indexOf(written);
    before >= 0 && before < from && at >= 0;
    before = text.indexOf(written, before + 1)
  ) {
    at = whole.indexOf(written, at + 1);
  }
  return at < 0 ? span : { source: span.source, start: at, end: at + written.length };
}

function doubtful(text: SpokenText, doubt: Doubt): Diagnostic {
  return {
    code: 'T0010',
    severity: 'warning',
    message: `\`${doubt.written}\` can be read aloud in two ways`,
    span: spanOf(text, doubt),
    label: `read as ${doubt.readAs}`,
    notes: [`it is read as ${doubt.readAs}; it could also mean ${doubt.couldBe}`],
    help: `write it out, or say how it is read under \`lexicon\``,
  };
}

function takeFindings(text: SpokenText, take: Take): readonly Diagnostic[] {
  if (take.kind === 'unreadable') {
    return [
      {
        code: 'T0031',
        severity: 'warning',
        message: `the take \`${take.file}\` cannot be used: ${take.reason}`,
        span: text.span,
        help: 'export it as WAV or MP3; until then the voice speaks these words',
      },
    ];
  }
  if (!take.stale) return [];
  return [
    {
      code: 'T0030',
      severity: 'warning',
      message: `the words have changed since \`${take.file}\` was recorded`,
      span: text.span,
      help: 'record it again, or delete the take so that the voice speaks the new words',
    },
  ];
}

const unusedTake = (lesson: Lesson, name: string): Diagnostic => ({
  code: 'T0032',
  severity: 'warning',
  message: `the take \`${name}\` belongs to no words of the lesson`,
  span: { source: lesson.source, start: 0, end: 0 },
  notes: [
    'a take is named after its words: `3.2.wav` is the second text of the third step, `3.2-1.wav` its first paragraph; of two files for the same words the WAV is taken, and a whole text before its paragraphs',
  ],
  help: 'rename or delete it',
});

const voiceFailed = (lesson: Lesson, error: unknown): Diagnostic => ({
  code: 'T0033',
  severity: 'warning',
  message: `the voice failed, so the built-in voice speaks: ${error instanceof Error ? error.message : String(error)}`,
  span: { source: lesson.source, start: 0, end: 0 },
  help: 'the command must read text from its input and write a WAV file to its output',
});
