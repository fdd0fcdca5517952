import type { PageClaim } from '../timeline/index.js';
import { html } from './dom.js';
import { icon } from './icons.js';
import { reveal } from './reveal.js';
import { withAccidentals } from '../timeline/index.js';

const roles = {
  supports: 'for it',
  contradicts: 'against it',
  'set aside': 'set aside',
  missing: 'missing',
} as const;

/** A reason as a sentence of its own. */
export const sentence = (text: string): string => {
  const trimmed = text.trim();
  const closed = /[.!?]$/.test(trimmed) ? trimmed : `${trimmed}.`;
  return closed.charAt(0).toUpperCase() + closed.slice(1);
};

/** Why a claim holds or not: the verdict in words, the reason, and the notes that decide. */
export function claimNote(claim: PageClaim): HTMLElement {
  const evidence = claim.evidence.map(({ role, pitch, voice, bar, beat, why }) => {
    const named = bar === '0' ? 'pickup' : `bar ${bar}`;
    const place = bar === '' ? '' : `${named}${beat === '' ? '' : `, beat ${beat}`}`;
    // A voice that has no name of its own is called by its number.
    const who = /^\d/.test(voice) ? `voice ${voice}` : voice;
    const where = [who, place].filter(part => part !== '').join(', ');
    return html(
      'li',
      { class: `evidence-item ${role.replace(' ', '-')}` },
      html('span', { class: 'evidence-role' }, roles[role]),
      ' ',
      html('strong', {}, withAccidentals(pitch)),
      [where === '' ? '' : ` (${where})`, why === '' ? '' : `: ${why}`].join(''),
    );
  });
  return html(
    'div',
    { class: `claim-note ${claim.verdict}`, role: 'note' },
    html(
      'p',
      { class: 'claim-verdict' },
      icon(claim.verdict),
      ` ${withAccidentals(claim.text)} `,
      html('span', { class: 'verdict-word' }, claim.verdict),
    ),
    html('p', {}, withAccidentals(sentence(claim.reason))),
    ...(evidence.length === 0 ? [] : [html('ul', {}, ...evidence)]),
    ...(claim.nearest === undefined
      ? []
      : [html('p', {}, 'What the notes say: ', html('em', {}, withAccidentals(claim.nearest)), '.')]),
    ...(claim.accepted === undefined
      ? []
      : [html('p', {}, 'The author keeps it: ', sentence(claim.accepted))]),
  );
}

/** A small mark that opens and closes the note of a claim behind `after`. `onToggle` hears whether it is open now. */
export function claimMark(
  claim: PageClaim,
  after: () => Element,
  onToggle: (open: boolean) => void,
): HTMLButtonElement {
  const mark = html(
    'button',
    {
      type: 'button',
      class: `claim-mark ${claim.verdict}`,
      'aria-expanded': 'false',
      'aria-label': `Why: ${claim.text} (${claim.verdict})`,
    },
    icon(claim.verdict),
  );
  let note: HTMLElement | undefined;
  mark.addEventListener('click', () => {
    if (note === undefined) {
      note = claimNote(claim);
      after().after(note);
      const scroller = note.closest('.words');
      if (scroller !== null) reveal(scroller, note);
    } else {
      note.remove();
      note = undefined;
    }
    mark.setAttribute('aria-expanded', String(note !== undefined));
    onToggle(note !== undefined);
  });
  return mark;
}
