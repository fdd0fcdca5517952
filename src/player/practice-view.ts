import type { PageClaim, PageEvidence } from '../timeline/index.js';
import { answerForm, harmonyHint } from './answer-form.js';
import { claimNote } from './claim-note.js';
import { html } from './dom.js';
import type { Judgement } from './judge.js';
import type { PracticeQuestion } from './practice-questions.js';
import { reception } from './question-view.js';
import { revealAnswer } from './reveal.js';
import { fileName, saveText } from './save-text.js';

export type PracticeRange = 'step' | 'piece';

export interface PracticeHandlers {
  readonly questions: (range: PracticeRange) => readonly PracticeQuestion[];
  readonly judge: (question: PracticeQuestion, entry: string) => Judgement;
  /** The question that stands now; its bar is shown. */
  readonly onQuestion: (question: PracticeQuestion | undefined) => void;
  readonly listen: (question: PracticeQuestion) => void;
  readonly showEvidence: (evidence: readonly PageEvidence[]) => void;
  readonly leave: () => void;
}

export interface PracticeView {
  readonly element: HTMLElement;
  readonly begin: () => void;
}

interface Result {
  readonly question: PracticeQuestion;
  readonly given: string;
  readonly tries: number;
  readonly right: boolean;
  /** The reading was shown before it was found. */
  readonly shown: boolean;
}

/** Bar by bar without labels: the student writes the harmony, the notes judge it. */
export function practiceView(title: string, handlers: PracticeHandlers): PracticeView {
  let range: PracticeRange = 'step';
  let questions: readonly PracticeQuestion[] = [];
  let results: readonly Result[] = [];
  let at = 0;
  let tries = 0;
  let last = '';
  let right = false;
  let shown = false;

  const button = (label: string, press: () => void): HTMLButtonElement => {
    const made = html('button', { type: 'button' }, label);
    made.addEventListener('click', press);
    return made;
  };
  const ranges = (['step', 'piece'] as const).map(value => {
    const input = html('input', { type: 'radio', name: 'practice-range', value, checked: value === range });
    input.addEventListener('change', () => {
      range = value;
      start();
    });
    return html('label', {}, input, value === 'step' ? ' This step' : ' The whole piece');
  });
  const heading = html('h2', { tabindex: -1 });
  const count = html('p', { class: 'about' });
  const feedback = html('div', { class: 'feedback', 'aria-live': 'polite' });
  const form = answerForm('Which harmony is it?', harmonyHint, entry => {
    const question = questions[at];
    if (question === undefined) return;
    const judgement = handlers.judge(question, entry);
    if (judgement.kind === 'unread') {
      feedback.replaceChildren(html('p', {}, judgement.help));
      return;
    }
    // What is tried after the answer was shown does not change the record.
    if (!right && !shown) {
      tries += 1;
      last = entry;
      right = judgement.right;
    }
    tell(reception(judgement), judgement.claim);
  });
  const listen = button('Listen', () => {
    const question = questions[at];
    if (question !== undefined) handlers.listen(question);
  });
  const next = button('Next', () => {
    goOn();
  });
  const showAnswer = button('Show the answer', () => {
    const question = questions[at];
    if (question === undefined) return;
    shown = !right;
    feedback.replaceChildren(html('p', {}, `It is read as ${question.reading}.`));
    bringIntoView();
  });
  const save = button('Save as text', () => {
    saveText(fileName(title, 'practice'), practiceText(title, results));
  });
  const again = button('Once more', () => {
    start();
  });
  const leave = button('Back to the lesson', handlers.leave);
  const list = html('ol', {});

  function tell(start: string, claim: PageClaim): void {
    const question = questions[at];
    feedback.replaceChildren(html('p', {}, html('strong', {}, `${start}.`)), claimNote(claim));
    handlers.showEvidence(claim.evidence);
    if (right && question !== undefined) feedback.append(html('p', {}, `It is read as ${question.reading}.`));
    bringIntoView();
  }

  function bringIntoView(): void {
    const scroller = feedback.closest('.words');
    if (scroller !== null) revealAnswer(scroller, form.element, feedback);
  }

  function goOn(): void {
    const question = questions[at];
    if (question !== undefined) results = [...results, { question, given: last, tries, right, shown }];
    at += 1;
    ask();
  }

  function ask(): void {
    const question = questions[at];
    tries = 0;
    last = '';
    right = false;
    shown = false;
    feedback.replaceChildren();
    handlers.showEvidence([]);
    form.clear();
    const over = question === undefined;
    for (const part of [form.element, listen, next, showAnswer]) part.hidden = over;
    for (const part of [list, again, save]) part.hidden = !over;
    handlers.onQuestion(question);
    if (question === undefined) {
      const found = results.filter(one => one.right).length;
      heading.textContent = 'How it went';
      count.textContent = `${found} of ${results.length} found.`;
      list.replaceChildren(...results.map(result => html('li', {}, resultLine(result))));
      heading.focus();
      return;
    }
    heading.textContent = question.heading;
    count.textContent = `${at + 1} of ${questions.length}`;
    form.focus();
  }

  function start(): void {
    questions = handlers.questions(range);
    results = [];
    at = 0;
    ask();
  }

  return {
    element: html(
      'section',
      { class: 'practice question', 'aria-label': 'Practice' },
      html(
        'fieldset',
        { class: 'practice-range' },
        html('legend', { class: 'visually-hidden' }, 'Bars'),
        ...ranges,
      ),
      html('div', { class: 'practice-head' }, heading, count),
      form.element,
      html('div', { class: 'choices' }, listen, showAnswer, next),
      feedback,
      list,
      html('div', { class: 'choices' }, save, again, leave),
    ),
    begin: start,
  };
}

function resultLine({ question, given, tries, right, shown }: Result): string {
  const answer = given !== '' ? given : shown ? 'answer shown' : 'passed over';
  const verdict = right ? `right${tries > 1 ? ` after ${tries} tries` : ''}` : `read as ${question.reading}`;
  return `${question.heading}: ${answer}; ${verdict}`;
}

/** The results as a text to be kept or handed in. */
const practiceText = (title: string, results: readonly Result[]): string =>
  [
    title,
    `${results.filter(({ right }) => right).length} of ${results.length} harmonies found`,
    '',
    ...results.map(resultLine),
    '',
  ].join('\n');
