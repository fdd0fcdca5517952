import type { BasicSoundBank as Bank } from 'spessasynth_core';
import type { Instrumentation } from '../../timeline/index.js';
import { mixRate } from '../mono.js';
import type { SoundCache } from '../sound-cache.js';
import { trimmedBank } from './bank.js';
import { instrumentOf, pianoAlone, programs } from './instruments.js';
import { blockLength, loadBank, playNotes } from './play-notes.js';
import type { KeyStroke, PlayedNote } from './play-notes.js';
import { stretchesOf } from './stretches.js';
import type { Stretch } from './stretches.js';

export interface MusicOptions {
  /** How long the sound is to last. */
  readonly seconds: number;
  readonly instrumentation?: Instrumentation;
  readonly sampleRate?: number;
  /** Bytes of a sound bank that holds what the notes need; the part of the built-in one where absent. */
  readonly bank?: Uint8Array;
  /** Keeps each passage, so that one that has not changed need not be rendered again. */
  readonly cache?: SoundCache;
}

/** Part of the key of kept music: changes when the same keys would sound different (another bank or synthesizer). */
const version = 'music 2, FluidR3Mono 0.8.0, spessasynth 4.3.22';
/** Channel 10 (index 9) is percussion in General MIDI, so a voice never gets it. */
const percussionChannel = 9;
const channelCount = 16;

/** A channel for each voice, so that a key of one voice does not stop the same key of another. Beyond 15 voices they are shared. */
function channelsOf(notes: readonly PlayedNote[]): ReadonlyMap<string, number> {
  const voices = [...new Set(notes.map(note => note.voice))].sort();
  const free = Array.from({ length: channelCount }, (_, channel) => channel).filter(
    channel => channel !== percussionChannel,
  );
  return new Map(voices.map((voice, index) => [voice, free[index % free.length] ?? 0]));
}

/** The keys of a stretch, from its start: so they are the same wherever in the lesson it stands. */
function strokesOf(
  { start, notes }: Stretch<PlayedNote>,
  instrumentation: Instrumentation,
  sampleRate: number,
): readonly KeyStroke[] {
  const channels = channelsOf(notes);
  return notes.map(note => {
    const down = Math.round((note.start - start) * sampleRate);
    return {
      down,
      up: Math.max(down + 1, Math.round((note.end - start) * sampleRate)),
      midi: note.midi,
      velocity: note.velocity,
      channel: channels.get(note.voice) ?? 0,
      program: programs[instrumentOf(instrumentation, note.voice)],
    };
  });
}

/** A stretch that is heard: its blocks, of which `rest` is left of the last one and comes next, at sample `position`. */
interface Sounding {
  readonly blocks: AsyncGenerator<Float32Array>;
  rest: Float32Array;
  position: number;
}

/** Adds what a stretch sounds to a block that begins at sample `at`; `false` when the stretch is at its end. */
async function addTo(block: Float32Array, at: number, sounding: Sounding): Promise<boolean> {
  const end = at + block.length;
  while (sounding.position < end) {
    if (sounding.rest.length === 0) {
      const next = await sounding.blocks.next();
      if (next.done === true) return false;
      sounding.rest = next.value;
    }
    const { rest, position } = sounding;
    const count = Math.min(rest.length, end - position);
    for (let i = 0; i < count; i += 1) {
      const place = position - at + i;
      block[place] = (block[place] ?? 0) + (rest[i] ?? 0);
    }
    sounding.position += count;
    sounding.rest = rest.subarray(count);
  }
  return true;
}

/**
 * Plays notes on the built-in instruments. Each stretch between silences is rendered for itself, so it depends on its own notes alone and
 * can be kept. The same notes give the same samples, from the cache or not. The sound comes block by block, an hour needs no more
 * memory than a minute.
 */
export async function* renderMusic(
  notes: readonly PlayedNote[],
  options: MusicOptions,
): AsyncGenerator<Float32Array> {
  const { cache, sampleRate = mixRate, instrumentation = pianoAlone } = options;
  const total = Math.round(options.seconds * sampleRate);
  let bank: Promise<Bank> | undefined;
  // It takes a moment, and is not needed where everything is kept.
  const loaded = (): Promise<Bank> =>
    (bank ??= Promise.resolve(options.bank ?? trimmedBank(notes, instrumentation)).then(loadBank));

  const soundOf = async (stretch: Stretch<PlayedNote>): Promise<AsyncGenerator<Float32Array>> => {
    const strokes = strokesOf(stretch, instrumentation, sampleRate);
    const key = JSON.stringify([version, sampleRate, strokes]);
    const kept = await cache?.readMusic(key);
    if (kept !== undefined) return kept;
    const played = playNotes(strokes, await loaded(), sampleRate);
    return cache === undefined ? played : cache.keepMusic(key, played);
  };

  const waiting = [...stretchesOf(notes)];
  let sounding: Sounding[] = [];
  try {
    for (let at = 0; at < total; at += blockLength) {
      const block = new Float32Array(Math.min(blockLength, total - at));
      for (
        let next = waiting[0];
        next !== undefined && Math.round(next.start * sampleRate) < at + block.length;
        next = waiting[0]
      ) {
        waiting.shift();
        const position = Math.round(next.start * sampleRate);
        sounding.push({ blocks: await soundOf(next), rest: new Float32Array(0), position });
      }
      const goingOn: Sounding[] = [];
      for (const stretch of sounding) if (await addTo(block, at, stretch)) goingOn.push(stretch);
      sounding = goingOn;
      yield block;
    }
  } finally {
    for (const { blocks } of sounding) await blocks.return(undefined);
  }
}
