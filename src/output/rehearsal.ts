import type { Diagnostic } from '../diagnostics/index.js';
import type { Lesson } from '../lesson/index.js';
import { runningOrder } from '../timeline/index.js';
import type { RunningOrderEntry, Timeline } from '../timeline/index.js';
import { clockTime } from './time-code.js';

export interface RehearsalOptions {
  /** Columns of the terminal. */
  readonly width: number;
  /** 1-based number of the only step that is shown. */
  readonly step?: number;
  /** The timeline as it was planned from the number of words, where `timeline` is measured. */
  readonly estimated?: Timeline;
}

const what: Readonly<Record<RunningOrderEntry['kind'], string>> = {
  play: 'play',
  say: 'say',
  ask: 'ask',
  answer: 'answer',
  think: 'think',
  wait: 'wait',
};

function textOf(entry: RunningOrderEntry): string {
  switch (entry.kind) {
    case 'play':
      return `${entry.text}${entry.under ? ', under the words' : ''}`;
    case 'think':
    case 'wait':
      return '';
    case 'say':
    case 'ask':
    case 'answer':
      return entry.text.replace(/\s+/gu, ' ').trim();
  }
}

const isEstimated = (entry: RunningOrderEntry): boolean => 'measured' in entry && !entry.measured;

function line(entry: RunningOrderEntry, width: number): string {
  const length = `${isEstimated(entry) ? '~' : ''}${(entry.end - entry.start).toFixed(1)} s`;
  const over = 'over' in entry && entry.over ? '+ ' : '';
  const head = `    ${clockTime(entry.start).padStart(7)} ${length.padStart(9)}  ${over}${what[entry.kind]}`;
  const whole = `${head} ${textOf(entry)}`.trimEnd();
  return whole.length <= width ? whole : `${whole.slice(0, Math.max(head.length, width - 1))}\u2026`;
}

const share = (part: number, whole: number): string =>
  whole === 0 ? '0 %' : `${((100 * part) / whole).toFixed(0)} %`;

const secondsText = (seconds: number): string => `${seconds.toFixed(1)} s`;

/** ` (planned 27.1 s)`; nothing where there was no plan. */
const planned = (
  plan: { readonly start: number; readonly end: number } | undefined,
  print: (seconds: number) => string,
): string => (plan === undefined ? '' : ` (planned ${print(plan.end - plan.start)})`);

/**
 * The running order as a table for the terminal: when each thing starts and how long it lasts, `~` where the length is estimated from the
 * number of words, `+` where words are spoken over music, what was planned beside what is measured; then the length of the lesson and how much of it is music and talk.
 */
export function rehearsal(lesson: Lesson, timeline: Timeline, options: RehearsalOptions): string {
  const order = runningOrder(lesson, timeline);
  const steps = timeline.steps.filter(step => options.step === undefined || step.index === options.step - 1);
  const lines = steps.flatMap(step => [
    `${String(step.index + 1).padStart(3)}  ${step.title}`,
    `    ${clockTime(step.start).padStart(7)} ${secondsText(step.end - step.start).padStart(9)}  the whole step${planned(options.estimated?.steps[step.index], secondsText)}`,
    ...order.filter(entry => entry.step === step.index).map(entry => line(entry, options.width)),
    '',
  ]);
  const lasting = (kinds: readonly RunningOrderEntry['kind'][]): number =>
    order
      .filter(entry => kinds.includes(entry.kind))
      .reduce((sum, entry) => sum + entry.end - entry.start, 0);
  const whole = planned(options.estimated && { start: 0, end: options.estimated.seconds }, clockTime);
  const about = order.some(isEstimated) ? 'about ' : '';
  const music = share(lasting(['play']), timeline.seconds);
  const talk = share(lasting(['say', 'ask', 'answer']), timeline.seconds);
  lines.push(`the lesson lasts ${about}${clockTime(timeline.seconds)}${whole}: music ${music}, talk ${talk}`);
  return `${lines.join('\n')}\n`;
}

/** What is to be said about a step (1-based number) alone: what stands in another step is left out, what concerns the whole lesson stays. */
export function remarksOnStep(
  lesson: Lesson,
  step: number,
  remarks: readonly Diagnostic[],
): readonly Diagnostic[] {
  const others = lesson.steps.filter((_, index) => index !== step - 1);
  return remarks.filter(
    ({ span }) =>
      span === undefined ||
      !others.some(
        other =>
          other.span.source === span.source && other.span.start <= span.start && span.start < other.span.end,
      ),
  );
}
