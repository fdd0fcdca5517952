import type { Score, Voice } from './model.js';

/** Parts of a choir from the top, by the letters and short words that scores have for them (common practice). */
const parts = [
  ['soprano', /^(?:s|sop|soprano)(?<number>\d?)$/iu],
  ['alto', /^(?:a|alt|alto)(?<number>\d?)$/iu],
  ['tenor', /^(?:t|ten|tenor)(?<number>\d?)$/iu],
  ['bass', /^(?:b|bass)(?<number>\d?)$/iu],
] as const;

interface Part {
  readonly rank: number;
  readonly words: string;
}

function partOf({ id }: Voice): Part | undefined {
  for (const [rank, [name, letters]] of parts.entries()) {
    const number = letters.exec(id)?.groups?.['number'];
    if (number !== undefined) return { rank, words: number === '' ? name : `${name} ${number}` };
  }
  return undefined;
}

/**
 * The part of a choir that a voice sings, where its score calls its voices by their letters: `alto`, `soprano 2`. `undefined` where they
 * are not all parts of a choir from the top down, as `A` and `B` may be any two voices, and where the voice has a printed name of its own.
 */
export function choirPart(voice: Voice, { voices }: Pick<Score, 'voices'>): string | undefined {
  const sung = voices.filter(({ overlayOf }) => overlayOf === undefined);
  const found = sung.map(partOf);
  const ranks = found.map(part => part?.rank ?? -1);
  const isChoir =
    sung.length > 1 &&
    ranks.every((rank, at) => rank >= Math.max(0, ranks[at - 1] ?? 0)) &&
    // Soprano or tenor: the first letters of the alphabet alone name no parts.
    ranks.some(rank => rank === 0 || rank === 2);
  if (!isChoir) return undefined;
  const own = sung.find(({ id }) => id === (voice.overlayOf ?? voice.id));
  // One printed name among several voices is that of the whole choir.
  const isNamed = (own?.name ?? '') !== '' && sung.filter(({ name }) => name !== '').length > 1;
  return own === undefined || isNamed ? undefined : partOf(own)?.words;
}
