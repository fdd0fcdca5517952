import { readClaim } from '../claims/index.js';
import { printKey, type Analysis } from '../harmony/index.js';
import { add, compare, equals, isBefore, pitchClassOf, placeAt, printFraction } from '../score/index.js';
import type { PageData } from '../timeline/index.js';
import { barHeading } from './notation/in-words.js';
import { withAccidentals } from '../timeline/index.js';
import type { Question } from './judge.js';

/** One harmony to be found by the student. */
export interface PracticeQuestion extends Question {
  /** Index of the bar. */
  readonly bar: number;
  /** `Bar 5, from beat 3`. */
  readonly heading: string;
  /** Position in `Analysis.segments`. */
  readonly segment: number;
  /** What the engine reads there: `V65 in D major (A7/C♯)`. */
  readonly reading: string;
}

/**
 * Asks for the harmonies of the bars from `firstBar` to `lastBar`, in order. A harmony that fills its bar is asked by the bar, any other
 * by the beat where it begins; one that goes on over a bar line is asked once, and one of which a single tone sounds is not asked.
 */
export function practiceQuestions(
  data: PageData,
  { score, segments }: Analysis,
  firstBar: number,
  lastBar: number,
): readonly PracticeQuestion[] {
  return segments.flatMap((segment, index): readonly PracticeQuestion[] => {
    const place = placeAt(score, segment.start, data.beat);
    const bar = place === undefined ? undefined : score.bars[place.index];
    if (place === undefined || bar === undefined || bar.index < firstBar || bar.index > lastBar) return [];
    // A single tone settles no harmony; what is read into it cannot be asked for.
    const tones = score.notes.filter(
      ({ onset, duration }) => isBefore(onset, segment.end) && isBefore(segment.start, add(onset, duration)),
    );
    if (new Set(tones.map(({ pitch }) => pitchClassOf(pitch))).size < 2) return [];
    const fills = equals(segment.start, bar.start) && !isBefore(segment.end, add(bar.start, bar.length));
    const named = bar.label === '0' ? 'the pickup' : `bar ${bar.label}`;
    const beat = compare(segment.start, bar.start) === 0 && fills ? '' : ` beat ${printFraction(place.beat)}`;
    const where = named + beat;
    // A place that the claim language has no words for cannot be judged.
    if ('problem' in readClaim(`${where} is I`)) return [];
    const step = data.steps.find(one => one.firstBar <= bar.index && bar.index <= one.lastBar);
    const key = printKey(segment.key);
    const label = data.scores[0]?.segments[index];
    return [
      {
        place: where,
        home: step?.home ?? data.home,
        localKey: key,
        bar: bar.index,
        heading: `${barHeading(bar.label)}${beat === '' ? '' : `, from${beat}`}`,
        segment: index,
        reading: `${segment.roman} in ${withAccidentals(key)} (${withAccidentals(label?.chord ?? '')})`,
      },
    ];
  });
}
