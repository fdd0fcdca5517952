import type { Moment } from './moments.js';
import type { Sound, Tone } from './sound.js';

/** A tone deeper than all others by more than this stays in the ear after it is let go. */
const depth = 5;

/** Whether its voice strikes another tone with it; an octave is no chord. */
const strikesChord = (sound: Sound, moment: Moment, tone: Tone): boolean =>
  moment.struck.some(id => {
    const other = sound.tones[id];
    return other !== undefined && other.voice === tone.voice && other.pitchClass !== tone.pitchClass;
  });

/**
 * The bass at each moment as a listener hears it: the lowest tone that sounds, or a deeper one struck earlier in the bar over which
 * after-beats or the rest of a broken chord are played. A tone that its voice strikes alone and holds for a beat is a new bass; a chord that
 * is struck after a single bass note, in its voice or another, is an after-beat, however near it lies.
 */
export function groundOf(sound: Sound, moments: readonly Moment[]): readonly (Tone | undefined)[] {
  let ground: Tone | undefined;
  let alone = false;
  return moments.map(moment => {
    if (moment.level === 0) ground = undefined;
    const lowest = sound.tones[moment.sounding[0] ?? -1];
    if (lowest === undefined) return ground;
    const struck = lowest.on === moment.start;
    const chordal = struck && strikesChord(sound, moment, lowest);
    const sameVoice = lowest.voice === ground?.voice;
    const above = ground === undefined ? 0 : lowest.midi - ground.midi;
    const afterBeat = above > 0 && alone && (chordal || !struck);
    const newBass = struck && !chordal && sameVoice && lowest.off - lowest.on >= moment.beat;
    if (ground === undefined || above < 0 || newBass || (above <= depth && !afterBeat)) {
      if (lowest !== ground) alone = !chordal;
      ground = lowest;
    }
    return ground;
  });
}

/** A bass is a pedal once so many beats after its own have struck something new over it, in more than one line. */
const pedalBeats = 3;

/** Tones of the ground that are held while harmony after harmony is struck over them. */
function heldThrough(ground: readonly (Tone | undefined)[], moments: readonly Moment[]): ReadonlySet<Tone> {
  const beatsOver = new Map<Tone, number>();
  moments.forEach(({ start, level, struckClasses }, at) => {
    const tone = ground[at];
    if (tone === undefined || tone.on === start || tone.off <= start || level > 2 || struckClasses < 2)
      return;
    beatsOver.set(tone, (beatsOver.get(tone) ?? 0) + 1);
  });
  return new Set([...beatsOver].flatMap(([tone, beats]) => (beats >= pedalBeats ? [tone] : [])));
}

/**
 * Tones of the ground that stay: a pedal that is held, or a bass that comes back at once because the same tone is the bass before or after it
 * (Hutchinson, Non-Chord Tones: the pedal is held or repeated while the harmonies change).
 */
export function stayingTones(
  ground: readonly (Tone | undefined)[],
  moments: readonly Moment[],
): ReadonlySet<number> {
  const held = heldThrough(ground, moments);
  const line: Tone[] = [];
  for (const tone of ground) if (tone !== undefined && line[line.length - 1] !== tone) line.push(tone);
  return new Set(
    line
      .filter(
        (tone, at) => held.has(tone) || line[at - 1]?.midi === tone.midi || line[at + 1]?.midi === tone.midi,
      )
      .map(tone => tone.index),
  );
}

/**
 * What a bass delays that is held or repeated from before and steps down before `end` (ticks): in a chord that holds the resolution and not
 * the suspension, the resolution is the bass (Hutchinson, Non-Chord Tones: the suspension 2-3).
 */
export function delayedBass(
  sound: Sound,
  bass: Tone | undefined,
  start: number,
  end: number,
): Tone | undefined {
  const prepared = bass !== undefined && (bass.on < start || bass.approach === 'same');
  const next = bass?.next === undefined ? undefined : sound.tones[bass.next];
  return prepared && bass.departure === 'step down' && next !== undefined && next.on < end ? next : undefined;
}
