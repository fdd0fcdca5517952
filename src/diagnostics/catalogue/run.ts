import type { CatalogueEntry } from './entry.js';

/** Findings about the run itself (files, folders, options): codes R0001 and up. */
export const runCatalogue = {} as const satisfies Record<`R${number}`, CatalogueEntry>;
