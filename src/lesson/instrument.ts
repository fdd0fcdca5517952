/** The instruments that a lesson can ask for. */
export const instrumentNames = [
  'piano', 'harpsichord', 'organ', 'guitar', 'violin', 'viola', 'cello', 'strings', 'choir', 'clarinet', 'flute',
] as const; // prettier-ignore

export type InstrumentName = (typeof instrumentNames)[number];
