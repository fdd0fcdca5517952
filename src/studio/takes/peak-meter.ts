/** What a reading of the meter means for narration. */
export type Zone = 'silent' | 'soft' | 'good' | 'loud' | 'over';

/** Lower ends of the zones, in dBFS of the peak. */
export const zoneFrom = {
  /** Under this there is nothing but the room. Common practice: narration is not recorded in rooms louder than that. */
  soft: -48,
  /** Common practice for speech that is recorded without a compressor: peaks of at least about -24 dBFS. */
  good: -24,
  /** Permitted Maximum Level of EBU R 68: 9 dB above alignment level, which is 18 dB under full scale. */
  loud: -9,
  /** Maximum true peak of EBU R 128 in production. */
  over: -1,
} as const;

export function zoneOf(peak: number): Zone {
  if (peak >= zoneFrom.over) return 'over';
  if (peak >= zoneFrom.loud) return 'loud';
  if (peak >= zoneFrom.good) return 'good';
  return peak >= zoneFrom.soft ? 'soft' : 'silent';
}

/** Decibels a second by which a reading falls: 20 dB in 1.7 s (IEC 60268-18, digital peak level meters; from memory). */
const fall = 20 / 1.7;

/**
 * The next reading of a peak meter: a greater peak is shown at once, a smaller one when the reading has fallen to it.
 * @param shown the reading so far, in dBFS
 * @param peak of the sound since then
 * @param seconds since then
 */
export const nextReading = (shown: number, peak: number, seconds: number): number =>
  Math.max(peak, shown - fall * seconds);
