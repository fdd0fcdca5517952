import { askIfMeant, readClaim } from '../claims/index.js';
import type { Claim, ClaimContext, UnreadClaim, Verdict } from '../claims/index.js';
import { didYouMean } from '../diagnostics/index.js';
import type { Diagnostic, Result, Span } from '../diagnostics/index.js';
import type { Analysis } from '../harmony/index.js';
import type { Score } from '../score/index.js';
import { missingBar } from './bars.js';
import type { BarRange, ClaimEntry, Lesson, PlayAction } from './model.js';
import { checkProse } from './prose.js';
import type { ProseCoverage } from './prose.js';

/** A claim of the lesson with what the notes say about it. */
export interface CheckedClaim {
  readonly entry: ClaimEntry;
  /** The claim as understood; absent where it could not be read. */
  readonly claim?: Claim;
  /** `undecided` with the code of the finding where the claim could not be read. */
  readonly verdict: Verdict;
  /** The author's reason, where it sets the verdict aside. */
  readonly accepted?: string;
}

/** What is checked in a lesson: its claims, in the order of the source, and the words of its narration. */
export interface CheckedWords {
  readonly claims: readonly CheckedClaim[];
  readonly prose: ProseCoverage;
}

/** What a lesson is checked against. */
export interface LessonScores {
  /** Analysis of the lesson's own score; `undefined` where it could not be read. */
  readonly analysis: Analysis | undefined;
  /** Other versions of the piece by their path in the lesson, as far as they could be read. */
  readonly versions: ReadonlyMap<string, Analysis>;
}

/**
 * Checks every claim of a lesson against the notes, the words of the narration against its claims, and the bars and voices that it
 * names against the score. Codes: those of the claims, L0402, L0501 to L0504.
 */
export function checkLesson(lesson: Lesson, scores: LessonScores): Result<CheckedWords> {
  const diagnostics: Diagnostic[] = [];
  const contextOf = (step: number): ClaimContext | undefined => contextOfStep(lesson, step, scores);
  const claims = lesson.claims.map(entry => {
    const checked = checkEntry(entry, contextOf(entry.step));
    diagnostics.push(...checked.diagnostics);
    return checked.value;
  });
  const prose = checkProse(lesson, claims, contextOf);
  diagnostics.push(...prose.diagnostics);
  const score = scores.analysis?.score;
  for (const step of lesson.steps) {
    if (score !== undefined && step.bars !== undefined) diagnostics.push(...checkBars(score, step.bars));
    for (const action of step.script) {
      if (action.kind !== 'play') continue;
      const played = action.score === undefined ? score : scores.versions.get(action.score.value)?.score;
      // A step with `say` alone plays its own bars, which have been checked above.
      if (played !== undefined && action.bars !== step.bars)
        diagnostics.push(...checkBars(played, action.bars));
      if (played !== undefined) diagnostics.push(...checkVoice(played, action));
    }
  }
  return { value: { claims, prose: prose.value }, diagnostics };
}

function contextOfStep(
  lesson: Lesson,
  step: number,
  { analysis, versions }: LessonScores,
): ClaimContext | undefined {
  if (analysis === undefined) return undefined;
  return {
    analysis,
    home: lesson.steps[step]?.home ?? lesson.home.value,
    conventions: lesson.conventions,
    versions: Object.fromEntries(versions),
    ...(lesson.beat === undefined ? {} : { beatUnit: lesson.beat }),
  };
}

function checkEntry(entry: ClaimEntry, context: ClaimContext | undefined): Result<CheckedClaim> {
  const read = readClaim(entry.text);
  if ('problem' in read) return unreadable(entry, read.problem, context);
  const { claim } = read;
  if (context === undefined) {
    const verdict: Verdict = {
      verdict: 'undecided',
      code: 'L0503',
      reason: 'the score could not be read, so there are no notes to check the claim against',
      evidence: [],
    };
    return { value: { entry, claim, verdict }, diagnostics: [] };
  }
  const verdict = claim.check(context);
  const { accept } = entry;
  if (accept === undefined) return { value: { entry, claim, verdict }, diagnostics: [] };
  if (verdict.verdict !== 'holds') {
    return { value: { entry, claim, verdict, accepted: accept.value }, diagnostics: [] };
  }
  const notNeeded: Diagnostic = {
    code: 'L0402',
    severity: 'warning',
    message: 'this verdict need not be set aside: the claim holds',
    span: accept.span,
    help: 'remove `accept`, so that a change of the score that breaks the claim will be noticed',
  };
  return { value: { entry, claim, verdict }, diagnostics: [notNeeded] };
}

function unreadable(
  entry: ClaimEntry,
  problem: UnreadClaim,
  context: ClaimContext | undefined,
): Result<CheckedClaim> {
  const verdict: Verdict = {
    verdict: 'undecided',
    code: problem.code,
    reason: problem.message,
    evidence: [],
  };
  const { meant } = problem;
  return {
    value: { entry, verdict },
    diagnostics: [
      {
        code: problem.code,
        severity: 'error',
        message: problem.message,
        span: spanInClaim(entry, problem.at, problem.length),
        help:
          meant === undefined || context === undefined
            ? problem.help
            : askIfMeant(meant, meant.claim.check(context).verdict),
      },
    ],
  };
}

/** A stretch of a claim's text in the lesson's source. */
function spanInClaim(entry: ClaimEntry, at: number, length: number): Span {
  const start = entry.offsets[at] ?? entry.span.end;
  const end = length === 0 ? start : (entry.offsets[at + length - 1] ?? start) + 1;
  return { ...entry.span, start, end };
}

function checkBars(score: Score, range: BarRange): readonly Diagnostic[] {
  const missing = missingBar(score, range);
  if (missing === undefined) return [];
  const [first, last] = [score.bars.at(0)?.label, score.bars.at(-1)?.label];
  return [
    {
      code: 'L0501',
      severity: 'error',
      message: `there is no bar ${missing} in the piece`,
      span: range.span,
      notes: [
        `the bars of \`${score.source.name}\` are numbered ${first ?? '?'} to ${last ?? '?'}; bar 1 is the first full bar`,
      ],
    },
  ];
}

function checkVoice(score: Score, { voice }: PlayAction): readonly Diagnostic[] {
  if (voice === undefined || score.voices.some(({ id, name }) => id === voice.value || name === voice.value))
    return [];
  const known = [...new Set(score.voices.flatMap(({ id, name }) => [id, name]))].filter(name => name !== '');
  return [
    {
      code: 'L0502',
      severity: 'error',
      message: `there is no voice \`${voice.value}\` in the score`,
      span: voice.span,
      help: didYouMean(voice.value, known) ?? `voices: ${known.map(name => `\`${name}\``).join(', ')}`,
    },
  ];
}
