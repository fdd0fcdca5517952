import type { CatalogueEntry } from './entry.js';

/** Findings of the harmony stage: codes H0001 and up. */
export const harmonyCatalogue = {} as const satisfies Record<`H${number}`, CatalogueEntry>;
