import { isCompound, midiOf, pitchClassOf, staffStepOf } from '../score/index.js';
import type { Fraction, Meter, Note, NoteId, PitchClass, Score } from '../score/index.js';

/** How a voice moves into or out of a tone. */
export type Motion = 'same' | 'step up' | 'step down' | 'leap' | 'none';

/** A struck note together with what is tied to it. Grace notes are no tones: they decorate one. Times are ticks. */
export interface Tone {
  readonly index: number;
  readonly notes: readonly NoteId[];
  readonly pitchClass: PitchClass;
  readonly midi: number;
  /** Steps on the staff from middle C. */
  readonly step: number;
  readonly on: number;
  readonly off: number;
  readonly voice: number;
  readonly approach: Motion;
  readonly departure: Motion;
  /** Tone that this one comes from and goes to in its voice, where there is one. */
  readonly previous: number | undefined;
  readonly next: number | undefined;
}

/** What sounds, in whole-number ticks: the least common denominator of all times keeps every comparison exact and fast. */
export interface Sound {
  readonly ticksPerWhole: number;
  /** Sorted by onset, then from low to high. */
  readonly tones: readonly Tone[];
  readonly end: number;
}

const leastCommonMultiple = (a: number, b: number): number => {
  let [x, y] = [a, b];
  while (y !== 0) [x, y] = [y, x % y];
  return (a / x) * b;
};

export const ticksOf = (time: Fraction, ticksPerWhole: number): number => (time.n * ticksPerWhole) / time.d;

/** Length of a beat in whole notes: the dotted unit in compound metre. */
export const beatLength = (meter: Meter): number => (isCompound(meter) ? 3 : 1) / meter.unit;

interface Struck {
  readonly notes: readonly NoteId[];
  readonly first: Note;
  readonly on: number;
  readonly off: number;
  readonly voice: number;
}

function strikeAll(score: Score, ticksPerWhole: number): Struck[] {
  const voiceIndex = new Map(score.voices.map((voice, index) => [voice.id, index]));
  const struck: Struck[] = [];
  for (const first of score.notes) {
    if (first.grace || first.tiedFrom !== undefined) continue;
    const chain = [first];
    for (let last = first; last.tiedTo !== undefined;) {
      const next = score.notes[last.tiedTo];
      if (next === undefined) break;
      chain.push(next);
      last = next;
    }
    const last = chain[chain.length - 1] ?? first;
    struck.push({
      notes: chain.map(note => note.id),
      first,
      on: ticksOf(first.onset, ticksPerWhole),
      off: ticksOf(last.onset, ticksPerWhole) + ticksOf(last.duration, ticksPerWhole),
      voice: voiceIndex.get(first.voice) ?? 0,
    });
  }
  return struck.sort((a, b) => a.on - b.on || midiOf(a.first.pitch) - midiOf(b.first.pitch));
}

function motionBetween(from: Struck, to: Struck | undefined): Motion {
  if (to === undefined) return 'none';
  const steps = staffStepOf(to.first.pitch) - staffStepOf(from.first.pitch);
  const semitones = midiOf(to.first.pitch) - midiOf(from.first.pitch);
  if (semitones === 0) return 'same';
  // A chromatic semitone (C - C sharp) moves like a step; an augmented second is heard and treated as a leap.
  if (Math.abs(steps) <= 1 && Math.abs(semitones) <= 2) return semitones > 0 ? 'step up' : 'step down';
  return 'leap';
}

/**
 * The tone that a tone goes to. In a line it is the next tone of the voice. A voice that carries chords or broken chords holds
 * several lines: there the nearest tone of the next onset is taken, and where that is a leap, a tone a step away that follows
 * within `reach` ticks (the line that is resumed after other notes of the figure).
 */
