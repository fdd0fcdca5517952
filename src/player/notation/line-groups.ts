import type { TuneLine } from 'abcjs';

/** What is needed of the elements of a voice. */
interface Element {
  readonly el_type?: string;
  readonly startSlur?: unknown;
  readonly endSlur?: unknown;
  readonly startEnding?: unknown;
  readonly endEnding?: unknown;
  readonly pitches?: readonly Element[];
  readonly gracenotes?: readonly Element[];
  readonly startTie?: unknown;
  readonly endTie?: unknown;
}

const countOf = (marks: unknown): number =>
  Array.isArray(marks) ? marks.length : marks === undefined ? 0 : 1;

/** How many slurs, ties and endings more begin than end in an element. */
function opens({ pitches = [], gracenotes = [], ...own }: Element): number {
  return [
    countOf(own.startSlur) - countOf(own.endSlur),
    countOf(own.startTie) - countOf(own.endTie),
    countOf(own.startEnding) - countOf(own.endEnding),
    ...pitches.map(opens),
    ...gracenotes.map(opens),
  ].reduce((sum, part) => sum + part, 0);
}

/** What changes how all that follows is drawn. */
const changesAll = (element: Element): boolean =>
  element.el_type === 'scale' || element.el_type === 'color' || element.el_type === 'style';

const elementsOf = ({ staff = [] }: TuneLine): readonly Element[] =>
  staff.flatMap(({ voices = [] }) => voices as readonly (readonly Element[])[]).flat();

/**
 * Divides the lines of a tune into groups that can be engraved one by one: nothing reaches from one into the next.
 * @param size lines that a group has at least, but for the last
 */
export function lineGroups(lines: readonly TuneLine[], size: number): readonly (readonly TuneLine[])[] {
  const groups: TuneLine[][] = [];
  let group: TuneLine[] = [];
  let open = 0;
  for (const line of lines) {
    const elements = elementsOf(line);
    group.push(line);
    open += elements.some(changesAll) ? Infinity : elements.reduce((sum, element) => sum + opens(element), 0);
    if (open !== 0 || group.length < size) continue;
    groups.push(group);
    group = [];
  }
  return group.length === 0 ? groups : [...groups, group];
}
