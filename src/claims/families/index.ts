import type { Family } from '../family.js';
import type { Span } from '../subjects/span.js';
import type { Line } from '../subjects/line.js';
import { contentFamily } from './content.js';
import { linePitchFamily } from './line-pitch.js';

/**
 * Every family of claims. A new family is a file of this folder and a line here: the grammar, the printed sentence, the
 * check, the probes for the nearest true statement and the reference follow from it.
 */
export const spanFamilies: readonly Family<Span>[] = [contentFamily];

/** Families about one line of the texture. */
export const lineFamilies: readonly Family<Line>[] = [linePitchFamily];
