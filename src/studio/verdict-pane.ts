import { html } from '../player/index.js';
import type { VerdictWord } from '../claims/index.js';
import type { Checked, TextClaim } from './checked.js';

export interface VerdictPane {
  readonly element: HTMLElement;
  readonly show: (checked: Checked) => void;
  /** Marks the claim at an offset of the text. */
  readonly mark: (at: number) => void;
}

export interface VerdictPaneHandlers {
  readonly goTo: (from: number, to: number) => void;
  /** The cursor has come to a claim. */
  readonly look: (claim: TextClaim) => void;
}

const words: readonly VerdictWord[] = ['fails', 'undecided', 'arguable', 'holds'];

/** Every claim with its verdict, step by step; the kinds of verdict can be left out one by one. */
export function verdictPane(handlers: VerdictPaneHandlers): VerdictPane {
  const list = html('div', { class: 'verdicts' });
  const counts = html('p', { class: 'counts', role: 'status' });
  const filter = html(
    'fieldset',
    { class: 'filter' },
    html('legend', { class: 'visually-hidden' }, 'Show claims that'),
  );
  const hidden = new Set<VerdictWord>();
  let shown: Checked | undefined;
  /** The claim at the cursor. */
  let looked: TextClaim | undefined;
  let entries: readonly { readonly claim: TextClaim; readonly row: HTMLElement }[] = [];

  const row = (claim: TextClaim): HTMLElement => {
    const button = html(
      'button',
      { type: 'button', class: `claim-row is-${claim.verdict}` },
      html('span', { class: 'verdict' }, claim.accepted ? `${claim.verdict}, set aside` : claim.verdict),
      html('span', { class: 'sentence' }, claim.text),
      ...(claim.verdict === 'holds' ? [] : [html('span', { class: 'reason' }, claim.reason)]),
      ...(claim.nearest === undefined
        ? []
        : [html('span', { class: 'nearest' }, `nearest: ${claim.nearest}`)]),
    );
    button.addEventListener('click', () => {
      handlers.goTo(claim.from, claim.to);
    });
    return html('li', {}, button);
  };

  const draw = (): void => {
    if (shown === undefined) return;
    const { claims, steps, findings, took, isRead } = shown;
    const open = claims
      .filter(({ verdict }) => !hidden.has(verdict))
      .map(claim => ({ claim, row: row(claim) }));
    entries = open;
    const errors = findings.filter(({ severity }) => severity === 'error').length;
    counts.textContent = [
      ...(isRead
        ? words.map(word => `${String(claims.filter(({ verdict }) => verdict === word).length)} ${word}`)
        : ['the lesson cannot be read yet']),
      ...(errors === 0
        ? []
        : [errors === 1 ? '1 error in the text' : `${String(errors)} errors in the text`]),
    ].join(' · ');
    counts.title = `checked in ${took.toFixed(0)} ms`;
    list.replaceChildren(
      ...findings
        .filter(({ severity }) => severity === 'error')
        .map(({ message, help, from, to }) => {
          const button = html(
            'button',
            { type: 'button', class: 'claim-row is-error' },
            html('span', { class: 'verdict' }, 'error'),
            html('span', { class: 'sentence' }, message),
            ...(help === undefined ? [] : [html('span', { class: 'reason' }, help)]),
          );
          button.addEventListener('click', () => {
            handlers.goTo(from, to);
          });
          return button;
        }),
      ...steps.flatMap(({ title }, index) => {
        const rows = open.filter(({ claim }) => claim.step === index).map(({ row: item }) => item);
        return rows.length === 0
          ? []
          : [html('h2', {}, `${String(index + 1)}. ${title}`), html('ul', { class: 'claims' }, ...rows)];
      }),
    );
  };
  for (const word of words) {
    const box = html('input', { type: 'checkbox', checked: true });
    box.addEventListener('change', () => {
      if (box.checked) hidden.delete(word);
      else hidden.add(word);
      draw();
    });
    filter.append(html('label', {}, box, ` ${word}`));
  }
  return {
    element: html('section', { class: 'pane verdict-pane', 'aria-label': 'Verdicts' }, counts, filter, list),
    show: checked => {
      shown = checked;
      draw();
    },
    mark: at => {
      let here: TextClaim | undefined;
      for (const { claim, row: item } of entries) {
        const isHere = claim.from <= at && at <= claim.to;
        item.classList.toggle('is-here', isHere);
        if (!isHere) continue;
        here = claim;
        if (claim !== looked) item.scrollIntoView({ block: 'nearest' });
      }
      if (here !== undefined && here !== looked) handlers.look(here);
      looked = here;
    },
  };
}
