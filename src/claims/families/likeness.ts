import { compare, pitchClassOf, staffStepOf, subtract } from '../../score/index.js';
import type { Bar, PitchClass } from '../../score/index.js';
import type { ClaimContext } from '../model.js';
import { endOf } from '../place/beats.js';
import { lineNotes } from '../subjects/line-notes.js';
import { soundingIn } from '../subjects/sounding.js';

/** When notes begin in a bar, counted from its start: a rhythm to compare by. */
export function rhythmOf(bar: Bar, context: ClaimContext): string {
  return soundingIn(context.analysis.score, { start: bar.start, end: endOf(bar) })
    .filter(note => !note.grace && note.tiedFrom === undefined && compare(bar.start, note.onset) <= 0)
    .map(note => {
      const offset = subtract(note.onset, bar.start);
      return `${String(offset.n)}/${String(offset.d)}`;
    })
    .join(' ');
}

/** A melody as it can come again: when its notes begin, counted from its start, and the steps between them. */
interface Opening {
  readonly rhythm: string;
  readonly steps: readonly number[];
  readonly first: PitchClass | undefined;
}

/** So many notes make an opening that can be told from another; where a bar has fewer, the first of the next are heard with it. */
const notesOfOpening = 3;

function melodyFrom(bar: Bar, context: ClaimContext): Opening {
  const { score } = context.analysis;
  const upTo = (last: Bar, most?: number): Opening => {
    const range = { start: bar.start, end: endOf(last) };
    const line = (lineNotes(score, { kind: 'edge', edge: 'top' }, range) ?? []).slice(0, most);
    const [opens] = line;
    return {
      first: opens === undefined ? undefined : pitchClassOf(opens.note.pitch),
      rhythm: line
        .map(({ start }) => {
          const offset = subtract(start, bar.start);
          return `${String(offset.n)}/${String(offset.d)}`;
        })
        .join(' '),
      steps: line
        .slice(1)
        .map(({ note }, at) => staffStepOf(note.pitch) - staffStepOf(line[at]?.note.pitch ?? note.pitch)),
    };
  };
  const own = upTo(bar);
  const next = score.bars[bar.index + 1];
  return own.steps.length + 1 < notesOfOpening && next !== undefined ? upTo(next, notesOfOpening) : own;
}

/** How two phrases begin: with one melody at its pitch or on another step, with its rhythm and contour alone, or differently. */
export function likeness(
  first: Bar,
  second: Bar,
  context: ClaimContext,
): 'same' | 'transposed' | 'contour' | 'other' {
  const [one, other] = [melodyFrom(first, context), melodyFrom(second, context)];
  const agree = (as: (steps: number) => number): boolean =>
    one.steps.map(as).join(' ') === other.steps.map(as).join(' ');
  if (one.rhythm !== other.rhythm || !agree(Math.sign)) return 'other';
  if (!agree(steps => steps)) return 'contour';
  return one.first === other.first ? 'same' : 'transposed';
}
