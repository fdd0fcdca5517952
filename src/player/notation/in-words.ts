import type { PageBar, PageNote, PageScore, PageSegment } from '../../timeline/index.js';
import { withAccidentals } from '../../timeline/index.js';
import { voiceInWords } from './voice-in-words.js';

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

/** `Bar 5`, `Pickup`. */
export const barHeading = (label: string): string => (label === '0' ? 'Pickup' : `Bar ${label}`);

/** A beat counted from 1, with its fraction in decimals only where it has one. */
const beatInWords = (beats: number): string => String(Math.round((beats + 1) * 100) / 100);

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
      return `${voiceInWords(score.voices, voice)}: ${tones.join(', ')}`;
    });
    return `Beat ${beat}. ${parts.join('; ')}.`;
  });
}

const list = (items: readonly string[]): string => items.join(', ');

/**
 * A stretch of bars in a few words: which, for whom, in what key, and the harmony of each bar as it is labelled. `isTold` says of a moment
 * whether its harmony may be told; the others are said to be covered.
 */
export function barsInWords(
  score: PageScore,
  firstBar: number,
  lastBar: number,
  isTold: (onset: number) => boolean,
): readonly string[] {
  const [first, last] = [score.bars[firstBar], score.bars[lastBar]];
  if (first === undefined || last === undefined) return [];
  const count = lastBar - firstBar + 1;
  const range =
    firstBar === lastBar
      ? barHeading(first.label)
      : first.label !== '0'
        ? `Bars ${first.label} to ${last.label}`
        : last.label === '1'
          ? 'Pickup and bar 1'
          : `Pickup and bars 1 to ${last.label}`;
  const voices = new Set(
    score.notes.filter(({ bar }) => bar >= firstBar && bar <= lastBar).map(({ voice }) => voice),
  );
  const names = [...voices].sort((a, b) => a - b).map(voice => voiceInWords(score.voices, voice));
  const size = `${range}: ${count === 1 ? '1 bar' : `${count} bars`}, ${list(names)}.`;
  const within = ({ start, end }: PageSegment, from: PageBar, to: PageBar): boolean =>
    start < to.start + to.length && end > from.start;
  const told = score.segments.filter(
    segment => within(segment, first, last) && isTold(Math.max(segment.start, first.start)),
  );
  if (told.length === 0) return [size];
  const bars = score.bars.slice(firstBar, lastBar + 1).map(bar => {
    const numerals = score.segments
      .filter(segment => within(segment, bar, bar))
      .map(segment =>
        told.includes(segment) ? `${segment.roman} (${withAccidentals(segment.chord)})` : 'covered',
      );
    return `${barHeading(bar.label)}: ${list(numerals)}.`;
  });
  const keys = new Set(told.map(({ key }) => withAccidentals(key)));
  return [size, `Key: ${list([...keys])}.`, bars.join(' ')];
}
