import type { Lesson } from '../lesson/index.js';
import type { Instrumentation, Timeline } from '../timeline/index.js';
import { captionsSrt } from './captions-srt.js';
import { chapterList } from './chapter-list.js';
import { chaptersWebvtt } from './chapters-webvtt.js';
import type { OutputFile } from './output-file.js';
import { performanceMidi } from './performance-midi.js';
import { speakingScript } from './speaking-script.js';
import { timelineJson } from './timeline-json.js';
import { transcript } from './transcript.js';

interface CompanionKind {
  /** What follows the lesson's name in the name of the file. */
  readonly ending: string;
  readonly make: (
    lesson: Lesson,
    timeline: Timeline,
    instrumentation: Instrumentation,
  ) => string | Uint8Array;
}

/** Files that can stand beside the page, by the word with which they are asked for. A new one is one file and one line here. */
const kinds = {
  srt: { ending: '.srt', make: (_, timeline) => captionsSrt(timeline) },
  chapters: { ending: '.chapters.vtt', make: (_, timeline) => chaptersWebvtt(timeline) },
  'chapter-list': { ending: '.chapters.txt', make: (_, timeline) => chapterList(timeline) },
  script: { ending: '.script.md', make: speakingScript },
  transcript: { ending: '.transcript.md', make: transcript },
  midi: {
    ending: '.mid',
    make: (lesson, timeline, instrumentation) => performanceMidi(timeline, lesson.title, instrumentation),
  },
  timeline: { ending: '.timeline.json', make: (_, timeline) => timelineJson(timeline) },
} as const satisfies Readonly<Record<string, CompanionKind>>;

export type Companion = keyof typeof kinds;

/** Every word of `companionFiles`. */
export const companions = Object.keys(kinds) as readonly Companion[];

/** The files that were asked for, named after the lesson. */
export function companionFiles(
  name: string,
  lesson: Lesson,
  timeline: Timeline,
  instrumentation: Instrumentation,
  wanted: readonly Companion[],
): readonly OutputFile[] {
  return wanted.map(word => {
    const kind: CompanionKind = kinds[word];
    const made = kind.make(lesson, timeline, instrumentation);
    return {
      name: `${name}${kind.ending}`,
      bytes: typeof made === 'string' ? new TextEncoder().encode(made) : made,
    };
  });
}
