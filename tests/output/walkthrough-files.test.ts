/** What a student picks in the page beyond the course of the lesson: it sounds, on the lesson's instruments. */
import { beforeAll, describe, expect, it } from 'vitest';
import { analyse } from '../../src/harmony/index.js';
import type { Lesson } from '../../src/lesson/index.js';
import { walkthroughFiles } from '../../src/output/index.js';
import type { BuiltWalkthrough } from '../../src/output/index.js';
import { joinBlocks, renderMusic } from '../../src/sound/index.js';
import type { Instrumentation, PlayedNote, Voice } from '../../src/sound/index.js';
import { chordsOfAnalysis, excerptTimeline, noteTimeline } from '../../src/timeline/index.js';
import type { Timeline } from '../../src/timeline/index.js';
import { lessonOf, play, say, scoreOf } from '../timeline/lessons.js';

const score = scoreOf("CEGc | !pp!d'f'a'd'' | G,B,DG |");
const analysis = analyse(score);
const silentVoice: Voice = {
  id: 'silent',
  speakSentence: () => Promise.resolve({ samples: new Float32Array(1600), sampleRate: 16_000, times: [] }),
};
const made = async (sound: Lesson['sound']): Promise<BuiltWalkthrough> => {
  const lesson = lessonOf([[play('1'), say('One bar only.')]], sound === undefined ? {} : { sound });
  const { value } = await walkthroughFiles({
    name: 'picked',
    lesson,
    analysis,
    versions: new Map(),
    claims: [],
    speaking: { voice: silentVoice },
    speechAs: 'wav',
  });
  return value;
};

/** The sound of a bar of the score with the sounds of the page, note by note, each as loud as its greatest sample. */
async function heard(
  timeline: Timeline | undefined,
  bank: Uint8Array,
  instrumentation: Instrumentation,
): Promise<readonly Float32Array[]> {
  const notes = timeline?.events.filter(event => event.kind === 'note') ?? [];
  const single = async (note: PlayedNote): Promise<Float32Array> => {
    const blocks = [];
    const alone = { ...note, start: 0, end: 0.4 };
    for await (const block of renderMusic([alone], { bank, seconds: 0.4, instrumentation }))
      blocks.push(block);
    return joinBlocks(blocks);
  };
  return Promise.all(notes.map(single));
}
const loudness = (samples: Float32Array): number =>
  samples.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
const input = { lesson: {}, score, chordsIn: chordsOfAnalysis(() => analysis) };

describe('what a student picks in the page', () => {
  let strings: BuiltWalkthrough;
  beforeAll(async () => {
    strings = await made({ instrument: 'strings', voices: [], pedal: false });
  });

  it.each([
    ['bars that the lesson never plays', excerptTimeline(input, { first: '2', last: '3', as: 'written' })],
    ['a single note of them', noteTimeline(score, score.notes.slice(-1))],
    ['their chords, stacked', excerptTimeline(input, { first: '2', last: '3', as: 'stack' })],
    ['their chords, struck together', excerptTimeline(input, { first: '2', last: '3', as: 'block' })],
    ['their chords, broken', excerptTimeline(input, { first: '2', last: '3', as: 'arpeggio' })],
  ])('sounds: %s', async (_, timeline) => {
    const tones = await heard(timeline, strings.page.bank, strings.instrumentation);
    expect(tones.length).toBeGreaterThan(0);
    for (const tone of tones) expect(loudness(tone)).toBeGreaterThan(0.001);
  });

  it('is played by the instrument of the lesson, and its chords by the piano', async () => {
    const piano = await made(undefined);
    const [written, chord] = (['written', 'block'] as const).map(as =>
      excerptTimeline(input, { first: '2', last: '2', as }),
    );
    const of = (timeline: Timeline | undefined, { page, instrumentation }: BuiltWalkthrough) =>
      heard(timeline, page.bank, instrumentation);
    expect(await of(written, strings)).not.toEqual(await of(written, piano));
    expect(await of(chord, strings)).toEqual(await of(chord, piano));
    const data = new TextDecoder().decode(strings.files[0]?.bytes);
    // General MIDI level 1: program 49 is String Ensemble 1, counted from 1.
    expect(data).toMatch(/"program":48\b/u);
  });
});
