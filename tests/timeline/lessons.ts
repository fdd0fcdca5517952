import { sourceText } from '../../src/diagnostics/index.js';
import type { Action, Lesson, PlayAction } from '../../src/lesson/index.js';
import { pitchClass, readScore } from '../../src/score/index.js';
import type { Score } from '../../src/score/index.js';
import { buildTimeline } from '../../src/timeline/index.js';
import type { ChordsIn, Timeline, TimelineInput } from '../../src/timeline/index.js';

const source = sourceText('lesson.yaml', '');
const span = { source, start: 0, end: 0 };

/** A score out of the lines of a tune's music, in C with quarter notes unless the fields say otherwise. */
export function scoreOf(music: string, fields: readonly string[] = []): Score {
  const head = ['X:1', 'T:Test', 'M:4/4', 'L:1/4', ...fields, 'K:C'];
  return readScore(sourceText('test.abc', [...head, music, ''].join('\n'))).value;
}

export const play = (bars: string, more: Partial<PlayAction> = {}): PlayAction => {
  const [first = '', last = first] = bars.split('-');
  return {
    kind: 'play',
    bars: { first, last, span },
    as: 'written',
    tempo: 100,
    times: 1,
    under: false,
    span,
    ...more,
  };
};

export const located = (value: string) => ({ value, span });

let texts = 0;
/** @param id no other text of the lesson may have it */
export const say = (text: string, id = `1.${String((texts += 1))}`): Action => ({
  kind: 'say',
  id,
  markdown: text,
  text,
  html: text,
  claims: [],
  span,
});

export const wait = (seconds: number): Action => ({ kind: 'wait', seconds, span });

export const ask = (
  question: string,
  choices: readonly string[],
  answer: string,
  id = `1.${String((texts += 1))}`,
): Action => ({ kind: 'ask', id, question, choices, answer, span });

/** A lesson of the given steps; 120 quarters a minute, so that a quarter lasts half a second. */
export function lessonOf(steps: readonly (readonly Action[])[], more: Partial<Lesson> = {}): Lesson {
  return {
    source,
    title: 'Test',
    score: { value: 'test.abc', span },
    home: { value: { tonic: pitchClass(0), mode: 'major' }, span },
    conventions: {
      'seventh-on-I': 'major', cadential: 'I64', 'inverted-authentic': 'cadence', 'half-on-V7': 'none', 'cadence-names': 'US', 'iii-and-vi': 'tonic',
    },
    narrator: { voice: 'built-in', pace: 150 },
    tempo: 120,
    lexicon: {},
    steps: steps.map((script, index) => ({ title: `Step ${String(index + 1)}`, script, show: [], span })),
    claims: [],
    ...more,
  }; // prettier-ignore
}

/** C major in root position, wherever one asks. */
export const cMajor: ChordsIn = (_, start, end) => [
  { start, end, tones: [pitchClass(0), pitchClass(4), pitchClass(1)], bass: pitchClass(0) },
];

export function timelineOf(
  score: Score,
  script: readonly Action[],
  more: Partial<TimelineInput> = {},
): Timeline {
  return buildTimeline({ lesson: lessonOf([script]), score, chordsIn: cMajor, ...more }).value;
}

/** Notes of a timeline as `key start-end`, times counted from the first bar that is played. */
export function strikes(timeline: Timeline): readonly string[] {
  const origin = timeline.events.find(event => event.kind === 'passage')?.start ?? 0;
  const seconds = (at: number) => String(Math.round((at - origin) * 1000) / 1000);
  return timeline.events.flatMap(event =>
    event.kind === 'note' ? [`${String(event.midi)} ${seconds(event.start)}-${seconds(event.end)}`] : [],
  );
}

/** Labels of the bars that are played, in order, with the pass where it is not the first. */
export function barsHeard(score: Score, timeline: Timeline): string {
  return timeline.events
    .flatMap(event =>
      event.kind === 'bar'
        ? [`${score.bars[event.bar]?.label ?? '?'}${event.pass > 0 ? `(${String(event.pass)})` : ''}`]
        : [],
    )
    .join(' ');
}
