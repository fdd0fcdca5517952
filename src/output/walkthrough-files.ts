import type { Diagnostic, Result } from '../diagnostics/index.js';
import type { Analysis } from '../harmony/index.js';
import type { CheckedClaim, Lesson } from '../lesson/index.js';
import type { SpeakLessonOptions, SpokenSound } from '../sound/index.js';
import {
  buildTimeline,
  chordsOfAnalysis,
  excerptNotes,
  instrumentationOf,
  pacingFindings,
} from '../timeline/index.js';
import type { Instrumentation, Timeline } from '../timeline/index.js';
import { captionsWebvtt } from './captions-webvtt.js';
import { companionFiles } from './companions.js';
import type { Companion } from './companions.js';
import type { OutputFile } from './output-file.js';
import { readPlayerBundle } from './player-bundle.js';
import type { WalkthroughClip, WalkthroughInput } from './walkthrough-input.js';

export interface WalkthroughFilesInput {
  /** Name of the written files without an extension. */
  readonly name: string;
  readonly lesson: Lesson;
  readonly analysis: Analysis;
  /** Analyses of the other versions that the lesson plays, by their path in the lesson. */
  readonly versions: ReadonlyMap<string, Analysis>;
  readonly claims: readonly CheckedClaim[];
  /** Who speaks: the educator's recordings, then the voice. */
  readonly speaking: Omit<SpeakLessonOptions, 'onProgress'>;
  /** Files beside the page and its captions. */
  readonly companions?: readonly Companion[];
  /** How speech lies in the page: as MP3 where absent. WAV is ten times as large and made at once, for a page that stays on this machine. */
  readonly speechAs?: 'mp3' | 'wav';
  readonly onProgress?: (doing: string) => void;
}

/** A walkthrough and what its sound can be mixed from. */
export interface BuiltWalkthrough {
  readonly files: readonly OutputFile[];
  readonly timeline: Timeline;
  readonly speech: ReadonlyMap<string, SpokenSound>;
  readonly instrumentation: Instrumentation;
  /** What the page was made of, for a course that puts several together. */
  readonly page: WalkthroughInput;
}

/** Makes the files of a walkthrough out of a lesson without errors: speech, timeline, sound bank, page, captions. */
export async function walkthroughFiles(input: WalkthroughFilesInput): Promise<Result<BuiltWalkthrough>> {
  const { name, lesson, analysis, versions, claims, speaking, speechAs, onProgress } = input;
  const player = readPlayerBundle();
  // Synthesizer and encoder are heavy, and the other outputs do without them.
  const { buildWalkthrough } = await import('./walkthrough.js');
  const { speakLesson, speechClip, trimmedBank, wavFile } = await import('../sound/index.js');
  const spoken = await speakLesson(lesson, {
    ...speaking,
    onProgress: (done, all) => onProgress?.(`speaking ${done} of ${all}`),
  });
  const analyses = [analysis, ...versions.values()];
  const { score } = analysis;
  const chordsIn = chordsOfAnalysis(of => analyses.find(one => one.score === of));
  const timeline = buildTimeline({
    lesson,
    score,
    versions: new Map([...versions].map(([path, version]) => [path, version.score])),
    chordsIn,
    speech: spoken.value,
  });
  const instrumentation = instrumentationOf(lesson, analysis.score);
  onProgress?.('choosing the sounds');
  const bank = await trimmedBank(
    [
      ...timeline.value.events.filter(event => event.kind === 'note'),
      // The student picks what they like.
      ...excerptNotes({ lesson, score, chordsIn }),
    ],
    instrumentation.value,
  );
  const clips: WalkthroughClip[] = [];
  for (const [say, sound] of spoken.value) {
    if (speechAs === 'wav') {
      clips.push({ say, file: wavFile(sound), skipSeconds: 0 });
      continue;
    }
    onProgress?.(`encoding speech ${clips.length + 1} of ${spoken.value.size}`);
    const { mp3, skipSeconds } = await speechClip(sound, speaking.cache);
    clips.push({ say, file: mp3, skipSeconds });
  }
  const page: WalkthroughInput = {
    name,
    lesson,
    scores: [
      { path: lesson.score.value, analysis },
      ...[...versions].map(([path, version]) => ({ path, analysis: version })),
    ],
    claims: claims.map(({ entry, verdict }) => ({ claim: entry, verdict })),
    timeline: timeline.value,
    clips,
    instrumentation: instrumentation.value,
    bank,
    captions: captionsWebvtt(timeline.value),
    player,
  };
  const beside = companionFiles(name, lesson, timeline.value, instrumentation.value, input.companions ?? []);
  const diagnostics: readonly Diagnostic[] = [
    ...spoken.diagnostics,
    ...timeline.diagnostics,
    ...instrumentation.diagnostics,
    ...pacingFindings(lesson, timeline.value),
  ];
  return {
    value: {
      files: [...buildWalkthrough(page), ...beside],
      timeline: timeline.value,
      speech: spoken.value,
      instrumentation: instrumentation.value,
      page,
    },
    diagnostics,
  };
}
