/** What is needed of a parsed line: the voices of its staves. */
interface Element {
  readonly el_type?: string;
}
interface Staff {
  readonly voices?: Element[][];
  readonly meter?: unknown;
}
export interface Line {
  readonly staff?: Staff[];
}

/** A voice in pieces of `bars` bars; the direction of its stems holds on in each. */
function piecesOf(voice: readonly Element[], bars: number): readonly Element[][] {
  const pieces: Element[][] = [];
  let piece: Element[] = [];
  let count = 0;
  let stem: readonly Element[] = [];
  for (const element of voice) {
    piece.push(element);
    if (element.el_type === 'stem') stem = [element];
    if (element.el_type !== 'bar') continue;
    count += 1;
    if (count % bars !== 0) continue;
    pieces.push(piece);
    piece = [...stem];
  }
  return piece.length > stem.length || pieces.length === 0 ? [...pieces, piece] : pieces;
}

/**
 * Cuts every line of a parsed tune that has more than twice `bars` bars into lines of as many: a score can be written in one line of its
 * source, and would be measured in one go.
 */
export function shorterLines<L extends Line>(lines: readonly L[], bars: number): readonly L[] {
  return lines.flatMap((line): readonly L[] => {
    const { staff } = line;
    if (staff === undefined) return [line];
    const cut = staff.map(({ voices = [] }) => voices.map(voice => piecesOf(voice, bars)));
    const count = Math.max(0, ...cut.flat().map(pieces => pieces.length));
    if (count <= 2) return [line];
    return Array.from({ length: count }, (_, piece): L => {
      const staves = staff.map(({ meter, ...rest }, index) => ({
        ...rest,
        ...(piece === 0 && meter !== undefined ? { meter } : {}),
        voices: (cut[index] ?? []).map(pieces => pieces[piece] ?? []),
      }));
      return { ...line, staff: staves };
    });
  });
}
