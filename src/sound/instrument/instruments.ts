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
} as const;

export type Instrument = keyof typeof programs;

/** Which instrument plays: one for all voices, or some voices their own. */
export interface Instrumentation {
  readonly all: Instrument;
  /** By voice id. */
  readonly voices?: Readonly<Record<string, Instrument>>;
}

export const pianoAlone: Instrumentation = { all: 'piano' };

/** The instrument that plays a voice. */
export const instrumentOf = (instrumentation: Instrumentation, voice: string): Instrument =>
  instrumentation.voices?.[voice] ?? instrumentation.all;
