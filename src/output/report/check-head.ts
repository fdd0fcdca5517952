import type { Conventions, EvidenceRole } from '../../claims/index.js';
import { defaultConventions } from '../../claims/index.js';
import { printKey } from '../../harmony/index.js';
import { summarize } from '../check-report.js';
import type { LessonReport } from '../check-report.js';
import { counted } from '../counted.js';
import { element, text } from './markup.js';
import type { Markup } from './markup.js';
import { roleSign } from './marks.js';
import { withAccidentals } from '../../timeline/index.js';
import { verdictSign } from './verdict-sign.js';
import type { Outcome } from './verdict-sign.js';

const words: readonly { readonly word: Outcome; readonly one: string; readonly several: string }[] = [
  { word: 'holds', one: 'holds', several: 'hold' },
  { word: 'arguable', one: 'is arguable', several: 'are arguable' },
  { word: 'undecided', one: 'is undecided', several: 'are undecided' },
  { word: 'fails', one: 'fails', several: 'fail' },
  { word: 'unjudged', one: 'could not be checked', several: 'could not be checked' },
];

/** Title, counts, and what the marks mean. */
export function reportHead(lesson: LessonReport): Markup {
  const { subject, file } = lesson;
  const title = subject?.lesson.title ?? file;
  const piece =
    subject?.score === undefined
      ? ''
      : [subject.score.title, subject.score.composer].filter(part => part !== '').join(', ');
  return element(
    'header',
    { class: 'head' },
    element('p', { class: 'eyebrow' }, 'What the notes say to the lesson'),
    element('h1', {}, text(title)),
    element('p', { class: 'soft' }, text(piece === '' ? file : `${piece} · ${file}`)),
    counts(lesson),
    facts(lesson),
    legend(),
  );
}

function counts(lesson: LessonReport): Markup {
  const summary = summarize([lesson]);
  const verdicts = words.flatMap(({ word, one, several }) =>
    summary[word] === 0
      ? []
      : [
          {
            class: word,
            sign: verdictSign(word),
            count: summary[word],
            noun: summary[word] === 1 ? one : several,
          },
        ],
  );
  return element(
    'ul',
    { class: 'counts' },
    element('li', {}, element('b', {}, text(counted(summary.claims, 'claim')))),
    ...verdicts.map(({ class: name, sign, count, noun }) =>
      element(
        'li',
        { class: name },
        element('span', { class: 'verdict' }, sign, ` ${String(count)}`),
        ` ${noun}`,
      ),
    ),
    summary.accepted === 0 ? '' : element('li', {}, `${String(summary.accepted)} set aside`),
    summary.errors === 0
      ? ''
      : element(
          'li',
          { class: 'fails' },
          element('span', { class: 'verdict' }, counted(summary.errors, 'error')),
        ),
    summary.warnings === 0 ? '' : element('li', {}, counted(summary.warnings, 'warning')),
  );
}

const fact = (name: string, ...value: readonly Markup[]): Markup =>
  value.join('') === '' ? '' : element('dt', {}, text(name)) + element('dd', {}, ...value);

function facts(lesson: LessonReport): Markup {
  const { subject, prose } = lesson;
  if (subject === undefined) return '';
  const narration = [
    `${counted(prose.checked, 'statement')} checked`,
    `${String(prose.unchecked.length)} without a claim`,
    counted(prose.opinions.length, 'opinion'),
  ].join(', ');
  return element(
    'dl',
    { class: 'facts' },
    fact('home', text(withAccidentals(printKey(subject.lesson.home.value)))),
    fact('narration', text(narration)),
  );
}

/** What the verdicts go by, and which files they are about. */
export function reportFoot({ subject }: LessonReport): Markup {
  if (subject === undefined) return '';
  const { lesson, sha256 } = subject;
  return element(
    'footer',
    {},
    element(
      'dl',
      { class: 'facts' },
      fact('conventions', text(inForce(lesson.conventions))),
      fact('lesson, SHA-256', element('span', { class: 'hash' }, text(sha256.lesson))),
      sha256.score === undefined
        ? ''
        : fact('score, SHA-256', element('span', { class: 'hash' }, text(sha256.score))),
    ),
  );
}

/** Every convention with its setting; those that the lesson changes are told. */
function inForce(conventions: Conventions): string {
  const defaults: Readonly<Record<string, string>> = { ...defaultConventions };
  return Object.entries(conventions)
    .map(
      ([name, value]: readonly [string, string]) =>
        `${name}: ${value}${defaults[name] === value ? '' : ' (set by the lesson)'}`,
    )
    .join(', ');
}

const legendRoles: readonly {
  readonly role: EvidenceRole;
  readonly class: string;
  readonly about: string;
}[] = [
  { role: 'contradicts', class: 'against', about: 'a note against the claim' },
  { role: 'supports', class: 'for', about: 'a note for it' },
  { role: 'set aside', class: 'aside', about: 'set aside as a non-chord tone' },
];

/** The marks in the score, and how those of claims that hold are seen. */
function legend(): Markup {
  const items = legendRoles.map(({ role, class: name, about }) =>
    element(
      'li',
      {},
      element(
        'svg',
        { class: 'marks', viewBox: '0 0 28 28', 'aria-hidden': 'true' },
        element('g', { class: name }, roleSign(role, 14, 14)),
      ),
      text(about),
    ),
  );
  return element(
    'ul',
    { class: 'legend' },
    ...items,
    element(
      'li',
      { class: 'on-screen' },
      'the notes of a claim that holds appear when its number is pointed at',
    ),
  );
}