function findNext(
  from: Struck,
  following: readonly Struck[],
  start: number,
  reach: number,
  beat: number,
): number | undefined {
  let nearest: number | undefined;
  let nearestOnset = 0;
  let distance = Infinity;
  for (let at = start; at < following.length; at++) {
    const candidate = following[at];
    if (candidate === undefined || candidate.on > from.off + reach) break;
    if (candidate.on < from.off) continue;
    const motion = motionBetween(from, candidate);
    const apart = Math.abs(midiOf(candidate.first.pitch) - midiOf(from.first.pitch));
    if (nearest === undefined || (candidate.on === nearestOnset && apart < distance)) {
      nearest = at;
      nearestOnset = candidate.on;
      distance = apart;
    } else if (candidate.on > nearestOnset && motion !== 'leap' && distance > 2) {
      // A pitch that comes again after a beat of other tones was left in between.
      if (motion !== 'same' || candidate.on - from.off < beat) return at;
    }
  }
  return nearest;
}

const steps = ({ approach, departure }: Tone): number =>
  [approach, departure].filter(motion => motion.startsWith('step')).length;

/** A tone that its voice doubles in the octave moves as one line with its double: as the one of them that moves by more steps. */
function withOctaves(tones: readonly Tone[]): readonly Tone[] {
  const leads = new Map<string, Tone>();
  const lineOf = (tone: Tone): string => [tone.voice, tone.on, tone.off, tone.pitchClass].join(' ');
  for (const tone of tones) {
    const lead = leads.get(lineOf(tone));
    if (lead === undefined || steps(tone) > steps(lead)) leads.set(lineOf(tone), tone);
  }
  return tones.map(tone => {
    const lead = leads.get(lineOf(tone));
    return lead === undefined || lead === tone
      ? tone
      : { ...tone, approach: lead.approach, departure: lead.departure };
  });
}

/** All struck tones of a score with the motion into and out of each. `reach` is in whole notes: how long a line may be silent. */
export function soundOf(score: Score): Sound {
  const times = [...score.notes, ...score.bars.map(bar => ({ onset: bar.start, duration: bar.length }))];
  const ticksPerWhole = times.reduce(
    (ticks, { onset, duration }) => leastCommonMultiple(leastCommonMultiple(ticks, onset.d), duration.d),
    4,
  );
  const struck = strikeAll(score, ticksPerWhole);
  const byVoice = new Map<number, Struck[]>();
  const place = new Map<Struck, number>();
  struck.forEach((tone, index) => {
    place.set(tone, index);
    const line = byVoice.get(tone.voice);
    if (line === undefined) byVoice.set(tone.voice, [tone]);
    else line.push(tone);
  });
  const next = new Array<number | undefined>(struck.length);
  const previous = new Array<number | undefined>(struck.length);
  for (const line of byVoice.values()) {
    line.forEach((tone, at) => {
      const bar = score.bars[tone.first.bar];
      const reach = bar === undefined ? 0 : ticksOf(bar.meter.length, ticksPerWhole) / 2;
      const beat = bar === undefined ? 0 : beatLength(bar.meter) * ticksPerWhole;
      const found = findNext(tone, line, at + 1, reach, beat);
      const target = found === undefined ? undefined : line[found];
      const index = place.get(tone);
      if (target === undefined || index === undefined) return;
      const to = place.get(target);
      if (to === undefined) return;
      next[index] = to;
      const known = previous[to];
      const knownTone = known === undefined ? undefined : struck[known];
      const closer =
        knownTone === undefined ||
        Math.abs(midiOf(tone.first.pitch) - midiOf(target.first.pitch)) <=
          Math.abs(midiOf(knownTone.first.pitch) - midiOf(target.first.pitch));
      if (closer) previous[to] = index;
    });
  }
  const at = (index: number | undefined): Struck | undefined =>
    index === undefined ? undefined : struck[index];
  const tones = struck.map((tone, index): Tone => {
    const from = at(previous[index]);
    return {
      index,
      notes: tone.notes,
      pitchClass: pitchClassOf(tone.first.pitch),
      midi: midiOf(tone.first.pitch),
      step: staffStepOf(tone.first.pitch),
      on: tone.on,
      off: tone.off,
      voice: tone.voice,
      approach: from === undefined ? 'none' : motionBetween(from, tone),
      departure: motionBetween(tone, at(next[index])),
      previous: previous[index],
      next: next[index],
    };
  });
  return { ticksPerWhole, tones: withOctaves(tones), end: ticksOf(score.length, ticksPerWhole) };
}
