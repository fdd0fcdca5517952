import type { BarRange, Lesson } from '../lesson/index.js';
import { runningOrder } from '../timeline/index.js';
import type { RunningOrderEntry, Timeline } from '../timeline/index.js';
import { clockTime } from './time-code.js';

const barsText = ({ first, last }: BarRange): string =>
  first === last ? `bar ${first}` : `bars ${first}-${last}`;

function cue(entry: RunningOrderEntry): string {
  const length = `${(entry.end - entry.start).toFixed(1)} s`;
  switch (entry.kind) {
    case 'play':
      return `PLAY ${entry.text} (${length})${entry.under ? ', speak over it' : ''}`;
    case 'say':
      return `SAY${entry.over ? ' over it' : ''} (${length}${entry.measured ? '' : ', estimated'})`;
    case 'ask':
      return `ASK (${length}${entry.measured ? '' : ', estimated'})`;
    case 'answer':
      return `ANSWER (${length}${entry.measured ? '' : ', estimated'})`;
    case 'think':
      return `WAIT ${length} for the answer`;
    case 'wait':
      return `WAIT ${length}`;
  }
}

const wordsOf = (entry: RunningOrderEntry): readonly string[] =>
  entry.kind === 'say' || entry.kind === 'ask' || entry.kind === 'answer'
    ? entry.text.split(/\n\s*\n/u).map(paragraph => `> ${paragraph.replace(/\s+/gu, ' ').trim()}`)
    : [];

/**
 * The script from which an educator speaks or records the lesson: every cue with its time, what is played with its bars, and the words.
 * Markdown, readable as plain text.
 */
export function speakingScript(lesson: Lesson, timeline: Timeline): string {
  const order = runningOrder(lesson, timeline);
  const lines = [
    `# ${lesson.title}`,
    '',
    `Length ${clockTime(timeline.seconds)}. Pace ${String(lesson.narrator.pace)} words a minute.`,
  ];
  for (const step of timeline.steps) {
    const bars = lesson.steps[step.index]?.bars;
    lines.push('', `## ${String(step.index + 1)}. ${step.title}`, '');
    lines.push(
      `${clockTime(step.start)} to ${clockTime(step.end)}${bars === undefined ? '' : `, ${barsText(bars)}`}`,
    );
    for (const entry of order.filter(other => other.step === step.index)) {
      lines.push('', `**${clockTime(entry.start)}** ${cue(entry)}`);
      for (const words of wordsOf(entry)) lines.push('', words);
    }
  }
  return `${lines.join('\n')}\n`;
}
