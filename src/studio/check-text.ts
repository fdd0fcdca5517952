import { withoutPlace } from '../claims/index.js';
import { sourceText } from '../diagnostics/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import { analyse } from '../harmony/index.js';
import type { Analysis } from '../harmony/index.js';
import { checkLesson, comparedVersions, isUnjudged, playedVersions, readLesson } from '../lesson/index.js';
import type { CheckedClaim, Lesson } from '../lesson/index.js';
import { readScore, toNumber } from '../score/index.js';
import { pageScore } from '../timeline/index.js';
import type { Analysed, Checked, TextClaim, TextFinding, ToAnalyse, ToCheck } from './checked.js';
import { claimFix, fixOf } from './fixes.js';
import { whatStandsIn } from './what-stands-in.js';

interface KnownScore {
  readonly id: number;
  readonly text: string;
  readonly analysis: Analysis | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/** Checks one text after another; what has not changed since the text before is not worked out again. */
export interface Checker {
  readonly check: (work: ToCheck) => Checked;
  /** What stands in bars of the lesson that was checked last. */
  readonly analyseBars: (work: ToAnalyse) => Analysed;
}

export function checker(): Checker {
  /** Scores that were read, by their path in the lesson. */
  const shelf = new Map<string, KnownScore>();
  let scoresRead = 0;
  let last: { readonly lesson: Lesson; readonly analysis: Analysis } | undefined;

  const scoreOf = (path: string, text: string): KnownScore => {
    const known = shelf.get(path);
    if (known?.text === text) return known;
    const { value, diagnostics } = readScore(sourceText(path, text));
    const analysis = value.notes.length === 0 ? undefined : analyse(value);
    const read = { id: ++scoresRead, text, diagnostics, analysis };
    shelf.set(path, read);
    return read;
  };

  const check = ({ name, text, scores, holds }: ToCheck): Checked => {
    const began = performance.now();
    const { value: lesson, diagnostics } = readLesson(sourceText(name, text));
    const claims: readonly CheckedClaim[] = [];
    if (lesson === undefined) {
      const findings = diagnostics.map(each => findingOf(name, text, each, claims));
      const nothing = { wanted: [], isRead: false, claims: [], steps: [] };
      return { ...nothing, findings, took: performance.now() - began };
    }
    const paths = pathsOf(lesson);
    const reads = new Map(
      paths.flatMap(path => {
        const known = scores.get(path);
        return known === undefined || known === null ? [] : [[path, scoreOf(path, known)] as const];
      }),
    );
    const own = reads.get(lesson.score.value);
    const versions = new Map(
      [...reads].flatMap(([path, { analysis }]) =>
        analysis === undefined ? [] : [[path, analysis] as const],
      ),
    );
    const checked = checkLesson(lesson, { analysis: own?.analysis, versions });
    last = own?.analysis === undefined ? undefined : { lesson, analysis: own.analysis };
    const ofScores = [...reads.values()].flatMap(read => read.diagnostics);
    const findings = [...ofScores, ...diagnostics, ...checked.diagnostics].map(each =>
      findingOf(name, text, each, checked.value.claims),
    );
    return {
      wanted: paths.filter(path => !scores.has(path)),
      isRead: true,
      findings,
      claims: checked.value.claims.map(claim => textClaim(claim, text, findings)),
      steps: lesson.steps.map(({ title, span }) => ({ title, from: span.start, to: span.end })),
      ...(own?.analysis === undefined ? {} : { score: shownScore(lesson, own.id, own.analysis, holds) }),
      took: performance.now() - began,
    };
  };
  return {
    check,
    analyseBars: ({ bars }) =>
      last === undefined
        ? { bars, harmonies: [], claims: [] }
        : whatStandsIn(bars, last.lesson, last.analysis),
  };
}

const pathsOf = (lesson: Lesson): readonly string[] => [
  ...new Set([
    lesson.score.value,
    ...[...playedVersions(lesson), ...comparedVersions(lesson)].map(({ value }) => value),
  ]),
];

function findingOf(
  lessonName: string,
  text: string,
  { code, severity, message, help, span }: Diagnostic,
  claims: readonly CheckedClaim[],
): TextFinding {
  // What is wrong with a score is shown at the top of the lesson that names it.
  const inLesson = span?.source.name === lessonName;
  const place = inLesson ? { from: span.start, to: span.end } : { from: 0, to: 0 };
  const claim = claims.find(
    ({ entry }) => entry.span.start <= place.from && place.to <= entry.span.end,
  )?.entry;
  const fix = inLesson ? fixOf(help, place, claim, text) : undefined;
  return {
    code,
    severity,
    message: inLesson || span === undefined ? message : `${span.source.name}: ${message}`,
    ...(help === undefined ? {} : { help }),
    ...place,
    ...(fix === undefined ? {} : { fix }),
  };
}

function textClaim(
  { entry, verdict, accepted }: CheckedClaim,
  text: string,
  findings: readonly TextFinding[],
): TextClaim {
  const [from, to] = [entry.span.start, entry.span.end];
  const isJudged = !isUnjudged(verdict.code);
  const why = isJudged
    ? undefined
    : findings.find(each => each.code === verdict.code && from <= each.from && each.to <= to);
  const { nearest } = verdict;
  const toNearest =
    nearest === undefined || verdict.verdict === 'holds' || accepted !== undefined
      ? undefined
      : claimFix(entry, nearest, text);
  const fix = isJudged ? toNearest : why?.fix;
  return {
    step: entry.step,
    text: entry.text,
    verdict: verdict.verdict,
    code: verdict.code,
    reason: verdict.reason,
    ...(why?.help === undefined ? {} : { help: why.help }),
    ...(nearest === undefined ? {} : { nearest }),
    ...(fix === undefined ? {} : { fix }),
    accepted: accepted !== undefined,
    isJudged,
    evidence: verdict.evidence.map(withoutPlace),
    from,
    to,
  };
}

function shownScore(
  lesson: Lesson,
  id: number,
  analysis: Analysis,
  holds: number | undefined,
): NonNullable<Checked['score']> {
  if (id === holds) return { id };
  const beat = lesson.beat === undefined ? undefined : toNumber(lesson.beat);
  return { id, content: pageScore(lesson.score.value, analysis, beat, () => 0) };
}
