import { printChord, printKey } from '../harmony/index.js';
import type { Analysis } from '../harmony/index.js';
import { cadenceWords, holdsIn, numeralSentence, placeOfHarmony } from '../lesson/index.js';
import type { Lesson } from '../lesson/index.js';
import { barAt, compare } from '../score/index.js';
import type { Bars } from './bar-choice.js';
import type { Analysed } from './checked.js';

/** Most sentences that are tried; more than an author reads through. */
const mostSentences = 60;

/** The harmonies in bars of a lesson's score, and sentences about them that hold: about the whole range first. */
export function whatStandsIn(bars: Bars, lesson: Lesson, analysis: Analysis): Analysed {
  const { score } = analysis;
  const home = lesson.home.value;
  const [first, end] = [score.bars[bars[0]], score.bars[bars[1] + 1]?.start ?? score.length];
  if (first === undefined) return { bars, harmonies: [], claims: [] };
  const within = analysis.segments
    .filter(({ start, end: stop }) => compare(start, end) < 0 && compare(first.start, stop) < 0)
    .map(segment => ({ segment, place: placeOfHarmony(score, segment, lesson.beat) ?? '' }));
  const lastLabel = score.bars[bars[1]]?.label ?? first.label;
  const range = first.label === lastLabel ? `bar ${first.label} is` : `bars ${first.label}-${lastLabel} are`;
  const cadences = analysis.cadences.filter(
    ({ onset }) => compare(first.start, onset) <= 0 && compare(onset, end) < 0,
  );
  const sentences = new Set([
    ...within.map(({ segment }) => `${range} in ${printKey(segment.key)}`),
    ...cadences.map(
      ({ kind, key, onset }) =>
        `bar ${barAt(score, onset)?.label ?? ''} is ${cadenceWords(kind)} in ${printKey(key)}`,
    ),
    ...within.map(({ segment, place }) => numeralSentence(place, segment, home)),
    ...within.map(({ segment, place }) => `${place} is ${printChord(segment.chord)}`),
  ]);
  const context = {
    analysis,
    home,
    conventions: lesson.conventions,
    ...(lesson.beat === undefined ? {} : { beatUnit: lesson.beat }),
  };
  return {
    bars,
    harmonies: within.map(({ segment, place }) => ({
      place,
      chord: printChord(segment.chord),
      roman: segment.roman,
      key: printKey(segment.key),
      rivals: segment.rivals.map(rival => `${rival.roman} in ${printKey(rival.key)}`),
    })),
    claims: [...sentences].slice(0, mostSentences).filter(text => holdsIn(context, text)),
  };
}
