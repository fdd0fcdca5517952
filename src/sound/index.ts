export { mixRate, joinStereo } from './stereo.js';
export type { Mono, Stereo } from './stereo.js';
export { programs, pianoAlone } from './instrument/instruments.js';
export type { Instrument, Instrumentation } from './instrument/instruments.js';
export { trimmedBank } from './instrument/bank.js';
export { renderMusic } from './instrument/render-music.js';
export type { MusicOptions, PlayedNote } from './instrument/render-music.js';
