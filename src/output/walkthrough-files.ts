import type { Diagnostic, Result } from '../diagnostics/index.js';
import type { Analysis } from '../harmony/index.js';
import type { CheckedClaim, Lesson } from '../lesson/index.js';
import type { SpeechCache, Voice } from '../sound/index.js';
import { buildTimeline, chordsOfAnalysis } from '../timeline/index.js';
import { captionsWebvtt } from './captions-webvtt.js';
import type { OutputFile } from './output-file.js';
import { readPlayerBundle } from './player-bundle.js';
import type { WalkthroughClip } from './walkthrough-input.js';

export interface WalkthroughFilesInput {
  /** Name of the written files without an extension. */
  readonly name: string;
  readonly lesson: Lesson;
  readonly analysis: Analysis;
  /** Analyses of the other versions that the lesson plays, by their path in the lesson. */
  readonly versions: ReadonlyMap<string, Analysis>;
  readonly claims: readonly CheckedClaim[];
  readonly voice: Voice;
  readonly cache?: SpeechCache;
  readonly onProgress?: (doing: string) => void;
}

/** Makes the files of a walkthrough out of a lesson without errors: speech, timeline, sound bank, page, captions. */
export async function walkthroughFiles(input: WalkthroughFilesInput): Promise<Result<readonly OutputFile[]>> {
  const { name, lesson, analysis, versions, claims, voice, cache, onProgress } = input;
  const player = readPlayerBundle();
  // Synthesizer and encoder are heavy, and the other outputs do without them.
  const { buildWalkthrough } = await import('./walkthrough.js');
  const { speakLesson, speechClip, trimmedBank } = await import('../sound/index.js');
  const spoken = await speakLesson(lesson, {
    voice,
    ...(cache === undefined ? {} : { cache }),
    onProgress: (done, all) => onProgress?.(`speaking ${done} of ${all}`),
  });
  const analyses = [analysis, ...versions.values()];
  const timeline = buildTimeline({
    lesson,
    score: analysis.score,
    versions: new Map([...versions].map(([path, { score }]) => [path, score])),
    chordsIn: chordsOfAnalysis(score => analyses.find(one => one.score === score)),
    speech: spoken.value,
  });
  onProgress?.('choosing the sounds');
  const bank = await trimmedBank(timeline.value.events.filter(event => event.kind === 'note'));
  const clips: WalkthroughClip[] = [];
  for (const [say, sound] of spoken.value) {
    onProgress?.(`encoding speech ${clips.length + 1} of ${spoken.value.size}`);
    const { mp3, skipSeconds } = await speechClip(sound);
    clips.push({ say, mp3, skipSeconds });
  }
  const files = buildWalkthrough({
    name,
    lesson,
    scores: [
      { path: lesson.score.value, analysis },
      ...[...versions].map(([path, version]) => ({ path, analysis: version })),
    ],
    claims: claims.map(({ entry, verdict }) => ({ claim: entry, verdict })),
    timeline: timeline.value,
    clips,
    bank,
    captions: captionsWebvtt(timeline.value),
    player,
  });
  const diagnostics: readonly Diagnostic[] = [...spoken.diagnostics, ...timeline.diagnostics];
  return { value: files, diagnostics };
}
