import type { Score } from '../score/index.js';
import type { Moment } from './moments.js';
import { ticksOf } from './sound.js';
import type { Sound } from './sound.js';

/** How clearly a phrase may end on a moment: `marked` where a fermata or a breath says so, `rests` where the upper line comes to rest. */
export type PhraseEnd = 'marked' | 'rests' | 'none';

/** Beats from which a tone of the upper line is a point of rest, where it is longer than the one before. */
export const restingBeats = 2;

/** For each moment whether the upper line ends a phrase there (common practice: a long tone, a rest after it, a fermata). */
export function phraseEndsOf(score: Score, sound: Sound, moments: readonly Moment[]): readonly PhraseEnd[] {
  const marked = new Set(
    score.marks
      .filter(({ kind }) => kind === 'fermata' || kind === 'breath')
      .map(({ onset }) => ticksOf(onset, sound.ticksPerWhole)),
  );
  // Where a voice is broken into several, one of them goes on while the other waits: only the voice as a whole can rest.
  const onsets = new Map<number, Set<number>>();
  for (const { voice, on } of sound.tones)
    onsets.set(voice, (onsets.get(voice) ?? new Set<number>()).add(on));
  return moments.map(moment => {
    if (marked.has(moment.start)) return 'marked';
    const sounding = moment.sounding.map(id => sound.tones[id]).filter(tone => tone !== undefined);
    const top = sounding.findLast(tone => tone.voice === 0) ?? sounding[sounding.length - 1];
    if (top === undefined) return 'none';
    const before = top.previous === undefined ? undefined : sound.tones[top.previous];
    const longer = before === undefined || top.off - top.on > before.off - before.on;
    const long = longer && (top.off - moment.start) / moment.beat >= restingBeats;
    return long || onsets.get(top.voice)?.has(top.off) !== true ? 'rests' : 'none';
  });
}
