import { BasicSoundBank, SoundBankLoader, SpessaSynthProcessor } from 'spessasynth_core';
import type { Instrumentation, NoteEvent } from '../../timeline/index.js';
import { mixRate } from '../mono.js';
import { instrumentOf, pianoAlone, programs } from './instruments.js';

/** What is needed of a note. */
export type PlayedNote = Pick<NoteEvent, 'start' | 'end' | 'midi' | 'velocity' | 'voice'>;

export interface MusicOptions {
  /** Bytes of `trimmedBank` for these notes. */
  readonly bank: Uint8Array;
  /** How long the sound is to last. */
  readonly seconds: number;
  readonly instrumentation?: Instrumentation;
  readonly sampleRate?: number;
}

/** Length of a block of sound in samples: about a tenth of a second at 48 kHz. */
const blockLength = 4800;
/** Channel 10 (index 9) is percussion in General MIDI, so a voice never gets it. */
const percussionChannel = 9;
const channelCount = 16;
/** Silence after the last release from which on nothing can be heard any more. */
const dyingAway = 4;

interface Command {
  readonly sample: number;
  readonly on: boolean;
  readonly channel: number;
  readonly midi: number;
  readonly velocity: number;
}

/** A channel for each voice, so that a key of one voice does not stop the same key of another. Beyond 15 voices they are shared. */
function channelsOf(notes: readonly PlayedNote[]): ReadonlyMap<string, number> {
  const voices = [...new Set(notes.map(note => note.voice))].sort();
  const free = Array.from({ length: channelCount }, (_, channel) => channel).filter(
    channel => channel !== percussionChannel,
  );
  return new Map(voices.map((voice, index) => [voice, free[index % free.length] ?? 0]));
}

function commandsOf(
  notes: readonly PlayedNote[],
  channels: ReadonlyMap<string, number>,
  sampleRate: number,
): readonly Command[] {
  return notes
    .flatMap(({ start, end, midi, velocity, voice }) => {
      const channel = channels.get(voice) ?? 0;
      const first = Math.round(start * sampleRate);
      const last = Math.max(first + 1, Math.round(end * sampleRate));
      return [
        { sample: first, on: true, channel, midi, velocity },
        { sample: last, on: false, channel, midi, velocity },
      ];
    })
    .sort(
      (a, b) =>
        a.sample - b.sample || Number(a.on) - Number(b.on) || a.channel - b.channel || a.midi - b.midi,
    );
}

/**
 * Plays notes on the built-in instrument. Every note starts at its own sample, without reverberation, so that words and chords stay
 * clear; the same notes give the same samples. The sound comes block by block, an hour needs no more memory than a minute.
 */
export async function* renderMusic(
  notes: readonly PlayedNote[],
  options: MusicOptions,
): AsyncGenerator<Float32Array> {
  const sampleRate = options.sampleRate ?? mixRate;
  const instrumentation = options.instrumentation ?? pianoAlone;
  const total = Math.round(options.seconds * sampleRate);
  const channels = channelsOf(notes);
  const commands = commandsOf(notes, channels, sampleRate);

  await BasicSoundBank.isSF3DecoderReady;
  const synth = new SpessaSynthProcessor(sampleRate, {
    eventsEnabled: false,
    effectsEnabled: false,
    maxBufferSize: blockLength,
  });
  await synth.processorInitialized;
  synth.soundBankManager.addSoundBank(
    SoundBankLoader.fromArrayBuffer(options.bank.slice().buffer),
    'instruments',
  );
  for (const [voice, channel] of channels)
    synth.programChange(channel, programs[instrumentOf(instrumentation, voice)]);

  // The synthesizer renders two channels, which are equal for a bank of mono samples.
  const sameAgain = new Float32Array(blockLength);
  let next = 0;
  let silentFrom = 0;
  for (let blockStart = 0; blockStart < total; blockStart += blockLength) {
    const length = Math.min(blockLength, total - blockStart);
    const block = new Float32Array(length);
    let at = 0;
    while (at < length) {
      for (
        let command = commands[next];
        command !== undefined && command.sample <= blockStart + at;
        command = commands[next]
      ) {
        if (command.on) synth.noteOn(command.channel, command.midi, command.velocity);
        else synth.noteOff(command.channel, command.midi);
        silentFrom = command.on ? Infinity : command.sample + dyingAway * sampleRate;
        next += 1;
      }
      const until = Math.min(length, (commands[next]?.sample ?? Infinity) - blockStart);
      const sounds = blockStart + at < silentFrom || synth.voiceCount > 0;
      if (sounds) synth.process(block, sameAgain, at, until - at);
      at = until;
    }
    yield block;
  }
  synth.destroySynthProcessor();
}
