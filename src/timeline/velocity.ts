import { compare, divide, isBefore, subtract } from '../score/index.js';
import type { Bar, Fraction, Note, Score, VoiceId } from '../score/index.js';
import { beatOf } from './tempo.js';

/** MIDI velocity of the dynamic signs. Common practice: about 16 steps from one sign to the next, mezzo forte 80. */
const velocityOfDynamic: Readonly<Record<string, number>> = {
  pppp: 16, ppp: 20, pp: 33, p: 49, mp: 64, mf: 80, f: 96, ff: 112, fff: 122, ffff: 127, sf: 112, sfz: 112, fz: 112, rfz: 104,
}; // prettier-ignore

/** Where the score has no dynamic sign. */
const plainVelocity = velocityOfDynamic['mf'] ?? 80;
/** Signs that mean one note, not all that follow. */
const momentary = new Set(['sf', 'sfz', 'fz', 'rfz']);
const ofDownbeat = 6;
const ofOffbeat = -6;
const ofAccent = 14;
/** The upper voice sings; the others stay a little behind it. Common practice of keyboard playing. */
const ofAccompaniment = -8;

const clamp = (velocity: number): number => Math.max(1, Math.min(127, Math.round(velocity)));

function metricWeight(bar: Bar, onset: Fraction): number {
  const beat = beatOf(bar.meter);
  const inBar = subtract(onset, subtract(bar.start, bar.startsAt));
  if (inBar.n === 0) return ofDownbeat;
  return divide(inBar, beat).d === 1 ? 0 : ofOffbeat;
}

/**
 * Velocities of a score's notes, from dynamics and metre. A dynamic sign governs the voice that it stands in; a voice without
 * any signs of its own follows those of the whole score.
 */
export function velocitiesOf(score: Score): (note: Note) => number {
  const dynamics = score.marks
    .filter(mark => mark.kind === 'dynamic' && velocityOfDynamic[mark.text] !== undefined)
    .sort((a, b) => compare(a.onset, b.onset));
  const marked = new Set<VoiceId>(dynamics.map(mark => mark.voice));
  const accents = new Set(
    score.marks
      .filter(mark => mark.kind === 'accent')
      .map(mark => `${mark.voice} ${mark.onset.n}/${mark.onset.d}`),
  );
  const upper = score.voices[0]?.id;

  return note => {
    const bar = score.bars[note.bar];
    const heard = dynamics.filter(mark => !marked.has(note.voice) || mark.voice === note.voice);
    const sign = heard.findLast(
      mark =>
        compare(mark.onset, note.onset) === 0 ||
        (isBefore(mark.onset, note.onset) && !momentary.has(mark.text)),
    );
    const base = sign === undefined ? plainVelocity : (velocityOfDynamic[sign.text] ?? plainVelocity);
    const accent = accents.has(`${note.voice} ${note.onset.n}/${note.onset.d}`) ? ofAccent : 0;
    const place = bar === undefined ? 0 : metricWeight(bar, note.onset);
    return clamp(base + place + accent + (note.voice === upper ? 0 : ofAccompaniment));
  };
}
