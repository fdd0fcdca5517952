import { toNumber } from '../score/index.js';
import { excerptTimeline, type PageData, type PageEvidence } from '../timeline/index.js';
import { excerptInput } from './excerpt-input.js';
import { judgeByScore } from './judge.js';
import type { LessonPlayer } from './lesson-player.js';
import type { Chosen } from './notation/notation-view.js';
import { practiceQuestions } from './practice-questions.js';
import { practiceView } from './practice-view.js';
import { hearingOf, readingOf } from './reading.js';

export interface PracticeParts {
  readonly player: Pick<LessonPlayer, 'playExcerpt' | 'send' | 'progress'>;
  readonly markChosen: (chosen: Chosen | undefined) => void;
  readonly showEvidence: (evidence: readonly PageEvidence[]) => void;
  /** Practice has begun or ended: labels and the lesson's own words go or come back. */
  readonly onChange: (practising: boolean) => void;
}

export interface Practice {
  readonly element: HTMLElement;
  readonly isOn: () => boolean;
  readonly begin: () => void;
}

/** After the first question is drawn, in milliseconds. */
const soon = 100;

/** Practice: all labels hidden, the harmony of bar after bar asked for and judged by the notes. */
export function practice(data: PageData, parts: PracticeParts): Practice {
  let on = false;
  const [score] = data.scores;
  const view = practiceView(data.title, {
    questions: range => {
      const reading = readingOf(data);
      const step = data.steps[parts.player.progress().step];
      if (reading === undefined || step === undefined || score === undefined) return [];
      return range === 'step'
        ? practiceQuestions(data, reading, step.firstBar, step.lastBar)
        : practiceQuestions(data, reading, 0, score.bars.length - 1);
    },
    judge: (question, entry) => judgeByScore(data, question, entry),
    onQuestion: question => {
      parts.markChosen(
        question === undefined
          ? undefined
          : {
              firstBar: question.bar,
              lastBar: question.bar,
              stretch: { from: toNumber(question.part.start), to: toNumber(question.part.end) },
            },
      );
    },
    listen: ({ bar, part }) => {
      const reading = readingOf(data);
      const label = score?.bars[bar]?.label ?? '';
      if (reading === undefined) return;
      const timeline = excerptTimeline(excerptInput(data, reading), {
        first: label,
        last: label,
        as: 'written',
        part,
      });
      if (timeline !== undefined) parts.player.playExcerpt({ name: 'practice', timeline, again: false });
    },
    showEvidence: parts.showEvidence,
    leave: () => {
      on = false;
      view.element.hidden = true;
      parts.showEvidence([]);
      parts.markChosen(undefined);
      parts.onChange(false);
    },
  });
  view.element.hidden = true;
  return {
    element: view.element,
    isOn: () => on,
    begin: () => {
      on = true;
      parts.player.send({ kind: 'pause' });
      view.element.hidden = false;
      parts.onChange(true);
      view.begin();
      // While the student looks and listens, so that the first answer is judged at once.
      setTimeout(() => hearingOf(data), soon);
    },
  };
}
