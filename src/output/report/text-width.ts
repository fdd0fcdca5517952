/** Widths of the characters of a text face in parts of its size; about those of Libertinus Serif. */
const groups: readonly (readonly [RegExp, number])[] = [
  [/[ijlt.,:;'|!()[\]/ ]/, 0.28],
  [/[I°]/, 0.36],
  [/[mwMW—]/, 0.85],
  [/[A-Z]/, 0.64],
];
const usual = 0.48;

/** About how wide a text is when set in the report's face; where nothing is laid out there is nothing to measure. */
export function textWidth(text: string, size: number): number {
  let width = 0;
  for (const sign of text) width += groups.find(([group]) => group.test(sign))?.[1] ?? usual;
  return width * size;
}
