import { BasicSoundBank, SoundBankLoader, SpessaSynthProcessor } from 'spessasynth_core';
import { channelVolume, volumeOf } from '../../timeline/index.js';
import type { Passage } from './passages.js';

export interface Block {
  readonly left: Float32Array<ArrayBuffer>;
  readonly right: Float32Array<ArrayBuffer>;
}

/** Renders passages with the sound bank that the page carries. */
export interface Instrument {
  /** The sound of a passage from its start, block by block; every note begins at its own sample. One passage at a time. */
  readonly render: (passage: Passage) => Generator<Block, void>;
}

/** Length of a block in seconds: short enough to be made between two frames of the display. */
const blockSeconds = 0.2;
/** Channel 10 (index 9) is percussion in General MIDI, so no voice gets it. */
const channels = [0, 1, 2, 3, 4, 5, 6, 7, 8, 10, 11, 12, 13, 14, 15] as const;

interface Command {
  readonly frame: number;
  readonly on: boolean;
  readonly voice: string;
  readonly midi: number;
  readonly velocity: number;
}

const commandsOf = (passage: Passage, sampleRate: number): readonly Command[] =>
  passage.notes
    .flatMap(({ start, end, midi, velocity, voice }): readonly Command[] => {
      const first = Math.round((start - passage.start) * sampleRate);
      const last = Math.max(first + 1, Math.round((end - passage.start) * sampleRate));
      return [
        { frame: first, on: true, voice, midi, velocity },
        { frame: last, on: false, voice, midi, velocity },
      ];
    })
    .sort((a, b) => a.frame - b.frame || Number(a.on) - Number(b.on));

/** Reads a sound bank and unpacks its samples one by one, giving way between them, so that the first chord is not held up by it. */
export async function loadBank(bytes: ArrayBuffer, giveWay: () => Promise<void>): Promise<BasicSoundBank> {
  await BasicSoundBank.isSF3DecoderReady;
  const bank = SoundBankLoader.fromArrayBuffer(bytes);
  for (const sample of bank.samples) {
    await giveWay();
    sample.getAudioData();
  }
  return bank;
}

/** `programs` gives the General MIDI program of each voice; a voice without one is played on the piano. */
export async function instrument(
  bank: BasicSoundBank,
  sampleRate: number,
  programs: ReadonlyMap<string, number>,
): Promise<Instrument> {
  const length = Math.round(sampleRate * blockSeconds);
  const synth = new SpessaSynthProcessor(sampleRate, {
    eventsEnabled: false,
    effectsEnabled: false,
    maxBufferSize: length,
  });
  await synth.processorInitialized;
  synth.soundBankManager.addSoundBank(bank, 'lesson');

  return {
    *render(passage) {
      const voices = [...new Set(passage.notes.map(note => note.voice))].sort();
      const channelOf = new Map(
        voices.map((voice, index) => [voice, channels[index % channels.length] ?? 0]),
      );
      synth.stopAllChannels(true);
      for (const [voice, channel] of channelOf) {
        const program = programs.get(voice) ?? 0;
        synth.programChange(channel, program);
        synth.controllerChange(channel, channelVolume, volumeOf(program));
      }
      const commands = commandsOf(passage, sampleRate);
      const total = Math.ceil((passage.end - passage.start) * sampleRate);
      let next = 0;
      for (let from = 0; from < total; from += length) {
        const block = { left: new Float32Array(length), right: new Float32Array(length) };
        let at = 0;
        while (at < length) {
          for (
            let command = commands[next];
            command !== undefined && command.frame <= from + at;
            command = commands[next]
          ) {
            const channel = channelOf.get(command.voice) ?? 0;
            if (command.on) synth.noteOn(channel, command.midi, command.velocity);
            else synth.noteOff(channel, command.midi);
            next++;
          }
          const end = Math.min(length, (commands[next]?.frame ?? Infinity) - from);
          synth.process(block.left, block.right, at, end - at);
          at = end;
        }
        yield block;
      }
    },
  };
}
