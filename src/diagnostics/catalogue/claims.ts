import { contentClaims } from './claims/content.js';
import { generalClaims } from './claims/general.js';
import type { CatalogueEntry } from './entry.js';

/** Findings of the claims stage: codes C0001 and up, a block of hundred for each family of claims. */
export const claimsCatalogue = {
  ...generalClaims,
  ...contentClaims,
} as const satisfies Record<`C${number}`, CatalogueEntry>;
