/** A shape that begins at a point and goes on from there: a note head, a clef, a rest. */
const shape = /<path d="M ?(-?[\d.]+)[ ,](-?[\d.]+) ?([a-z][^A-Z"]*)"([^>]*)><\/path>/g;

/**
 * Keeps each shape of the music once and draws it wherever it stands: a page of notes is the same few signs a thousand times over.
 * `markup` fills the drawings of one document, whose `definitions` must come before them.
 */
export function sharedGlyphs(): {
  readonly share: (markup: string) => string;
  readonly definitions: () => string;
} {
  const names = new Map<string, string>();
  return {
    share: markup =>
      markup.replace(shape, (_, x: string, y: string, rest: string, attributes: string) => {
        const name = names.get(rest) ?? `g${String(names.size + 1)}`;
        names.set(rest, name);
        return `<use href="#${name}" x="${x}" y="${y}"${attributes}/>`;
      }),
    definitions: () => {
      const paths = [...names].map(([rest, name]) => `<path id="${name}" d="M0 0${rest}"/>`);
      return `<svg class="glyphs" width="0" height="0" aria-hidden="true"><defs>${paths.join('')}</defs></svg>`;
    },
  };
}
