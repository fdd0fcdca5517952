import type { Lesson } from '../lesson/index.js';
import { barsText, runningOrder } from '../timeline/index.js';
import type { RunningOrderEntry, Timeline } from '../timeline/index.js';
import { clockTime } from './time-code.js';

const lengthOf = (entry: RunningOrderEntry): string => `${(entry.end - entry.start).toFixed(1)} s`;

const spoken = (what: string, entry: Extract<RunningOrderEntry, { readonly id: string }>): string =>
  `${what} (${lengthOf(entry)}${entry.measured ? '' : ', estimated'}), take ${entry.id}`;

function cue(entry: RunningOrderEntry): string {
  switch (entry.kind) {
    case 'play':
      return `PLAY ${entry.text} (${lengthOf(entry)})${entry.under ? ', speak over it' : ''}`;
    case 'say':
      return spoken(entry.over ? 'SAY over it' : 'SAY', entry);
    case 'ask':
      return spoken('ASK', entry);
    case 'answer':
      return spoken('ANSWER', entry);
    case 'think':
      return `WAIT ${lengthOf(entry)} for the answer`;
    case 'wait':
      return `WAIT ${lengthOf(entry)}`;
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
    '',
    'A recording of the words at `take 1.1` is named `1.1.wav` or `1.1.mp3` and lies in the folder `takes` beside the lesson.',
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
