import type { Score } from '../score/index.js';
import { cadencesOf } from './cadences.js';
import { confirmKeys } from './confirmed-keys.js';
import { keyAreasOf } from './key-areas.js';
import { keyFitsOf } from './key-fit.js';
import { findKeyPath } from './key-path.js';
import { buildLattice } from './lattice.js';
import type { Analysis } from './model.js';
import { momentsOf } from './moments.js';
import { bassPedalsOf } from './pedals.js';
import { phraseEndsOf } from './phrase-ends.js';
import { segmentsOf } from './segments.js';
import type { Heard } from './segments.js';
import { sequencesOf } from './sequences.js';
import { soundOf } from './sound.js';
import { unitsOf } from './units.js';

/** What the engine heard on the way to an analysis, kept for judging claims about the same score. */
const heardBy = new WeakMap<Analysis, Heard>();

/** The stages behind an analysis. Throws where the analysis does not come from `analyse`. */
export function heardIn(analysis: Analysis): Heard {
  const heard = heardBy.get(analysis);
  if (heard === undefined) throw new TypeError('this analysis was not made by analyse()');
  return heard;
}

/** Analyses a score: harmonies, keys, cadences, pedals, sequences. Deterministic; takes time in proportion to the bars. */
export function analyse(score: Score): Analysis {
  const sound = soundOf(score);
  const moments = momentsOf(score, sound);
  const lattice = buildLattice(sound, moments);
  const phraseEnds = phraseEndsOf(score, sound, moments);
  const cheapest = findKeyPath(
    lattice,
    score.bars.map(bar => bar.key.fifths),
    phraseEnds,
  );
  const units = unitsOf(score, sound);
  const path = confirmKeys(lattice, cheapest, phraseEnds, units);
  const heard: Heard = { score, sound, lattice, fits: keyFitsOf(lattice, path.keys), units };
  const segments = segmentsOf(heard, path);
  const sequences = sequencesOf(score, segments);
  const analysis: Analysis = {
    score,
    opens: units.opens,
    segments,
    keyAreas: keyAreasOf(segments),
    cadences: cadencesOf(heard, segments, sequences),
    pedals: bassPedalsOf(heard, segments),
    sequences,
  };
  heardBy.set(analysis, heard);
  return analysis;
}
