export type * from './model.js';
export type { Claim } from './claim.js';
export { defaultConventions } from './conventions.js';
export { readClaim, longestClaim } from './read.js';
export type { ReadClaim, UnreadClaim } from './read.js';
export { namedVersions } from './versions/named-versions.js';
export { statementsInProse } from './prose.js';
export type { ProseStatement } from './prose.js';
export type { Place } from './place/place.js';
