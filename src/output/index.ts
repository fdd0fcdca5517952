export { buildWalkthrough } from './walkthrough.js';
export type { WalkthroughClip, WalkthroughInput, WalkthroughScore } from './walkthrough-input.js';
export { readPlayerBundle } from './player-bundle.js';
export type { PlayerBundle } from './player-bundle.js';
export type { OutputFile } from './output-file.js';
