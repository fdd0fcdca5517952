import type { CatalogueEntry } from './entry.js';

/** Findings of the timeline stage: codes T0001 and up. */
export const timelineCatalogue = {} as const satisfies Record<`T${number}`, CatalogueEntry>;
