import type { SpokenPart } from '../../bridge/index.js';

/** Who speaks a text. */
export type PartState =
  /** `stale`: its words have changed since; `trouble`: its file cannot be read, so the voice speaks. */
  | { readonly kind: 'taken' | 'stale' | 'trouble' | 'voice' }
  /** Some of its paragraphs, or all. */
  | { readonly kind: 'paragraphs'; readonly taken: number; readonly all: number; readonly stale: number };

/** The paragraphs of a text that has several. */
export const paragraphsOf = (part: SpokenPart, parts: readonly SpokenPart[]): readonly SpokenPart[] =>
  parts.filter(({ id, paragraph }) => paragraph !== undefined && id === `${part.id}-${String(paragraph)}`);

const isTaken = ({ take }: SpokenPart): boolean => take !== undefined && take.trouble === undefined;

/** @param parts all of the lesson, the paragraphs of this one among them */
export function stateOf(part: SpokenPart, parts: readonly SpokenPart[]): PartState {
  const { take } = part;
  if (take?.trouble !== undefined) return { kind: 'trouble' };
  if (take !== undefined) return { kind: take.stale ? 'stale' : 'taken' };
  const paragraphs = paragraphsOf(part, parts);
  const taken = paragraphs.filter(isTaken);
  if (taken.length === 0) return { kind: 'voice' };
  const stale = taken.filter(other => other.take?.stale === true).length;
  return { kind: 'paragraphs', taken: taken.length, all: paragraphs.length, stale };
}

/** Whether a text is spoken by recordings of the words that it has. */
export function isRecorded(part: SpokenPart, parts: readonly SpokenPart[]): boolean {
  const state = stateOf(part, parts);
  return (
    state.kind === 'taken' || (state.kind === 'paragraphs' && state.taken === state.all && state.stale === 0)
  );
}

export const isWhole = ({ paragraph }: SpokenPart): boolean => paragraph === undefined;

/** The next text that is still to be recorded, in a round from the one at hand; `undefined` where there is no other. */
export function nextToRecord(parts: readonly SpokenPart[], here: string | undefined): SpokenPart | undefined {
  const whole = parts.filter(isWhole);
  const at = whole.findIndex(({ id }) => id === here || here?.startsWith(`${id}-`) === true);
  return [...whole.slice(at + 1), ...whole.slice(0, Math.max(0, at))].find(part => !isRecorded(part, parts));
}

/** The text in which a place of the lesson lies, else the first one after it, else the last. */
export const partAt = (parts: readonly SpokenPart[], place: number): SpokenPart | undefined =>
  parts.find(({ from, to }) => from <= place && place <= to) ??
  parts.find(({ from }) => from >= place) ??
  parts.at(-1);
