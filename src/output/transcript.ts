import type { Lesson } from '../lesson/index.js';
import { runningOrder } from '../timeline/index.js';
import type { Timeline } from '../timeline/index.js';
import { clockTime } from './time-code.js';

/**
 * Everything that is said and played, to be read in place of hearing it: for search, translation and readers who do not hear
 * (WCAG 2.2, success criterion 1.2.1). Markdown, readable as plain text.
 */
export function transcript(lesson: Lesson, timeline: Timeline): string {
  const order = runningOrder(lesson, timeline);
  const lines = [`# ${lesson.title}`];
  if (lesson.author !== undefined) lines.push('', `By ${lesson.author}`);
  if (lesson.description !== undefined) lines.push('', lesson.description.replace(/\s+/gu, ' ').trim());
  for (const step of timeline.steps) {
    lines.push('', `## ${step.title} (${clockTime(step.start)})`);
    for (const entry of order.filter(other => other.step === step.index)) {
      if (entry.kind === 'play')
        lines.push('', `[music: ${entry.text}${entry.under ? ', under the words' : ''}]`);
      if (entry.kind === 'say') lines.push('', ...paragraphs(entry.text));
      if (entry.kind === 'ask') lines.push('', `Question: ${oneLine(entry.text)}`);
      if (entry.kind === 'answer') lines.push('', `Answer: ${oneLine(entry.text)}`);
    }
  }
  return `${lines.join('\n')}\n`;
}

const oneLine = (text: string): string => text.replace(/\s+/gu, ' ').trim();

const paragraphs = (text: string): readonly string[] =>
  text
    .split(/\n\s*\n/u)
    .flatMap((paragraph, index) => (index === 0 ? [oneLine(paragraph)] : ['', oneLine(paragraph)]));
