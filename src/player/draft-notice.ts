import { contradictedClaims, withAccidentals } from '../timeline/index.js';
import type { PageClaim, PageData } from '../timeline/index.js';
import { sentence } from './claim-note.js';
import { html } from './dom.js';

/** `2 statements do not agree with the notes`; nothing where all do. */
export function draftWords(data: PageData): string | undefined {
  const count = contradictedClaims(data).length;
  if (count === 0) return undefined;
  return count === 1
    ? 'one statement does not agree with the notes'
    : `${count} statements do not agree with the notes`;
}

/** Tells an author that the lesson is not ready, and which of its statements are left out of the page; nothing where it is. */
export function draftNotice(data: PageData): readonly HTMLElement[] {
  const words = draftWords(data);
  if (words === undefined) return [];
  return [
    html(
      'details',
      { class: 'draft' },
      html('summary', {}, html('strong', {}, 'Draft: '), words),
      html(
        'p',
        {},
        'What fails is not shown as a statement of the lesson. This note goes when it is mended, or kept with a reason.',
      ),
      html('ul', {}, ...contradictedClaims(data).map(item)),
    ),
  ];
}

function item({ path, text, reason, nearest }: PageClaim): HTMLElement {
  const step = Number(/^steps\/(\d+)/.exec(path)?.[1] ?? 0) + 1;
  const said = nearest === undefined ? '' : ` What the notes say: ${withAccidentals(nearest)}.`;
  return html(
    'li',
    {},
    html('a', { href: `#step-${step}` }, `Step ${step}`),
    ': ',
    html('em', {}, withAccidentals(text)),
    `. ${sentence(withAccidentals(reason))}${said}`,
  );
}
