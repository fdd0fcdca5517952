import { inversionsOf, readClaim } from '../claims/index.js';
import { printKey, type Analysis, type Segment } from '../harmony/index.js';
import {
  add,
  equals,
  isBefore,
  least,
  pitchClassOf,
  placeAt,
  printFraction,
  type Fraction,
} from '../score/index.js';
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
  /** What of the bar is asked, in whole notes from the start of the score. */
  readonly part: { readonly start: Fraction; readonly end: Fraction };
  /** Position in `Analysis.segments`. */
  readonly segment: number;
  /** What the engine reads there: `V65 in D major (A7/C♯)`. */
  readonly reading: string;
}

/** What is asked at once: a chord of which the seventh may come a beat later. */
interface Asked {
  readonly start: Fraction;
  readonly end: Fraction;
  /** The segment with the most tones, by which the chord is read. */
  readonly fullest: Segment;
  readonly isJoined: boolean;
}

/** The chords of a piece; what is added to one in a later bar is asked there. */
function chordsOf({ score, segments }: Analysis): readonly Asked[] {
  const barOf = ({ start }: Segment): number => placeAt(score, start)?.index ?? -1;
  return inversionsOf(segments).flatMap(({ segments: joined }) =>
    [...new Set(joined.map(barOf))].flatMap((bar): readonly Asked[] => {
      const [first, ...rest] = joined.filter(segment => barOf(segment) === bar);
      if (first === undefined) return [];
      const fullest = rest.reduce(
        (most, each) => (each.chord.tones.length > most.chord.tones.length ? each : most),
        first,
      );
      return [{ start: first.start, end: rest.at(-1)?.end ?? first.end, fullest, isJoined: rest.length > 0 }];
    }),
  );
}

/**
 * Asks for the harmonies of the bars from `firstBar` to `lastBar`, in order. A harmony that fills its bar is asked by the bar, any other
 * by the beat where it begins; one that goes on over a bar line is asked once, and one of which a single tone sounds is not asked.
 */
export function practiceQuestions(
  data: PageData,
  analysis: Analysis,
  firstBar: number,
  lastBar: number,
): readonly PracticeQuestion[] {
  const { score, segments } = analysis;
  const named = (label: string): string => (label === '0' ? 'the pickup' : `bar ${label}`);
  return chordsOf(analysis).flatMap(({ start, end, fullest, isJoined }): readonly PracticeQuestion[] => {
    const place = placeAt(score, start, data.beat);
    const bar = place === undefined ? undefined : score.bars[place.index];
    if (place === undefined || bar === undefined || bar.index < firstBar || bar.index > lastBar) return [];
    // A single tone settles no harmony; what is read into it cannot be asked for.
    const tones = score.notes.filter(
      ({ onset, duration }) => isBefore(onset, end) && isBefore(start, add(onset, duration)),
    );
    if (new Set(tones.map(({ pitch }) => pitchClassOf(pitch))).size < 2) return [];
    const fills = equals(start, bar.start) && !isBefore(end, add(bar.start, bar.length));
    const beat = fills ? '' : ` beat ${printFraction(place.beat)}`;
    // The tone that comes later does not sound at the beat where its chord begins: the whole chord is asked.
    const after = fills || !isJoined ? undefined : placeAt(score, end, data.beat);
    const until = after === undefined ? '' : ` until ${named(after.label)} beat ${printFraction(after.beat)}`;
    const where = named(bar.label) + beat + until;
    // A place that the claim language has no words for cannot be judged.
    if ('problem' in readClaim(`${where} is I`)) return [];
    const step = data.steps.find(one => one.firstBar <= bar.index && bar.index <= one.lastBar);
    const key = printKey(fullest.key);
    const segment = segments.indexOf(fullest);
    const label = data.scores[0]?.segments[segment];
    return [
      {
        place: where,
        home: step?.home ?? data.home,
        localKey: key,
        bar: bar.index,
        part: { start, end: least(end, add(bar.start, bar.length)) },
        heading: `${barHeading(bar.label)}${beat === '' ? '' : `, from${beat}`}`,
        segment,
        reading: `${fullest.roman} in ${withAccidentals(key)} (${withAccidentals(label?.chord ?? '')})`,
      },
    ];
  });
}
