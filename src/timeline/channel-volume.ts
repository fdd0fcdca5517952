/**
 * How much louder than the piano the other instruments of the built-in bank come, in dB, by their program (General MIDI level 1, 0-based):
 * lines and triads of 0.9 and 1.8 seconds a note in the instrument's middle range, velocity 60 to 90, through the meter of src/sound
 * (ITU-R BS.1770). Sounds that last come louder than those that die away, and the lesson's demonstrations are on the piano.
 */
const louderBy: Readonly<Record<number, number>> = {
  19: 6, // organ
  24: 3, // guitar
  40: 8, // violin
  41: 8, // viola
  42: 6, // cello
  48: 5, // strings
  52: 5, // choir
  71: 8, // clarinet
  73: 10, // flute
};

/** MIDI controller 7, channel volume. */
export const channelVolume = 7;
/** What a channel has where nothing is said (General MIDI). */
const usual = 100;

/** The channel volume at which a program is as loud as the piano. Its square is the amplitude (General MIDI level 2, 3.3.1; from memory). */
export const volumeOf = (program: number): number =>
  Math.round(usual * 10 ** (-(louderBy[program] ?? 0) / 40));
