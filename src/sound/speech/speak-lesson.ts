import type { Diagnostic, Result, Span } from '../../diagnostics/index.js';
import type { Lesson } from '../../lesson/index.js';
import { spokenTexts } from '../../timeline/index.js';
import type { SpokenText } from '../../timeline/index.js';
import type { Doubt } from './reading.js';
import { speak } from './speak.js';
import type { SpokenSound } from './speak.js';
import type { SpeechCache } from './speech-cache.js';
import type { Voice } from './voice.js';

export interface SpeakLessonOptions {
  readonly voice: Voice;
  readonly cache?: SpeechCache;
  /** Called after each text with how many of all are done. */
  readonly onProgress?: (done: number, all: number) => void;
}

/**
 * Speaks everything in a lesson that is read aloud, by the ids of `spokenTexts`: what `buildTimeline` and the mix need.
 * Finding T0010 for each word that could be read in two ways.
 */
export async function speakLesson(
  lesson: Lesson,
  options: SpeakLessonOptions,
): Promise<Result<ReadonlyMap<string, SpokenSound>>> {
  const texts = spokenTexts(lesson);
  const spoken = new Map<string, SpokenSound>();
  const diagnostics: Diagnostic[] = [];
  for (const text of texts) {
    const home = lesson.steps[text.step]?.home ?? lesson.home.value;
    const sound = await speak(text.text, {
      voice: options.voice,
      pace: lesson.narrator.pace,
      lexicon: lesson.lexicon,
      mode: home.mode,
      ...(options.cache === undefined ? {} : { cache: options.cache }),
    });
    spoken.set(text.id, sound);
    diagnostics.push(...sound.doubts.map(doubt => doubtful(text, doubt)));
    options.onProgress?.(spoken.size, texts.length);
  }
  return { value: spoken, diagnostics };
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
