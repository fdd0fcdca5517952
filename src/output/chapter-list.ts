import { chaptersOf } from '../timeline/index.js';
import type { Timeline } from '../timeline/index.js';
import { clockTime } from './time-code.js';

/** Shortest chapter that video hosts accept, in seconds (help page of a large host, quoted second-hand). */
const shortestChapter = 10;

/** Chapters as lines of text for the description of a video: `0:00 Title`. A step that is too short joins the one before it. */
export function chapterList(timeline: Timeline): string {
  const chapters: { start: number; titles: string[] }[] = [];
  for (const { start, end, title } of chaptersOf(timeline)) {
    const before = chapters.at(-1);
    if (before !== undefined && end - start < shortestChapter) before.titles.push(title);
    else chapters.push({ start, titles: [title] });
  }
  return chapters
    .map(({ start, titles }, index) => `${clockTime(index === 0 ? 0 : start)} ${titles.join('; ')}\n`)
    .join('');
}
