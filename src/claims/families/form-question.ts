import type { Code } from '../../diagnostics/index.js';
import type { Bar } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import type { ClaimContext, Evidence } from '../model.js';
import { soundingIn } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { barsOfPhrase, closesOf, stopOnDominant } from './closes.js';
import type { Close } from './closes.js';
import { likeness } from './likeness.js';

/** Bars that are said to be of a form. */
export interface Asked {
  readonly span: Span;
  readonly bars: readonly Bar[];
  readonly context: ClaimContext;
}

/** The bars are not of that form. */
export const fails = (reason: string, evidence: readonly Evidence[] = []): Finding<Span> => ({
  verdict: 'fails',
  code: 'C1802',
  reason,
  evidence,
});

/** The highest note on which each cadence arrives. */
export const cadenceEvidence = (
  cadences: readonly Close[],
  role: Evidence['role'],
  context: ClaimContext,
): readonly Evidence[] =>
  cadences.flatMap(cadence =>
    soundingIn(context.analysis.score, { start: cadence.onset, end: cadence.onset })
      .slice(-1)
      .map(note => noteEvidence(role, note, `${cadence.kind} cadence`, context)),
  );

/**
 * Why a close is disputed as the end of a phrase. Hutchinson counts the deceptive cadence among the cadences that end phrases; Open Music
 * Theory hears a close that is put off, so that the phrase goes on.
 */
export const disputedClose = ({ kind }: Close): string | undefined =>
  kind === 'deceptive'
    ? 'Hutchinson counts it as the end of a phrase, Open Music Theory hears the phrase go on to its close'
    : undefined;

/** What makes a form arguable; the reason is said after the cadences that make it. */
export interface Doubt {
  readonly code: Code;
  readonly reason: string;
}

/** What speaks against a form whose bars begin with the introduction of a voice: most count from where it enters. */
export function introducedBy(full: readonly Bar[], { analysis }: ClaimContext): string | undefined {
  const enters = full.find(({ index }) => index === analysis.opens);
  return enters === undefined || enters === full[0]
    ? undefined
    : `the voice enters in bar ${enters.label}: what comes before introduces it`;
}

/** The close in the bar half-way: V is one where the second half begins as the first did. */
export function closeHalfWay(full: readonly Bar[], context: ClaimContext): Close | undefined {
  const middle = full[Math.ceil(full.length / 2) - 1];
  if (middle === undefined || full.length < 2 * barsOfPhrase) return undefined;
  const [close] = closesOf(middle, context);
  return close ?? (comesBackHalfWay(full, context) ? stopOnDominant(middle, context) : undefined);
}

/** Whether the second half of some bars begins as the first does, as the two phrases of a parallel period do. */
export function comesBackHalfWay(full: readonly Bar[], context: ClaimContext): boolean {
  const [opens] = full;
  const next = full[Math.ceil(full.length / 2)];
  return opens !== undefined && next !== undefined && likeness(opens, next, context) === 'same';
}

/** What begins where nothing has closed is the end of a longer phrase. */
export const midPhrase = (bar: Bar): Finding<Span> =>
  fails(`nothing closes before bar ${bar.label}: it goes on with the phrase that has begun earlier`);
