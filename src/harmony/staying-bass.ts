import { fraction } from '../score/index.js';
import { heardIn } from './analyse.js';
import { momentAt } from './hearing.js';
import type { Analysis } from './model.js';
import { segmentsBetween } from './segment-at.js';
import { ticksOf } from './sound.js';
import type { Tone } from './sound.js';

/**
 * How a bass stays: `through changes` while roots change above it, a pedal point; `long` for more than a bar of one root. Under a cadential
 * six-four and its V alone the bass is the dominant's own, however long.
 */
type Stay = 'through changes' | 'long' | 'no';

function stayOf(analysis: Analysis, bass: Tone): Stay {
  const { sound, lattice } = heardIn(analysis);
  const { moments } = lattice;
  const isBass = (at: number): boolean => lattice.ground[at]?.pitchClass === bass.pitchClass;
  let from = momentAt(moments, bass.on);
  let to = from;
  while (from > 0 && isBass(from - 1)) from--;
  while (to + 1 < moments.length && isBass(to + 1)) to++;
  const first = moments[from];
  const bar = analysis.score.bars[first?.bar ?? 0];
  const length = (moments[to]?.end ?? 0) - (first?.start ?? 0);
  const under = segmentsBetween(
    analysis,
    fraction(first?.start ?? 0, sound.ticksPerWhole),
    fraction(moments[to]?.end ?? 0, sound.ticksPerWhole),
  );
  const sixFours = under.filter(segment => segment.roman === 'cad64').length;
  const dominants = under.filter(segment => segment.chord.root === bass.pitchClass).length;
  if (sixFours > 0 && sixFours + dominants === under.length) return 'no';
  if (new Set(under.map(segment => segment.chord.root)).size > 1) return 'through changes';
  return bar !== undefined && length > ticksOf(bar.meter.length, sound.ticksPerWhole) ? 'long' : 'no';
}

const stays = new WeakMap<Tone, Stay>();

/** `stayOf`, worked out once for each tone: every claim about a bar asks about its bass. */
export function howLongStays(analysis: Analysis, bass: Tone): Stay {
  const answer = stays.get(bass) ?? stayOf(analysis, bass);
  stays.set(bass, answer);
  return answer;
}
