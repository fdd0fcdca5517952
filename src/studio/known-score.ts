import type { PageScore } from '../timeline/index.js';
import type { HeardBar, KnownScore } from './claim-words.js';

export const noScore: KnownScore = { bars: [], voices: [], heard: [] };

const different = <T>(values: readonly T[]): readonly T[] => [...new Set(values)];

/** What the text pane offers of a score. */
export function knownScore({ bars, voices, segments, notes }: PageScore): KnownScore {
  const heard = bars.map(({ label, start, length }, index): HeardBar => {
    const here = segments.filter(segment => segment.start < start + length && start < segment.end);
    return {
      label,
      chords: different(here.map(({ chord }) => chord)),
      romans: different(here.map(({ roman }) => roman)),
      keys: different(here.map(({ key }) => key)),
      notes: different(
        notes.filter(({ bar }) => bar === index).map(({ pitch }) => pitch.replace(/-?\d+$/u, '')),
      ),
    };
  });
  return {
    bars: bars.map(({ label }) => label),
    voices: different(voices.flatMap(({ name, id }) => [name, id])).filter(name => name !== ''),
    heard,
  };
}
