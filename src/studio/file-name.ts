/** The last part of a path, whichever system it is from. */
export const fileName = (path: string): string => path.split(/[/\\]/u).at(-1) ?? path;
