import type { PageNote, PageScore } from '../../timeline/index.js';

const signs: Readonly<Record<string, string>> = {
  '#': ' sharp',
  '##': ' double sharp',
  b: ' flat',
  bb: ' double flat',
};

/** `F#4` as it is said: `F sharp 4`. */
export const pitchInWords = (pitch: string): string =>
  pitch.replace(
    /^([A-G])(##?|bb?)?(-?\d+)?$/,
    (_, letter: string, sign = '', octave = '') =>
      `${letter}${signs[sign as string] ?? ''}${octave === '' ? '' : ` ${octave as string}`}`,
  );

/** A beat counted from 1, with its fraction in decimals only where it has one. */
const beatInWords = (beats: number): string => String(Math.round((beats + 1) * 100) / 100);

const voiceName = (score: PageScore, voice: number): string => {
  const name = score.voices[voice]?.name ?? '';
  const alike = score.voices.filter(other => other.name === name).length > 1;
  return name === '' || alike ? `staff ${(score.voices[voice]?.staff ?? 0) + 1}` : name;
};

/**
 * One bar in words, for those who do not see the staff: what is struck on which beat, voice by voice from the top, each chord from low
 * to high. One sentence for each moment; like the staff, it does not name the harmony.
 */
export function barInWords(score: PageScore, index: number): readonly string[] {
  const bar = score.bars[index];
  if (bar === undefined) return [];
  const notes = score.notes.filter(note => note.bar === index);
  const onsets = [...new Set(notes.map(note => note.onset))].sort((a, b) => a - b);
  return onsets.map(onset => {
    const beat = beatInWords((onset - bar.start + bar.startsAt) / bar.beat);
    const struck = notes.filter(note => note.onset === onset);
    const voices = [...new Set(struck.map(note => note.voice))].sort((a, b) => a - b);
    const parts = voices.map(voice => {
      const tones = struck
        .filter((note: PageNote) => note.voice === voice)
        .map(note => pitchInWords(note.pitch));
      return `${voiceName(score, voice)}: ${tones.join(', ')}`;
    });
    return `Beat ${beat}. ${parts.join('; ')}.`;
  });
}
