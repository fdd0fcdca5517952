/**
 * A turn of phrase as it is read: first what the grammar knows, then what teachers also say for it. Both mean the same; what would be a
 * guess does not belong here. Notation: see pattern.ts. Wording: common practice of classrooms, British and American.
 */
export type Turn = readonly [meant: string, ...said: string[]];
