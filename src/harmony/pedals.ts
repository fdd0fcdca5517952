import { fraction, pitchClassOf } from '../score/index.js';
import type { Note, PitchClass } from '../score/index.js';
import type { PedalPoint, Segment } from './model.js';
import type { Heard } from './segments.js';
import { ticksOf } from './sound.js';

/**
 * Bass pedal points: one tone stays lowest (held or struck again) through at least two harmonies and is foreign to at least one
 * (Hutchinson, Non-Chord Tones, pedal). It begins and ends as a chord tone.
 */
export function bassPedalsOf(
  { score, sound, lattice }: Heard,
  segments: readonly Segment[],
): readonly PedalPoint[] {
  const { moments } = lattice;
  const lowest = lattice.ground;
  const pedals: PedalPoint[] = [];
  const isMember = (segment: Segment | undefined, tone: PitchClass): boolean =>
    segment?.chord.tones.includes(tone) ?? false;
  for (let from = 0; from < moments.length;) {
    const tone = lowest[from];
    let to = from + 1;
    while (to < moments.length && lowest[to]?.pitchClass === tone?.pitchClass) to++;
    if (tone !== undefined) {
      const start = moments[from]?.start ?? 0;
      const end = moments[to - 1]?.end ?? 0;
      let over = segments.filter(
        segment =>
          ticksOf(segment.start, sound.ticksPerWhole) < end &&
          ticksOf(segment.end, sound.ticksPerWhole) > start,
      );
      while (over.length > 0 && !isMember(over[0], tone.pitchClass)) over = over.slice(1);
      while (over.length > 0 && !isMember(over[over.length - 1], tone.pitchClass)) over = over.slice(0, -1);
      const foreign = over.some(segment => !isMember(segment, tone.pitchClass));
      const harmonies = new Set(over.map(segment => `${segment.chord.root} ${segment.chord.quality}`));
      const [first] = over;
      const last = over[over.length - 1];
      if (foreign && harmonies.size >= 2 && first !== undefined && last !== undefined) {
        const begin = Math.max(start, ticksOf(first.start, sound.ticksPerWhole));
        const stop = Math.min(end, ticksOf(last.end, sound.ticksPerWhole));
        const notes = score.notes.filter((note: Note) => {
          const onset = ticksOf(note.onset, sound.ticksPerWhole);
          return (
            pitchClassOf(note.pitch) === tone.pitchClass &&
            onset >= begin &&
            onset < stop &&
            lowest.some(
              (low, at) => low !== undefined && low.notes.includes(note.id) && at >= from && at < to,
            )
          );
        });
        const voice = score.voices[tone.voice];
        if (voice !== undefined) {
          pedals.push({
            start: fraction(begin, sound.ticksPerWhole),
            end: fraction(stop, sound.ticksPerWhole),
            tone: tone.pitchClass,
            voice: voice.id,
            position: 'bass',
            notes: notes.map(note => note.id),
          });
        }
      }
    }
    from = to;
  }
  return pedals;
}
