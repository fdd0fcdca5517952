/** Where the engraving library lets a hairpin begin or end that comes from the line before or goes on in the next. */
const fromBefore = 0;
const goesOn = 800;

const number = String.raw`-?\d+(?:\.\d+)?`;
const hairpin = new RegExp(
  `^M (${number}) (${number}) L (${number}) (${number}) M (${number}) (${number}) L (${number}) (${number})$`,
);

/** What is left of a hairpin in a line is drawn from this width on. */
const shortest = 6;

/**
 * The path of a hairpin that stays inside its line of the score: one that goes on over a line break begins with the first note, at `from`,
 * and ends with the staff, at `to`; one that ends with the first note has nothing left. Any other path is returned as it is.
 */
export function hairpinInside(path: string, from: number, to: number): string {
  const [all, left, y1, right, y2, , y3, , y4] = hairpin.exec(path) ?? [];
  if (all === undefined) return path;
  const start = Number(left) === fromBefore ? from : Number(left);
  const end = Number(right) === goesOn ? to : Number(right);
  if (end - start < shortest) return '';
  return `M ${start} ${y1} L ${end} ${y2} M ${start} ${y3} L ${end} ${y4}`;
}
