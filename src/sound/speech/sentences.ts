import type { SpokenPiece } from './spell.js';

/** What a voice reads in one breath. */
export interface Sentence {
  readonly pieces: readonly SpokenPiece[];
  readonly end: 'sentence' | 'question' | 'paragraph';
}

/** Pieces up to each full stop, question or paragraph. */
export function sentencesOf(pieces: readonly SpokenPiece[]): readonly Sentence[] {
  const sentences: Sentence[] = [];
  let open: SpokenPiece[] = [];
  for (const piece of pieces) {
    open.push(piece);
    if (piece.pause === 'none' || piece.pause === 'short') continue;
    sentences.push({ pieces: open, end: piece.pause });
    open = [];
  }
  if (open.length > 0) sentences.push({ pieces: open, end: 'sentence' });
  return sentences;
}

/**
 * A sentence as plain text for any voice: words, commas where a short pause is, a full stop or question mark at the end.
 * `spelled` says how one spoken word is written for that voice.
 */
export function sentenceText({ pieces, end }: Sentence, spelled: (word: string) => string): string {
  let text = '';
  pieces.forEach((piece, index) => {
    for (const word of piece.words) text += word === ',' ? ',' : `${text === '' ? '' : ' '}${spelled(word)}`;
    if (piece.pause === 'short' && index < pieces.length - 1) text += ',';
  });
  return `${text.replace(/^,+/u, '').replace(/,+/gu, ',')}${end === 'question' ? '?' : '.'}`;
}
