import type { CatalogueEntry } from './entry.js';

/** Findings of the score stage: codes S0001 and up. */
export const scoreCatalogue = {} as const satisfies Record<`S${number}`, CatalogueEntry>;
