import { BasicSoundBank, SoundBankLoader, SpessaSynthProcessor } from 'spessasynth_core';
import type { BasicSoundBank as Bank } from 'spessasynth_core';
import { channelVolume, volumeOf } from '../../timeline/index.js';
import type { NoteEvent } from '../../timeline/index.js';

/** What is needed of a note. */
export type PlayedNote = Pick<NoteEvent, 'start' | 'end' | 'midi' | 'velocity' | 'voice'>;

/** A key that goes down and up, in samples from the first strike. */
export interface KeyStroke {
  readonly down: number;
  readonly up: number;
  readonly midi: number;
  readonly velocity: number;
  /** MIDI channel, 0 to 15. */
  readonly channel: number;
  /** General MIDI program of its channel, 0-based. */
  readonly program: number;
}

/** Length of a block of sound in samples: a tenth of a second at 48 kHz. */
export const blockLength = 4800;
/** Sound that has not died away so many seconds after the last key came up is cut. */
const longestDyingAway = 10;

/** Reads the bytes of a sound bank. */
export async function loadBank(bytes: Uint8Array): Promise<Bank> {
  await BasicSoundBank.isSF3DecoderReady;
  return SoundBankLoader.fromArrayBuffer(bytes.slice().buffer);
}

interface Command {
  readonly sample: number;
  readonly isDown: boolean;
  readonly stroke: KeyStroke;
}

const commandsOf = (strokes: readonly KeyStroke[]): readonly Command[] =>
  strokes
    .flatMap(stroke => [
      { sample: stroke.down, isDown: true, stroke },
      { sample: stroke.up, isDown: false, stroke },
    ])
    .sort(
      (a, b) =>
        a.sample - b.sample ||
        Number(a.isDown) - Number(b.isDown) ||
        a.stroke.channel - b.stroke.channel ||
        a.stroke.midi - b.stroke.midi,
    );

/**
 * Plays keys on instruments of a bank until the last one has died away, block by block: each key goes down at its own sample, without
 * reverberation, so that words and chords stay clear. The same keys give the same samples, whatever else the bank holds.
 */
export async function* playNotes(
  strokes: readonly KeyStroke[],
  bank: Bank,
  sampleRate: number,
): AsyncGenerator<Float32Array> {
  const commands = commandsOf(strokes);
  const synth = new SpessaSynthProcessor(sampleRate, {
    eventsEnabled: false,
    effectsEnabled: false,
    maxBufferSize: blockLength,
  });
  await synth.processorInitialized;
  synth.soundBankManager.addSoundBank(bank, 'instruments');
  for (const { channel, program } of strokes) {
    synth.programChange(channel, program);
    synth.controllerChange(channel, channelVolume, volumeOf(program));
  }

  // The synthesizer renders two channels, which are equal for a bank of mono samples.
  const sameAgain = new Float32Array(blockLength);
  const end = (commands.at(-1)?.sample ?? 0) + longestDyingAway * sampleRate;
  let next = 0;
  for (let start = 0; start < end && (next < commands.length || synth.voiceCount > 0); start += blockLength) {
    const block = new Float32Array(blockLength);
    for (let at = 0; at < blockLength;) {
      for (
        let command = commands[next];
        command !== undefined && command.sample <= start + at;
        command = commands[next]
      ) {
        const { channel, midi, velocity } = command.stroke;
        if (command.isDown) synth.noteOn(channel, midi, velocity);
        else synth.noteOff(channel, midi);
        next += 1;
      }
      const until = Math.min(blockLength, (commands[next]?.sample ?? Infinity) - start);
      synth.process(block, sameAgain, at, until - at);
      at = until;
    }
    yield block;
  }
  // It is not destroyed, since that would empty the bank, which is shared; nothing outside holds it.
}
