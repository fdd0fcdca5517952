import {
  areOfSameMatter,
  findsWithin,
  isAsserted,
  isBackedBy,
  meaningOf,
  statementsInProse,
} from '../claims/index.js';
import type { Claim, ClaimContext, Place, ProseStatement, Said, Verdict } from '../claims/index.js';
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

/** What a statement turned out to be, with the finding where a claim contradicts it. */
type Heard =
  | { readonly kind: 'checked' }
  | { readonly kind: 'unchecked'; readonly words: UncheckedWords; readonly finding?: Diagnostic }
  | { readonly kind: 'opinion'; readonly words: OpinionWords };

/**
 * Looks through the narration for statements that nobody has checked. Words that a claim of the same step contradicts are L0504.
 * @param contextOf what claims of a step are judged against; `undefined` where there are no notes
 */
export function checkProse(
  lesson: Lesson,
  claims: readonly KnownClaim[],
  contextOf: (step: number) => ClaimContext | undefined,
): Result<ProseCoverage> {
  const heard = lesson.steps.flatMap((step, index) => {
    const known = claims.filter(({ entry }) => entry.step === index);
    const context = contextOf(index);
    return step.script.flatMap(action =>
      action.kind === 'say' ? hear(action, placeOfStep(step), index, known, context) : [],
    );
  });
  const unchecked = heard.flatMap(one => (one.kind === 'unchecked' ? [one] : []));
  return {
    value: {
      checked: heard.filter(({ kind }) => kind === 'checked').length,
      unchecked: unchecked.map(({ words }) => words),
      opinions: heard.flatMap(one => (one.kind === 'opinion' ? [one.words] : [])),
    },
    diagnostics: unchecked.flatMap(({ finding }) => finding ?? []),
  };
}

/** Every statement of one narration: those with a claim behind their words, and what is found between them. */
function hear(
  say: SayAction,
  place: Place,
  step: number,
  known: readonly KnownClaim[],
  context: ClaimContext | undefined,
): readonly Heard[] {
  const found = statementsInProse(say.text, place).filter(statement => !isCovered(statement, say));
  return [
    ...say.claims.map((): Heard => ({ kind: 'checked' })),
    ...found.map((statement): Heard => {
      const { from, to } = statement;
      const words = { words: say.text.slice(from, to), span: placeOfWords(say, from, to), step };
      if (statement.claim === undefined) return { kind: 'opinion', words };
      const readings = statement.readings ?? [statement.claim];
      const isChecked = known.some(other =>
        readings.some(each => isBehind(other, { ...statement, claim: each }, context)),
      );
      if (isChecked) return { kind: 'checked' };
      const { claim, verdict } =
        context === undefined
          ? { claim: statement.claim, verdict: undefined }
          : meaningOf({ claim: statement.claim, readings }, context);
      const judged = { ...words, claim: claim.print(), ...(verdict === undefined ? {} : { verdict }) };
      const against =
        context !== undefined && verdict?.verdict === 'fails' && isAsserted(say.text, from, to)
          ? known.find(other => readings.some(each => contradicts(other, each, context)))
          : undefined;
      return against === undefined || verdict === undefined
        ? { kind: 'unchecked', words: judged }
        : { kind: 'unchecked', words: judged, finding: contradiction(judged, verdict, against.entry) };
    }),
  ];
}

/** Whether a claim of the step says what the words say, or says more exactly where it is, or holds and makes them true. */
const isBehind = (
  { claim: known, verdict }: KnownClaim,
  said: Said,
  context: ClaimContext | undefined,
): boolean =>
  isSame(said.claim, known) ||
  (known !== undefined &&
    context !== undefined &&
    (findsWithin(said.claim, known, context) ||
      (verdict.verdict === 'holds' && isBackedBy(said, known, context))));

/** Whether a claim holds that answers the question which a wrong statement answers otherwise. */
const contradicts = (known: KnownClaim, statement: Claim, context: ClaimContext): boolean =>
  known.claim !== undefined &&
  known.verdict.verdict === 'holds' &&
  areOfSameMatter(statement, known.claim, context);

const isCovered = ({ from, to }: ProseStatement, say: SayAction): boolean =>
  say.claims.some(words => words.from < to && from < words.to);

const isSame = (claim: Claim, other: Claim | undefined): boolean =>
  (other?.parts ?? [other]).some(part => JSON.stringify(part?.content) === JSON.stringify(claim.content));

function contradiction(
  { words, span, claim }: UncheckedWords,
  { reason }: Verdict,
  against: ClaimEntry,
): Diagnostic {
  return {
    code: 'L0504',
    severity: 'error',
    message: `\`${words}\` contradicts the claim \`${against.text}\`, which holds`,
    span,
    notes: [`the words seem to say that ${claim}: ${reason}`],
    help: 'change the words, or put a claim of their own behind them: `[words]{claim}`',
    related: [{ span: against.span, message: 'the claim' }],
  };
}
