/** How a scalar is written: plain and block text stand for themselves, quotes have escapes. */
export type TextStyle = 'plain' | 'single-quoted' | 'double-quoted' | 'block';

const isBlank = (char: string | undefined): boolean => char === ' ' || char === '\t' || char === '\n';

/** Length of the escape at a backslash in double quotes (YAML 1.2.2, section 5.7). */
function escapeLength(kind: string | undefined): number {
  return kind === 'x' ? 4 : kind === 'u' ? 6 : kind === 'U' ? 10 : 2;
}

/**
 * Where each character of a YAML text value stands in the source; one more entry for the end of the text.
 *
 * Indentation, folded lines and escapes make the value and its source differ in length, so the two are walked side by
 * side: every character that is not blank stands in both in the same order.
 *
 * @param source the whole source
 * @param start offset of the first character inside the quotes or after the block's header line
 */
export function textOffsets(
  source: string,
  start: number,
  end: number,
  value: string,
  style: TextStyle,
): readonly number[] {
  const offsets: number[] = [];
  let at = start;
  let index = 0;
  while (index < value.length) {
    const char = value[index];
    if (style === 'double-quoted' && source[at] === '\\' && at < end) {
      const kind = source[at + 1];
      const escapesBlank = kind === ' ' || kind === 't' || kind === '\t' || kind === 'n' || kind === '\n';
      // A blank of the value may already have been found in the indentation before its escape.
      if (kind === '\n' || (escapesBlank && !isBlank(char))) {
        at += 2;
        continue;
      }
      if (escapesBlank || !isBlank(char)) {
        offsets.push(at);
        if (kind === 'U' && (value.codePointAt(index) ?? 0) > 0xffff) offsets.push(at);
        index = offsets.length;
        at += escapeLength(kind);
        continue;
      }
    }
    if (isBlank(char)) {
      offsets.push(at);
      if (at < end && isBlank(source[at])) at++;
    } else if (at < end && isBlank(source[at])) {
      at++;
      continue;
    } else {
      offsets.push(at);
      at += style === 'single-quoted' && char === "'" ? 2 : 1;
    }
    index++;
  }
  offsets.push(at);
  return offsets;
}
