import type { Conventions } from '../claims/index.js';

/**
 * What holds where a lesson sets no convention.
 *
 * Sources of the choices: Open Music Theory, version 2 (OMT); Hutchinson, Music Theory for the 21st-Century Classroom.
 */
export const defaultConventions: Conventions = {
  'seventh-on-I': 'major',
  cadential: 'cad64',
  'inverted-authentic': 'cadence',
  'half-on-V7': 'cadence',
  'cadence-names': 'US',
  'iii-and-vi': 'tonic',
};
