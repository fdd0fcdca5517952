import type { InstrumentName } from '../../lesson/index.js';
import type { Instrumentation } from '../../timeline/index.js';

/** Instruments of the built-in bank by their program number (General MIDI level 1, 0-based). */
export const programs = {
  piano: 0,
  harpsichord: 6,
  organ: 19,
  guitar: 24,
  violin: 40,
  viola: 41,
  cello: 42,
  strings: 48,
  choir: 52,
  clarinet: 71,
  flute: 73,
} as const satisfies Readonly<Record<InstrumentName, number>>;

export const pianoAlone: Instrumentation = { all: 'piano' };

/** The instrument that plays a voice. */
export const instrumentOf = (instrumentation: Instrumentation, voice: string): InstrumentName =>
  instrumentation.voices?.[voice] ?? instrumentation.all;
