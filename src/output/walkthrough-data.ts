import { createHash } from 'node:crypto';
import type { ClaimEntry, AskAction, Action, Lesson, Step } from '../lesson/index.js';
import { printKey } from '../harmony/index.js';
import { withoutPlace } from '../claims/index.js';
import type { Verdict } from '../claims/index.js';
import { toNumber } from '../score/index.js';
import type { Bar, Score } from '../score/index.js';
import { instrumentOf, pianoAlone, programs } from '../sound/index.js';
import type { Instrumentation } from '../sound/index.js';
import { pageScore } from '../timeline/index.js';
import type { PageAction, PageClaim, PageData, PageScore, PageStep } from '../timeline/index.js';
import { stepReadings } from './step-readings.js';
import type { WalkthroughInput, WalkthroughScore } from './walkthrough-input.js';

const scoreData = (
  { path, analysis }: WalkthroughScore,
  beat: number | undefined,
  instrumentation: Instrumentation,
): PageScore => pageScore(path, analysis, beat, voice => programs[instrumentOf(instrumentation, voice)]);

/** A plain number means every bar that carries it: `8` is 8a and 8b. */
const isNamed = (bar: Bar, label: string): boolean => bar.label === label || String(bar.number) === label;

function barsOf(step: Step, score: Score): { readonly firstBar: number; readonly lastBar: number } {
  const { bars } = step;
  const last = score.bars.length - 1;
  if (bars === undefined) return { firstBar: 0, lastBar: last };
  const firstBar = score.bars.findIndex(bar => isNamed(bar, bars.first));
  const lastBar = score.bars.findLastIndex(bar => isNamed(bar, bars.last));
  return { firstBar: Math.max(0, firstBar), lastBar: lastBar < 0 ? last : lastBar };
}

function actionData(
  action: Action,
  paths: readonly string[],
  claimAt: (claim: ClaimEntry) => number,
): PageAction {
  switch (action.kind) {
    case 'play': {
      const { first, last } = action.bars;
      const score = action.score === undefined ? 0 : Math.max(0, paths.indexOf(action.score.value));
      return {
        kind: 'play',
        bars: first === last ? first : `${first}-${last}`,
        as: action.as,
        tempo: action.tempo,
        score,
      };
    }
    case 'say':
      return { kind: 'say', id: action.id, text: action.text, html: action.html };
    case 'wait':
      return { kind: 'wait', seconds: action.seconds };
    case 'ask':
      return askData(action, claimAt);
  }
}

function askData(ask: AskAction, claimAt: (claim: ClaimEntry) => number): PageAction {
  const { id, question, choices, answer, because } = ask;
  const at = because === undefined ? -1 : claimAt(because);
  return { kind: 'ask', id, question, choices, answer, ...(at < 0 ? {} : { because: at }) };
}

function claimData({ claim, verdict }: { readonly claim: ClaimEntry; readonly verdict: Verdict }): PageClaim {
  return {
    path: claim.path,
    text: claim.text,
    verdict: verdict.verdict,
    reason: verdict.reason,
    evidence: verdict.evidence.map(withoutPlace),
    ...(verdict.nearest === undefined ? {} : { nearest: verdict.nearest }),
    // What holds needs no reason to be kept.
    ...(claim.accept === undefined || verdict.verdict === 'holds' ? {} : { accepted: claim.accept.value }),
  };
}

/** Paths of the claims that hang on words of the narration or on a question; the others stand under the step. */
const attachedPaths = (lesson: Lesson): ReadonlySet<string> =>
  new Set(
    lesson.steps.flatMap(step =>
      step.script.flatMap(action => {
        if (action.kind === 'say') return action.claims.map(({ claim }) => claim.path);
        return action.kind === 'ask' && action.because !== undefined ? [action.because.path] : [];
      }),
    ),
  );

/** What the page knows, out of what the earlier stages found. */
export function walkthroughData(input: WalkthroughInput): PageData {
  const { lesson, scores, claims, timeline, clips } = input;
  const [own] = scores;
  const paths = scores.map(({ path }) => path);
  const claimAt = (claim: ClaimEntry): number =>
    claims.findIndex(checked => checked.claim.path === claim.path);
  const attached = attachedPaths(lesson);
  const beat = lesson.beat === undefined ? undefined : toNumber(lesson.beat);
  const stepData = (step: Step, index: number): PageStep => ({
    title: step.title,
    ...barsOf(step, own.analysis.score),
    ...(step.home === undefined ? {} : { home: printKey(step.home) }),
    show: step.show,
    readings: stepReadings(lesson, index, own.analysis, claims),
    script: step.script.map(action => actionData(action, paths, claimAt)),
    claims: claims.flatMap(({ claim }, at) =>
      claim.step === index && !attached.has(claim.path) ? [at] : [],
    ),
  });
  return {
    page: 1,
    id: createHash('sha256').update(lesson.source.text).digest('hex').slice(0, 16),
    title: lesson.title,
    ...(lesson.author === undefined ? {} : { author: lesson.author }),
    ...(lesson.description === undefined ? {} : { description: lesson.description }),
    home: printKey(lesson.home.value),
    conventions: lesson.conventions,
    ...(lesson.tempo === undefined ? {} : { tempo: lesson.tempo }),
    ...(lesson.beat === undefined ? {} : { beat: lesson.beat }),
    pedal: lesson.sound?.pedal ?? false,
    scores: scores.map(score => scoreData(score, beat, input.instrumentation ?? pianoAlone)),
    steps: lesson.steps.map(stepData),
    claims: claims.map(claimData),
    timeline,
    clips: clips.map(({ say, skipSeconds }) => ({ say, skipSeconds })),
  };
}
