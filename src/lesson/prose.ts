import { areOfSameMatter, isAsserted, statementsInProse } from '../claims/index.js';
import type { Claim, ClaimContext, Place, ProseStatement, Verdict } from '../claims/index.js';
import type { Diagnostic, Result, Span } from '../diagnostics/index.js';
import type { ClaimEntry, Lesson, SayAction, Step } from './model.js';
import { placeOfWords } from './words-place.js';

/** Words of the narration that say something of the notes, with no claim of the author's behind them. */
export interface UncheckedWords {
  readonly words: string;
  readonly span: Span;
  /** Index of the step. */
  readonly step: number;
  /** The sentence that they seem to make, as the claim language writes it. */
  readonly claim: string;
  /** What the notes say to it; `undefined` where there are no notes. */
  readonly verdict?: Verdict;
}

/** Words of history, intention, feeling or taste. */
export interface OpinionWords {
  readonly words: string;
  readonly span: Span;
  readonly step: number;
}

/** How much of what the narration says has been checked. */
export interface ProseCoverage {
  /** Words with a claim behind them, and statements that a claim of the step repeats. */
  readonly checked: number;
  readonly unchecked: readonly UncheckedWords[];
  readonly opinions: readonly OpinionWords[];
}

/** A claim of a step that was checked, as far as the narration can repeat or contradict it. */
export interface KnownClaim {
  readonly entry: ClaimEntry;
  readonly claim?: Claim;
  readonly verdict: Verdict;
}

/** What a narration speaks of: the bars of its step, or the piece. */
const placeOfStep = ({ bars }: Step): Place =>
  bars === undefined ? { kind: 'piece' } : { kind: 'bars', first: bars.first, last: bars.last };

/**
 * Looks through the narration for statements that nobody has checked. Words that a claim of the same step contradicts are L0504.
 * @param contextOf what claims of a step are judged against; `undefined` where there are no notes
 */
export function checkProse(
  lesson: Lesson,
  claims: readonly KnownClaim[],
  contextOf: (step: number) => ClaimContext | undefined,
): Result<ProseCoverage> {
  let checked = 0;
  const unchecked: UncheckedWords[] = [];
  const opinions: OpinionWords[] = [];
  const diagnostics: Diagnostic[] = [];
  lesson.steps.forEach((step, index) => {
    const known = claims.filter(({ entry }) => entry.step === index);
    const context = contextOf(index);
    for (const say of step.script) {
      if (say.kind !== 'say') continue;
      checked += say.claims.length;
      for (const statement of statementsInProse(say.text, placeOfStep(step))) {
        if (isCovered(statement, say)) continue;
        const { from, to, claim } = statement;
        const words = say.text.slice(from, to);
        if (claim === undefined) {
          opinions.push({ words, span: placeOfWords(say, from, to), step: index });
          continue;
        }
        if (known.some(({ claim: other }) => isSame(claim, other))) {
          checked += 1;
          continue;
        }
        const span = placeOfWords(say, from, to);
        const verdict = context === undefined ? undefined : claim.check(context);
        unchecked.push({
          words,
          span,
          step: index,
          claim: claim.print(),
          ...(verdict === undefined ? {} : { verdict }),
        });
        if (context === undefined || verdict?.verdict !== 'fails' || !isAsserted(say.text, from, to))
          continue;
        const against = known.find(
          other =>
            other.claim !== undefined &&
            other.verdict.verdict === 'holds' &&
            areOfSameMatter(claim, other.claim, context),
        );
        if (against !== undefined)
          diagnostics.push(contradiction(words, span, claim, verdict, against.entry));
      }
    }
  });
  return { value: { checked, unchecked, opinions }, diagnostics };
}

const isCovered = ({ from, to }: ProseStatement, say: SayAction): boolean =>
  say.claims.some(words => words.from < to && from < words.to);

const isSame = (claim: Claim, other: Claim | undefined): boolean =>
  (other?.parts ?? [other]).some(part => JSON.stringify(part?.content) === JSON.stringify(claim.content));

function contradiction(
  words: string,
  span: Span,
  claim: Claim,
  { reason }: Verdict,
  against: ClaimEntry,
): Diagnostic {
  return {
    code: 'L0504',
    severity: 'error',
    message: `\`${words}\` contradicts the claim \`${against.text}\`, which holds`,
    span,
    notes: [`the words seem to say that ${claim.print()}: ${reason}`],
    help: 'change the words, or put a claim of their own behind them: `[words]{claim}`',
    related: [{ span: against.span, message: 'the claim' }],
  };
}
