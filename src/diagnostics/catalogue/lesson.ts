import type { CatalogueEntry } from './entry.js';

/** Findings of the lesson stage: codes L0001 and up. */
export const lessonCatalogue = {} as const satisfies Record<`L${number}`, CatalogueEntry>;
