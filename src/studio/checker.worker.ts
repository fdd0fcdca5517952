import { withoutPlace } from '../claims/index.js';
import { sourceText } from '../diagnostics/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import { analyse, printChord, printKey } from '../harmony/index.js';
import type { Analysis } from '../harmony/index.js';
import {
  cadenceWords,
  checkLesson,
  comparedVersions,
  holdsIn,
  numeralSentence,
  placeOfHarmony,
  playedVersions,
  readLesson,
} from '../lesson/index.js';
import type { Lesson } from '../lesson/index.js';
import { barAt, compare, readScore, toNumber } from '../score/index.js';
import { pageScore } from '../timeline/index.js';
import type { Analysed, Checked, FromWorker, TextFinding, ToAnalyse, ToCheck, ToWorker } from './checked.js';

interface ReadScore {
  readonly id: number;
  readonly text: string;
  readonly analysis: Analysis | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/** Scores that were read, by their path in the lesson; read and analysed again only where their text has changed. */
const shelf = new Map<string, ReadScore>();
let scoresRead = 0;
let last: { readonly lesson: Lesson; readonly analysis: Analysis } | undefined;

function scoreOf(path: string, text: string): ReadScore {
  const known = shelf.get(path);
  if (known?.text === text) return known;
  const { value, diagnostics } = readScore(sourceText(path, text));
  const read = {
    id: ++scoresRead,
    text,
    diagnostics,
    analysis: value.notes.length === 0 ? undefined : analyse(value),
  };
  shelf.set(path, read);
  return read;
}

const findingOf = (lessonName: string, { code, severity, message, help, span }: Diagnostic): TextFinding => {
  // What is wrong with a score is shown at the top of the lesson that names it.
  const inLesson = span?.source.name === lessonName;
  return {
    code,
    severity,
    message: inLesson || span === undefined ? message : `${span.source.name}: ${message}`,
    ...(help === undefined ? {} : { help }),
    from: inLesson ? span.start : 0,
    to: inLesson ? span.end : 0,
  };
};

const pathsOf = (lesson: Lesson): readonly string[] => [
  ...new Set([
    lesson.score.value,
    ...[...playedVersions(lesson), ...comparedVersions(lesson)].map(({ value }) => value),
  ]),
];

function check({ turn, name, text, scores, holds }: ToCheck): Checked {
  const began = performance.now();
  const { value: lesson, diagnostics } = readLesson(sourceText(name, text));
  const readings = diagnostics.map(each => findingOf(name, each));
  const nothing = { turn, wanted: [], title: '', claims: [], steps: [] };
  if (lesson === undefined) return { ...nothing, findings: readings, took: performance.now() - began };
  const paths = pathsOf(lesson);
  const reads = new Map(
    paths.flatMap(path => {
      const known = scores.get(path);
      return known === undefined || known === null ? [] : [[path, scoreOf(path, known)] as const];
    }),
  );
  const own = reads.get(lesson.score.value);
  const versions = new Map(
    [...reads].flatMap(([path, { analysis }]) => (analysis === undefined ? [] : [[path, analysis] as const])),
  );
  const checked = checkLesson(lesson, { analysis: own?.analysis, versions });
  last = own?.analysis === undefined ? undefined : { lesson, analysis: own.analysis };
  const beat = lesson.beat === undefined ? undefined : toNumber(lesson.beat);
  return {
    turn,
    wanted: paths.filter(path => !scores.has(path)),
    title: lesson.title,
    findings: [
      ...readings,
      ...checked.diagnostics.map(each => findingOf(name, each)),
      ...[...reads.values()].flatMap(read => read.diagnostics.map(each => findingOf(name, each))),
    ],
    claims: checked.value.claims.map(({ entry, verdict, accepted }) => ({
      step: entry.step,
      text: entry.text,
      verdict: verdict.verdict,
      code: verdict.code,
      reason: verdict.reason,
      ...(verdict.nearest === undefined ? {} : { nearest: verdict.nearest }),
      accepted: accepted !== undefined,
      evidence: verdict.evidence.map(withoutPlace),
      from: entry.span.start,
      to: entry.span.end,
    })),
    steps: lesson.steps.map(({ title, span }) => ({ title, from: span.start, to: span.end })),
    ...(own?.analysis === undefined
      ? {}
      : {
          score: {
            id: own.id,
            ...(own.id === holds
              ? {}
              : { content: pageScore(lesson.score.value, own.analysis, beat, () => 0) }),
          },
        }),
    took: performance.now() - began,
  };
}

function analyseBars({ bars }: ToAnalyse): Analysed {
  if (last === undefined) return { bars, harmonies: [], claims: [] };
  const { lesson, analysis } = last;
  const { score } = analysis;
  const home = lesson.home.value;
  const [first, end] = [score.bars[bars[0]], score.bars[bars[1] + 1]?.start ?? score.length];
  if (first === undefined) return { bars, harmonies: [], claims: [] };
  const within = analysis.segments
    .filter(({ start, end: stop }) => compare(start, end) < 0 && compare(first.start, stop) < 0)
    .map(segment => ({ segment, place: placeOfHarmony(score, segment, lesson.beat) ?? '' }));
  const lastLabel = score.bars[bars[1]]?.label ?? first.label;
  const range = first.label === lastLabel ? `bar ${first.label} is` : `bars ${first.label}-${lastLabel} are`;
  const sentences = new Set([
    ...within.map(({ segment }) => `${range} in ${printKey(segment.key)}`),
    ...within.map(({ segment, place }) => numeralSentence(place, segment, home)),
    ...within.map(({ segment, place }) => `${place} is ${printChord(segment.chord)}`),
    ...analysis.cadences
      .filter(({ onset }) => compare(first.start, onset) <= 0 && compare(onset, end) < 0)
      .map(
        ({ kind, key, onset }) =>
          `bar ${barAt(score, onset)?.label ?? ''} is ${cadenceWords(kind)} in ${printKey(key)}`,
      ),
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
    claims: [...sentences].filter(text => holdsIn(context, text)),
  };
}

addEventListener('message', ({ data }: MessageEvent<ToWorker>) => {
  const answer: FromWorker =
    data.kind === 'check'
      ? { kind: 'checked', result: check(data.work) }
      : { kind: 'analysed', result: analyseBars(data.work) };
  postMessage(answer);
});
