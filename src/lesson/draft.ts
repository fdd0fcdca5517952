import { Document, isMap, isSeq } from 'yaml';
import { defaultConventions } from '../claims/index.js';
import type { ClaimContext } from '../claims/index.js';
import { printKey } from '../harmony/index.js';
import type { Analysis, Key, Segment } from '../harmony/index.js';
import { barAt, compare, equals, pitchClass, placeAt, subtract, toNumber } from '../score/index.js';
import type { Fraction, Score } from '../score/index.js';
import { cadenceWords, holdsIn, numeralSentence, placeOfHarmony } from './sentences.js';

/** Bars of a step: a cadence or a change of key ends it when it has reached the first number, and at the second it ends by itself. */
const shortestStep = 4;
const longestStep = 8;
/** Chords claimed in one step. */
const mostChords = 5;
/** Readings below this confidence are left for the author to find. */
const leastConfidence = 0.6;

interface Passage {
  readonly first: number;
  readonly last: number;
}

/**
 * A first lesson for a score, as YAML: a step for each phrase, with the key, the surest chords and the cadence as claims.
 * Every claim has been checked and holds, so the draft passes until its author changes it.
 *
 * @param scorePath the score as the lesson is to name it
 * @example draftLesson(analyse(score), 'lamplight.abc')
 */
export function draftLesson(analysis: Analysis, scorePath: string): string {
  const home = homeKey(analysis);
  const { score } = analysis;
  const steps = passagesOf(analysis).map(passage => draftStep(analysis, home, passage));
  const title = score.title === '' ? scorePath : score.title;
  const document = new Document({ format: 1, title, score: scorePath, home: printKey(home), steps });
  const list = document.get('steps', true);
  if (isSeq(list)) for (const step of list.items.slice(1)) if (isMap(step)) step.spaceBefore = true;
  return document.toString({ lineWidth: 0 });
}

/** The key in which most of the piece stands. */
function homeKey({ keyAreas, segments }: Analysis): Key {
  const spans: readonly Pick<Segment, 'start' | 'end' | 'key'>[] = keyAreas.length > 0 ? keyAreas : segments;
  const lengths = new Map<string, { key: Key; length: number }>();
  for (const { start, end, key } of spans) {
    const length = toNumber(subtract(end, start));
    const name = printKey(key);
    lengths.set(name, { key, length: (lengths.get(name)?.length ?? 0) + length });
  }
  const [longest] = [...lengths.values()].sort((a, b) => b.length - a.length);
  return longest?.key ?? { tonic: pitchClass(0), mode: 'major' };
}

/** Phrases by index of their bars; a pickup is not counted. */
function passagesOf({ score, cadences, keyAreas }: Analysis): readonly Passage[] {
  const ends = new Set(cadences.flatMap(({ onset }) => barAt(score, onset)?.index ?? []));
  for (const { start } of keyAreas) {
    const bar = barAt(score, start);
    if (bar !== undefined && bar.index > 0 && equals(bar.start, start)) ends.add(bar.index - 1);
  }
  const passages: Passage[] = [];
  let first = 0;
  score.bars.forEach((_, index) => {
    const length = index - first + (score.bars[first]?.number === 0 ? 0 : 1);
    const ended = (ends.has(index) && length >= shortestStep) || length >= longestStep;
    if (!ended && index < score.bars.length - 1) return;
    passages.push({ first, last: index });
    first = index + 1;
  });
  return passages;
}

function draftStep(analysis: Analysis, home: Key, { first, last }: Passage): object {
  const { score } = analysis;
  const context = { analysis, home, conventions: defaultConventions };
  const labels = [score.bars[first]?.label ?? '0', score.bars[last]?.label ?? '0'] as const;
  const range = labels[0] === labels[1] ? labels[0] : `${labels[0]}-${labels[1]}`;
  const place = labels[0] === labels[1] ? `bar ${range}` : `bars ${range}`;
  const start = score.bars[first]?.start;
  const end = score.bars[last + 1]?.start ?? score.length;
  const within = (moment: Fraction): boolean =>
    start !== undefined && compare(start, moment) <= 0 && compare(moment, end) < 0;

  const isOne = labels[0] === labels[1];
  const area = analysis.keyAreas.find(
    one => start !== undefined && compare(one.start, start) <= 0 && compare(end, one.end) <= 0,
  );
  const key =
    area === undefined
      ? undefined
      : held(context, {
          words: `in ${printKey(area.key)}`,
          claim: `${place} ${isOne ? 'is' : 'are'} in ${printKey(area.key)}`,
        });
  const chords = analysis.segments
    .filter(segment => within(segment.start) && segment.confidence >= leastConfidence)
    .map(segment => ({ segment, text: chordClaim(score, home, segment) }))
    .filter(({ text }) => text !== undefined && holdsIn(context, text))
    .sort((a, b) => b.segment.confidence - a.segment.confidence)
    .slice(0, mostChords)
    .sort((a, b) => compare(a.segment.start, b.segment.start))
    .flatMap(({ text }) => text ?? []);
  const cadence = analysis.cadences
    .filter(({ onset }) => barAt(score, onset)?.index === last)
    .flatMap(({ kind, key: cadenceKey }) => {
      const words = cadenceWords(kind);
      const claim = `bar ${labels[1]} is ${words} in ${printKey(cadenceKey)}`;
      return held(context, { words, claim }) ?? [];
    })
    .at(-1);
  return {
    title: [isOne ? `Bar ${range}` : `Bars ${range}`, key?.words, cadence && `to ${cadence.words}`]
      .filter(part => part !== undefined)
      .join(', '),
    bars: /^\d+$/.test(range) ? Number(range) : range,
    say: sentenceAbout(labels, key, cadence),
    ...(chords.length === 0 ? {} : { claims: chords }),
  };
}

/** Words of the narration and the claim that they make. */
interface Marked {
  readonly words: string;
  readonly claim: string;
}

const held = (context: ClaimContext, marked: Marked): Marked | undefined =>
  holdsIn(context, marked.claim) ? marked : undefined;

/** A sentence for the author to begin from; it shows how words are tied to the claims behind them. */
function sentenceAbout(
  [first, last]: readonly [string, string],
  key: Marked | undefined,
  cadence: Marked | undefined,
): string {
  const isOne = first === last;
  const bars = isOne ? `Bar ${first}` : `Bars ${first} to ${last}`;
  const mark = ({ words, claim }: Marked): string => `[${words}]{${claim}}`;
  const closes = cadence === undefined ? undefined : `${isOne ? 'closes' : 'close'} with ${mark(cadence)}`;
  const stays = key === undefined ? undefined : `${isOne ? 'stands' : 'stand'} ${mark(key)}`;
  const said = [stays, closes].filter(part => part !== undefined).join('\nand ');
  return said === ''
    ? `${isOne ? 'This is bar' : 'These are bars'} ${isOne ? first : `${first} to ${last}`}.`
    : `${bars} ${said}.\n`;
}

/** A chord as a claim about its bar or its beat; nothing where the beat has no plain number. */
function chordClaim(score: Score, home: Key, segment: Segment): string | undefined {
  const place = placeOfHarmony(score, segment);
  if (place === undefined || placeAt(score, segment.start)?.beat.d !== 1) return undefined;
  return numeralSentence(place, segment, home);
}
