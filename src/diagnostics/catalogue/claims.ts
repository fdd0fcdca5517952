import type { CatalogueEntry } from './entry.js';

/** Findings of the claims stage: codes C0001 and up. */
export const claimsCatalogue = {} as const satisfies Record<`C${number}`, CatalogueEntry>;
