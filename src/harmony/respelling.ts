import { transposed } from '../score/index.js';
import type { PitchClass } from '../score/index.js';
import type { Judgement } from './judgement.js';
import type { Key } from './model.js';
import { printKey } from './key.js';

/** Twelve fifths lead to the same key of the keyboard under another name: F flat major is E major. */
const enharmonicShifts = [12, -12] as const;

export const respelledTone = (tone: PitchClass, shift: number): PitchClass => transposed(tone, shift);

export const respelledKey = (of: Key, shift: number): Key => ({
  tonic: transposed(of.tonic, shift),
  mode: of.mode,
});

interface Respelled {
  readonly inKey: Key | undefined;
  /** Tones of what is claimed, one of which at least must sound for it to be true. */
  readonly tones: readonly PitchClass[];
  /** The pitch classes of the piece. */
  readonly piece: { readonly has: (tone: PitchClass) => boolean };
}

/**
 * A composer may write a whole passage in the enharmonic key (E for F flat). Where the notes contradict a claim as spelled but support
 * it spelled as the score spells the passage, the claim is arguable: right for the ear and the function, not for the letters.
 */
export function allowRespelling(
  judgement: Judgement,
  { inKey, tones, piece }: Respelled,
  askAgain: (shift: number) => Judgement,
): Judgement {
  if (judgement.outcome !== 'contradicted') return judgement;
  for (const shift of enharmonicShifts) {
    if (!tones.some(tone => piece.has(respelledTone(tone, shift)))) continue;
    const respelled = askAgain(shift);
    if (respelled.outcome !== 'supported') continue;
    const written = inKey === undefined ? 'enharmonically' : `in ${printKey(respelledKey(inKey, shift))}`;
    return {
      ...respelled,
      outcome: 'rivalled',
      reason: `true for the ear, but the score spells the passage ${written}: ${respelled.reason}`,
    };
  }
  return judgement;
}
