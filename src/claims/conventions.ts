import type { Conventions } from './model.js';

/**
 * What holds where a lesson names no convention. The diatonic seventh (Open Music Theory; RomanText), the wider reading of
 * cadences (Hutchinson, Music Theory for the 21st-Century Classroom), American names, iii and vi as tonic (Open Music Theory).
 */
export const defaultConventions: Conventions = {
  'seventh-on-I': 'major',
  cadential: 'cad64',
  'inverted-authentic': 'cadence',
  'half-on-V7': 'cadence',
  'cadence-names': 'US',
  'iii-and-vi': 'tonic',
};
