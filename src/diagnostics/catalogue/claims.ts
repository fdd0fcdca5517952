import { contentClaims } from './claims/content.js';
import { generalClaims } from './claims/general.js';
import { harmonyClaims } from './claims/harmony.js';
import { lineClaims } from './claims/lines.js';
import { moreHarmonyClaims } from './claims/more-harmony.js';
import { pieceClaims } from './claims/piece.js';
import type { CatalogueEntry } from './entry.js';

/** Findings of the claims stage: codes C0001 and up, a block of hundred for each family of claims. */
export const claimsCatalogue = {
  ...generalClaims,
  ...harmonyClaims,
  ...moreHarmonyClaims,
  ...contentClaims,
  ...lineClaims,
  ...pieceClaims,
} as const satisfies Record<`C${number}`, CatalogueEntry>;
