import type { CatalogueEntry } from './entry.js';
import { claimsCatalogue } from './claims.js';
import { harmonyCatalogue } from './harmony.js';
import { lessonCatalogue } from './lesson.js';
import { runCatalogue } from './run.js';
import { scoreCatalogue } from './score.js';
import { timelineCatalogue } from './timeline.js';

/** Every code that Barwise can print. The letter names the stage: L lesson, S score, H harmony, C claim, T timeline, R run. */
export const catalogue = {
  ...lessonCatalogue,
  ...scoreCatalogue,
  ...harmonyCatalogue,
  ...claimsCatalogue,
  ...timelineCatalogue,
  ...runCatalogue,
} as const;

/** A code of the catalogue. */
export type Code = keyof typeof catalogue;

/** The entry of a code as the user typed it (any case), or `undefined`. */
export function lookUpCode(code: string): (CatalogueEntry & { readonly code: string }) | undefined {
  const wanted = code.toUpperCase();
  const entries: Readonly<Record<string, CatalogueEntry>> = catalogue;
  const entry = entries[wanted];
  return entry === undefined ? undefined : { code: wanted, ...entry };
}
