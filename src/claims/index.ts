export type * from './model.js';
export type { Claim } from './claim.js';
export { defaultConventions } from './conventions.js';
export { readClaim, longestClaim } from './read.js';
export type { ReadClaim, UnreadClaim } from './read.js';
export { namedVersions } from './versions/named-versions.js';
