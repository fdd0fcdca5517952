/** A rectangle that holds a drawing. */
export interface Extent {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** How many numbers each command of a path takes (SVG 2, section 9.3), and which of them are a point. */
const lengths: Readonly<Record<string, number>> = {
  M: 2,
  L: 2,
  T: 2,
  S: 4,
  Q: 4,
  C: 6,
  H: 1,
  V: 1,
  A: 7,
  Z: 0,
};

/**
 * A rectangle around an SVG path. Control points count as points of it, so it may be a little larger than what is seen, never smaller
 * (a Bézier curve stays within its control points).
 */
export function pathExtent(path: string): Extent | undefined {
  const xs: number[] = [];
  const ys: number[] = [];
  let [x, y, startX, startY] = [0, 0, 0, 0];
  for (const [, letter = '', list = ''] of path.matchAll(/([a-zA-Z])([^a-zA-Z]*)/g)) {
    const command = letter.toUpperCase();
    const relative = letter !== command;
    const numbers = (list.match(/-?(?:\d+\.?\d*|\.\d+)(?:e-?\d+)?/g) ?? []).map(Number);
    const length = lengths[command] ?? 0;
    if (command === 'Z') [x, y] = [startX, startY];
    if (length === 0) continue;
    for (let at = 0; at + length <= numbers.length; at += length) {
      const [fromX, fromY] = relative ? [x, y] : [0, 0];
      const values = numbers.slice(at, at + length);
      if (command === 'H') x = fromX + (values[0] ?? 0);
      else if (command === 'V') y = fromY + (values[0] ?? 0);
      else {
        const points = command === 'A' ? values.slice(5) : values;
        for (let pair = 0; pair < points.length; pair += 2) {
          xs.push(fromX + (points[pair] ?? 0));
          ys.push(fromY + (points[pair + 1] ?? 0));
        }
        [x, y] = [xs.at(-1) ?? x, ys.at(-1) ?? y];
      }
      if (command === 'M' && at === 0) [startX, startY] = [x, y];
      xs.push(x);
      ys.push(y);
    }
  }
  if (xs.length === 0) return undefined;
  return { left: Math.min(...xs), top: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys) };
}

/** The rectangle around several. */
export function around(extents: readonly Extent[]): Extent {
  return {
    left: Math.min(...extents.map(({ left }) => left)),
    top: Math.min(...extents.map(({ top }) => top)),
    right: Math.max(...extents.map(({ right }) => right)),
    bottom: Math.max(...extents.map(({ bottom }) => bottom)),
  };
}
