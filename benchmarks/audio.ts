/**
 * Measures the sound of a lesson and prints a table: `npx tsx benchmarks/audio.ts [LESSON.yaml]`. Speed with and without kept speech and music, memory,
 * onsets of notes against the timeline, starts of sentences against the word times, loudness of three lessons. The memory of an hour:
 * benchmarks/long-lesson.ts.
 */
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { sourceText } from '../src/diagnostics/index.js';
import { analyse } from '../src/harmony/index.js';
import { readLesson } from '../src/lesson/index.js';
import type { Lesson } from '../src/lesson/index.js';
import { readScore } from '../src/score/index.js';
import type { Score } from '../src/score/index.js';
import {
  embeddedVoice, folderCache, joinBlocks, measureLoudness, measureTruePeak, mixLesson, mixRate, renderMusic, speakLesson, writeAudio,
} from '../src/sound/index.js'; // prettier-ignore
import type { AudioFiles, MixOptions } from '../src/sound/index.js';
import { buildTimeline, chordsOfAnalysis, instrumentationOf } from '../src/timeline/index.js';
import { layersOf, onsetErrors, startsAfterSilence } from './onsets.js';

const print = (name: string, value: string): void => {
  process.stdout.write(`${name.padEnd(46)}${value}\n`);
};
interface Taken {
  readonly seconds: number;
  /** Seconds of processor time, of all threads: what remains true while the machine does other work. */
  readonly processor: number;
}
const timed = async <T>(work: () => Promise<T>): Promise<readonly [T, Taken]> => {
  const [start, before] = [performance.now(), process.cpuUsage()];
  const result = await work();
  const { user, system } = process.cpuUsage(before);
  return [result, { seconds: (performance.now() - start) / 1000, processor: (user + system) / 1e6 }];
};
const milliseconds = (values: readonly number[]): string => {
  const sizes = values.map(Math.abs);
  return `mean ${((sizes.reduce((a, b) => a + b, 0) / sizes.length) * 1000).toFixed(1)} ms, worst ${(Math.max(...sizes) * 1000).toFixed(1)} ms of ${String(sizes.length)}`;
};

async function read(path: string): Promise<{
  readonly lesson: Lesson;
  readonly score: Score;
  readonly versions: ReadonlyMap<string, Score>;
}> {
  const text = async (file: string) => sourceText(file, await readFile(file, 'utf8'));
  const lesson = readLesson(await text(path)).value;
  if (lesson === undefined) throw new Error(`${path} is not a lesson`);
  const scoreAt = async (name: string) => readScore(await text(join(dirname(path), name))).value;
  const named = lesson.steps.flatMap(step =>
    step.script.flatMap(action =>
      action.kind === 'play' && action.score !== undefined ? [action.score.value] : [],
    ),
  );
  const versions = new Map<string, Score>();
  for (const name of new Set(named)) versions.set(name, await scoreAt(name));
  return { lesson, score: await scoreAt(lesson.score.value), versions };
}

/** A lesson spoken and scheduled. */
async function scheduled(file: string) {
  const { lesson, score, versions } = await read(file);
  const speech = (await speakLesson(lesson, { voice: embeddedVoice() })).value;
  const chordsIn = chordsOfAnalysis(of => (of === score ? analyse(of) : undefined));
  return { speech, timeline: buildTimeline({ lesson, score, versions, chordsIn, speech }).value };
}

/** A waltz for piano, a chorale, four bars of melody. */
const lessonsForLoudness = [
  'sample-lessons/mill-road.yaml',
  'sample-lessons/long-table.yaml',
  'tests/fixtures/check/all-hold/lesson.yaml',
];

const path = process.argv[2] ?? 'sample-lessons/mill-road.yaml';
const folder = await mkdtemp(join(tmpdir(), 'barwise-benchmark-'));
try {
  const { lesson, score, versions } = await read(path);
  const chordsIn = chordsOfAnalysis(of =>
    of === score || [...versions.values()].includes(of) ? analyse(of) : undefined,
  );
  const cache = folderCache(join(folder, 'cache'));
  const instrumentation = instrumentationOf(lesson, score).value;
  const sound = async (files: AudioFiles, kept: Pick<MixOptions, 'cache'> = { cache }) => {
    const spoken = await speakLesson(lesson, { voice: embeddedVoice(), cache });
    const timeline = buildTimeline({ lesson, score, versions, chordsIn, speech: spoken.value }).value;
    await writeAudio(mixLesson(timeline, spoken.value, { ...kept, instrumentation }), files);
    return { speech: spoken.value, timeline };
  };
  const files = (...kinds: readonly (keyof AudioFiles)[]): AudioFiles =>
    Object.fromEntries(kinds.map(kind => [kind, join(folder, `lesson.${kind}`)]));
  const [{ speech, timeline }, cold] = await timed(() => sound(files('wav'), {}));
  print('lesson', `${path}, ${timeline.seconds.toFixed(0)} s`);
  const speed = (name: string, taken: Taken) => {
    const times = (of: number): string =>
      `${of.toFixed(1)} s, ${(timeline.seconds / of).toFixed(0)}x real time`;
    print(name, `${times(taken.seconds)}; of processor time ${times(taken.processor)}`);
  };
  speed('speech, music, mix and WAV: cold', cold);
  speed('the same with speech kept', (await timed(() => sound(files('wav'), {})))[1]);
  await sound(files('wav'));
  speed('the same with speech and music kept', (await timed(() => sound(files('wav'))))[1]);
  speed('the same and MP3', (await timed(() => sound(files('wav', 'mp3'))))[1]);
  speed('the same and M4A', (await timed(() => sound(files('wav', 'mp3', 'm4a'))))[1]);
  print('greatest memory of the process', `${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MB`);

  const notes = timeline.events.filter(event => event.kind === 'note');
  const errors: number[] = [];
  for (const layer of layersOf(notes, 2.5)) {
    const blocks = [];
    for await (const block of renderMusic(layer, { seconds: timeline.seconds })) blocks.push(block);
    errors.push(...onsetErrors(joinBlocks(blocks), mixRate, [...new Set(layer.map(note => note.start))]));
  }
  print('onsets of notes against the timeline', milliseconds(errors));

  const sentenceErrors = [...speech.values()].flatMap(sound => {
    const starts = startsAfterSilence(sound.samples, sound.sampleRate);
    const first = sound.words.filter(
      (word, index) => index === 0 || word.start - (sound.words[index - 1]?.end ?? 0) > 0.25,
    );
    return first.map(word =>
      starts.reduce(
        (best, start) => (Math.abs(start - word.start) < Math.abs(best) ? start - word.start : best),
        Infinity,
      ),
    );
  });
  print('starts of sentences against the sound', milliseconds(sentenceErrors));

  for (const other of new Set([path, ...lessonsForLoudness])) {
    const one = other === path ? { timeline, speech } : await scheduled(other);
    for (const loudness of [-16, -23]) {
      const whole = [];
      for await (const block of mixLesson(one.timeline, one.speech, { loudness })) whole.push(block);
      const mixed = joinBlocks(whole);
      print(
        `${basename(other)}: ${String(loudness)} LUFS wanted`,
        `${measureLoudness([mixed, mixed], mixRate).toFixed(2)} LUFS, ${measureTruePeak([mixed]).toFixed(2)} dBTP`,
      );
    }
  }
} finally {
  await rm(folder, { recursive: true, force: true });
}
