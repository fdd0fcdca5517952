/** A paragraph of a text that is read aloud, with where it begins. */
export interface Paragraph {
  readonly from: number;
  readonly words: string;
}

/** The paragraphs of a text: what stands between empty lines. */
export const paragraphsOf = (text: string): readonly Paragraph[] =>
  [...text.matchAll(/\S(?:[\s\S]*?)(?=\n\s*\n|\s*$)/gu)].map(match => ({
    from: match.index,
    words: match[0],
  }));
