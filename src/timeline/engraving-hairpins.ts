/** Where the engraving library lets a hairpin begin or end that comes from the line before or goes on in the next. */
const fromBefore = 0;
const goesOn = 800;

const number = String.raw`-?\d+(?:\.\d+)?`;
const hairpin = new RegExp(
  `^M (${number}) (${number}) L (${number}) (${number}) M (${number}) (${number}) L (${number}) (${number})$`,
);

/** What is left of a hairpin in a line is drawn from this width on. */
const shortest = 6;

/** Room between a hairpin and the letters where it begins or ends. */
const air = 4;

/** What is drawn as a hairpin, and not as letters like *mf*. */
export const isHairpin = (path: string): boolean => hairpin.test(path);

/** A rectangle around the letters of a dynamic. */
interface Letters {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/**
 * The path of a hairpin that stays inside its line of the score: one that goes on over a line break begins with the first note, at `from`,
 * and ends with the staff, at `to`; one that ends with the first note has nothing left. It keeps off the letters from which it goes and to
 * which it leads. Any other path is returned as it is.
 */
export function hairpinInside(
  path: string,
  from: number,
  to: number,
  letters: readonly Letters[] = [],
): string {
  const [all, left, y1, right, y2, , y3, , y4] = hairpin.exec(path) ?? [];
  if (all === undefined) return path;
  let start = Number(left) === fromBefore ? from : Number(left);
  let end = Number(right) === goesOn ? to : Number(right);
  const heights = [y1, y2, y3, y4].map(Number);
  const beside = letters.filter(
    ({ top, bottom }) => top < Math.max(...heights) && Math.min(...heights) < bottom,
  );
  const [first, last] = [start, end];
  for (const letter of beside) {
    if (letter.left <= first && first < letter.right + air) start = Math.max(start, letter.right + air);
    if (letter.left - air < last && last <= letter.right) end = Math.min(end, letter.left - air);
  }
  if (end - start < shortest) return '';
  return `M ${start} ${y1} L ${end} ${y2} M ${start} ${y3} L ${end} ${y4}`;
}

/** What is needed of a parsed tune: the notes of its voices with their marks, line by line. */
interface VoiceElement {
  readonly el_type?: string;
  readonly pitches?: unknown;
  decoration?: readonly string[];
}
interface Tune {
  readonly lines: readonly { readonly staff?: readonly { readonly voices?: readonly VoiceElement[][] }[] }[];
}

/** The lines of one voice, from the first on, that a hairpin crosses from end to end. */
function crossedLines(lines: readonly VoiceElement[][], kind: string): readonly VoiceElement[][] {
  const [begin, end] = [`${kind}(`, `${kind})`];
  const crossed: VoiceElement[][] = [];
  let since: VoiceElement[][] | undefined;
  for (const line of lines) {
    const signs = line
      .flatMap(({ decoration = [] }) => decoration)
      .filter(sign => sign === begin || sign === end);
    if (signs.length === 0) {
      since?.push(line);
      continue;
    }
    // One that never ends is drawn in its first line alone.
    if (signs[0] === end) crossed.push(...(since ?? []));
    since = signs.at(-1) === begin ? [] : undefined;
  }
  return crossed;
}

/**
 * Lets a hairpin begin anew in each line that it crosses from end to end: the engraving library draws it in its first and its last line
 * alone (a hairpin that runs over a line break goes on behind it: common practice).
 */
export function carryHairpins({ lines }: Tune): void {
  const voices = new Map<string, VoiceElement[][]>();
  for (const { staff: staves = [] } of lines)
    for (const [staff, { voices: own = [] }] of staves.entries())
      for (const [index, voice] of own.entries()) {
        const name = `${String(staff)} ${String(index)}`;
        voices.set(name, [...(voices.get(name) ?? []), voice]);
      }
  for (const voice of voices.values())
    for (const kind of ['crescendo', 'diminuendo'])
      for (const line of crossedLines(voice, kind)) {
        const notes = line.filter(({ el_type }) => el_type === 'note');
        const first = notes.find(({ pitches }) => pitches !== undefined) ?? notes[0];
        if (first !== undefined) first.decoration = [...(first.decoration ?? []), `${kind}(`];
      }
}
