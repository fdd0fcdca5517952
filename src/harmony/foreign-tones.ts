import type { PitchClass } from '../score/index.js';
import { nativeTones } from './key.js';
import { anticipates, isAccented } from './accents.js';
import type { Lattice } from './lattice.js';
import type { Chord, Key, NonChordTone } from './model.js';
import type { Moment } from './moments.js';
import { classify } from './non-chord-tones.js';
import type { Sound, Tone } from './sound.js';

/** A stretch heard as one chord. */
export interface ChordStretch {
  readonly from: number;
  readonly to: number;
  readonly tones: readonly PitchClass[];
  readonly key: Key;
}

/** Tones that sound in a stretch of moments, each once, in order of onset. */
export function tonesBetween(
  sound: Sound,
  moments: readonly Moment[],
  from: number,
  to: number,
): readonly Tone[] {
  const ids = new Set<number>();
  for (let at = from; at < to; at++) for (const id of moments[at]?.sounding ?? []) ids.add(id);
  return [...ids]
    .sort((a, b) => a - b)
    .map(id => sound.tones[id])
    .filter(tone => tone !== undefined);
}

/** The chord tone that a suspension in the bass is heard against: the lowest at a second from it, else the lowest (the figure is 2-3). */
const againstBass = (bass: Tone, uppers: readonly Tone[]): Tone | undefined =>
  uppers.find(({ step }) => (((step - bass.step) % 7) + 7) % 7 === 1) ?? uppers[0];

/** Names every tone of a stretch that its chord does not hold; `kind` is `undefined` where no type of non-chord tone fits. */
export function foreignTones(
  sound: Sound,
  { moments, staying }: Pick<Lattice, 'moments' | 'staying'>,
  stretch: ChordStretch,
  chordAt: (ticks: number) => Pick<Chord, 'tones'> | undefined,
): readonly { readonly tone: Tone; readonly named: NonChordTone | undefined }[] {
  const start = moments[stretch.from]?.start ?? 0;
  const native = new Set(nativeTones(stretch.key));
  return tonesBetween(sound, moments, stretch.from, stretch.to)
    .filter(tone => !stretch.tones.includes(tone.pitchClass))
    .map(tone => {
      let entry = stretch.from;
      while (entry + 1 < stretch.to && !moments[entry]?.sounding.includes(tone.index)) entry++;
      const moment = moments[entry];
      const sounding = (moment?.sounding ?? [])
        .map(index => sound.tones[index])
        .filter(other => other !== undefined);
      const named = classify(tone, {
        sound,
        start,
        accented: moment !== undefined && isAccented(tone, moment, sound, moments),
        anticipates: moment !== undefined && anticipates(tone, moment, sound, moments),
        bass: sounding[0],
        upper: againstBass(
          tone,
          sounding.filter(other => other.index !== tone.index && stretch.tones.includes(other.pitchClass)),
        ),
        stays: staying.has(tone.index),
        chromatic: !native.has(tone.pitchClass),
        isChordToneAtOnset: other => chordAt(other.on)?.tones.includes(other.pitchClass) ?? false,
      });
      return { tone, named };
    });
}
