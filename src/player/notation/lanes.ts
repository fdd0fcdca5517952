/** Where a label begins and how wide it is. */
export interface Extent {
  readonly x: number;
  readonly width: number;
}

/** Puts labels that would touch into lanes below one another. Returns the lane of each, 0 the uppermost; `extents` are sorted by x. */
export function lanesFor(extents: readonly Extent[], gap: number): readonly number[] {
  const ends: number[] = [];
  return extents.map(({ x, width }) => {
    const free = ends.findIndex(end => end + gap <= x);
    const lane = free < 0 ? ends.length : free;
    ends[lane] = x + width;
    return lane;
  });
}
