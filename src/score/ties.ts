import { compare, type Fraction } from './fraction.js';
import type { NoteHead } from './note-heads.js';
import { danglingTie } from './reading-findings.js';
import type { OpenTie, VoiceState } from './voice-state.js';

/** The tie that waits for this head: same voice or overlay, same place on the staff. */
export const tieInto = (state: VoiceState, layer: number, head: NoteHead): OpenTie | undefined =>
  state.ties.find(
    tie => tie.layer === layer && tie.head.letter === head.letter && tie.head.octave === head.octave,
  );

/** Reports ties that found no second note. */
export function dropTies(state: VoiceState, ties: readonly OpenTie[]): void {
  for (const { head } of ties) state.report(danglingTie(state.source, head));
  state.ties = state.ties.filter(tie => !ties.includes(tie));
}

/** Drops the ties whose second note should have begun before or at a moment, once the notes of that moment are placed. */
export function dropLateTies(
  state: VoiceState,
  layer: number,
  onset: Fraction,
  fresh: readonly OpenTie[],
): void {
  const late = state.ties.filter(
    tie => tie.layer === layer && !fresh.includes(tie) && compare(tie.end, onset) <= 0,
  );
  if (late.length > 0) dropTies(state, late);
}
