import { expect, test } from 'vitest';
import { analyse } from '../../src/harmony/index.js';
import { harmoniesOf } from './account.js';
import { pieces, samples } from './law-pieces.js';
import { doubleInside, doublable, splitVoices } from './transformations.js';

// The bass of after-beats is kept in the ear only where the same voice plays both (ground.ts).
test.each(samples.filter(([name]) => name === 'mill-road'))(
  '%s has the same harmonies when its chords stand in a voice of their own',
  (_, score) => {
    expect(harmoniesOf(analyse(splitVoices(score)))).toEqual(harmoniesOf(analyse(score)));
  },
);

// An octave struck by the bass is taken for a chord after a single bass note (ground.ts).
test.each(pieces.filter(([, score]) => doublable(score, 'bass').length > 0))(
  '%s has the same harmonies when its bass is played in octaves',
  (_, score) => {
    const here = harmoniesOf(analyse(score));
    const bass = doublable(score, 'bass');
    expect(harmoniesOf(analyse(doubleInside(score, bass)))).toEqual(here);
    for (const note of bass.slice(0, 12))
      expect(harmoniesOf(analyse(doubleInside(score, [note])))).toEqual(here);
  },
);
