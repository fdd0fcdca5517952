import type { Code } from '../../diagnostics/index.js';
import type { Judgement, Outcome } from '../../harmony/index.js';
import type { Finding, Judged } from '../claim.js';
import { witnessEvidence } from '../evidence.js';
import type { ClaimContext, Range, VerdictWord } from '../model.js';
import { soundingIn } from '../subjects/sounding.js';

const verdictOf: Readonly<Record<Outcome, VerdictWord>> = {
  supported: 'holds',
  rivalled: 'arguable',
  open: 'undecided',
  contradicted: 'fails',
};

/** From the best answer to the worst. */
const order: readonly Outcome[] = ['supported', 'rivalled', 'open', 'contradicted'];

/** The code of each answer of the engine. */
export type Codes = Readonly<Record<Outcome, Code>>;

/** The engine's answer as a finding. */
export const judged = (judgement: Judgement, codes: Codes, range: Range, context: ClaimContext): Judged => ({
  verdict: verdictOf[judgement.outcome],
  code: codes[judgement.outcome],
  reason: judgement.reason,
  evidence: witnessEvidence(judgement.witnesses, range, context),
});

/** The best of several answers, the first of equals. */
export const bestOf = (judgements: readonly Judgement[]): Judgement | undefined =>
  order.map(outcome => judgements.find(each => each.outcome === outcome)).find(each => each !== undefined);

export const isSupported = (judgement: Judgement): boolean =>
  judgement.outcome === 'supported' || judgement.outcome === 'rivalled';

/** The finding for a place or a line in which nothing sounds. */
export const nothingSounds = <S>(name: string): Finding<S> => ({
  verdict: 'undecided',
  code: 'C0005',
  reason: `nothing sounds in ${name}`,
  evidence: [],
  pointless: true,
});

/** The finding for a place at which nothing sounds; `undefined` where something does. */
export const silence = <S>(range: Range, name: string, context: ClaimContext): Finding<S> | undefined =>
  soundingIn(context.analysis.score, range).length > 0 ? undefined : nothingSounds(name);

/** The finding for a place at which something sounds, but no chord that could be asked about. */
export const noChord = <S>(name: string, code: Code): Finding<S> => ({
  verdict: 'undecided',
  code,
  reason: `no chord can be read in ${name}`,
  evidence: [],
  pointless: true,
});
