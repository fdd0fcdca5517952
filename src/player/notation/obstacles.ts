/** A rectangle in units of the engraving. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** What is longer than this (a slur, a hairpin) is taken in pieces, because its box holds mostly nothing. */
const long = 24;
const pieces = 16;

export const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

const boxOf = ({ x, y, width, height }: DOMRect): Box => ({
  left: x,
  top: y,
  right: x + width,
  bottom: y + height,
});

function alongPath(path: SVGPathElement): readonly Box[] {
  const length = path.getTotalLength();
  const points = Array.from({ length: pieces + 1 }, (_, at) => path.getPointAtLength((length * at) / pieces));
  return points.slice(1).map((point, at) => {
    const before = points[at] ?? point;
    return {
      left: Math.min(before.x, point.x),
      top: Math.min(before.y, point.y) - 0.5,
      right: Math.max(before.x, point.x),
      bottom: Math.max(before.y, point.y) + 0.5,
    };
  });
}

/** What of a drawn line of the score a label had better not touch: everything but the lines of staff and bar. Nothing where it is not seen. */
export function obstaclesIn(drawing: SVGGraphicsElement): readonly Box[] {
  if (drawing.getClientRects().length === 0) return [];
  const shapes = [...drawing.querySelectorAll<SVGGraphicsElement>('path, text')];
  return shapes
    .filter(shape => shape.closest('.abcjs-staff, .abcjs-ledger, .abcjs-bar') === null)
    .flatMap(shape => {
      const box = shape.getBBox();
      return shape instanceof SVGPathElement && box.width > long ? alongPath(shape) : [boxOf(box)];
    });
}
