import type { Note } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import type { ClaimContext } from '../model.js';

/** What is found of a texture or a figuration, with the first of the notes that show it. */
export const textureFinding = <S>(
  holds: boolean,
  reason: string,
  notes: readonly Note[],
  context: ClaimContext,
): Finding<S> => ({
  verdict: holds ? 'holds' : 'fails',
  code: holds ? 'C1311' : 'C1312',
  reason,
  evidence: notes
    .slice(0, 6)
    .map(note => noteEvidence(holds ? 'supports' : 'contradicts', note, 'sounding', context)),
});
