import { basename, dirname, extname, join } from 'node:path';

/** The folder of a lesson's recordings. */
export const takesFolder = (lesson: string): string => join(dirname(lesson), 'takes');

/** Name of a file without its folder and its ending. */
export const nameOf = (path: string): string => basename(path, extname(path));
