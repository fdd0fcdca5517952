import { html } from '../player/index.js';
import { withAccidentals } from '../timeline/index.js';
import type { VerdictWord } from '../claims/index.js';
import type { Checked, Fix, TextClaim, TextFinding } from './checked.js';
import { inQuotes } from './in-quotes.js';

export interface VerdictPane {
  readonly element: HTMLElement;
  readonly show: (checked: Checked) => void;
  /** Marks the claim at an offset of the text. */
  readonly mark: (at: number) => void;
}

export interface VerdictPaneHandlers {
  readonly goTo: (from: number, to: number) => void;
  readonly mend: (fix: Fix) => void;
  /** The cursor has come to a claim. */
  readonly look: (claim: TextClaim) => void;
}

const words: readonly VerdictWord[] = ['fails', 'undecided', 'arguable', 'holds'];

/** How many claims there are of each verdict, and how many were set aside or got none; those are named only where there are any. */
function countsOf(claims: readonly TextClaim[]): readonly string[] {
  const count = (matches: (claim: TextClaim) => boolean): number => claims.filter(matches).length;
  const stands = (word: VerdictWord): number =>
    count(({ verdict, accepted, isJudged }) => isJudged && !accepted && verdict === word);
  const [aside, unjudged] = [count(({ accepted }) => accepted), count(({ isJudged }) => !isJudged)];
  return [
    ...words.map(word => `${String(stands(word))} ${word}`),
    ...(aside === 0 ? [] : [`${String(aside)} set aside`]),
    ...(unjudged === 0 ? [] : [`${String(unjudged)} not checked`]),
  ];
}

/** A claim without a verdict is always shown; a finding says why. */
const isShown = ({ verdict, isJudged }: TextClaim, hidden: ReadonlySet<VerdictWord>): boolean =>
  !isJudged || !hidden.has(verdict);

/** Errors that no claim in the list tells of. */
const errorsOutside = ({ findings, claims }: Checked): readonly TextFinding[] =>
  findings.filter(
    ({ severity, code, from, to }) =>
      severity === 'error' &&
      !claims.some(claim => claim.code === code && claim.from <= from && to <= claim.to),
  );

/** What stands in a row and does not move with the text. */
const rowWords = ({
  step,
  text,
  verdict,
  reason,
  help,
  nearest,
  fix,
  accepted,
}: TextClaim): readonly unknown[] => [step, text, verdict, reason, help, nearest, fix?.words, accepted];

/** The help of a finding; none where a button says it all. */
const adviceOf = ({ help, fix }: Pick<TextFinding, 'help' | 'fix'>): string | undefined =>
  help === undefined || (fix !== undefined && /`\??$/u.test(help)) ? undefined : inQuotes(help);

/** Everything that is shown of a text, apart from where it stands. Errors keep their places, so that each leads to its own. */
const wordsOf = (checked: Checked): string =>
  JSON.stringify([
    checked.isRead,
    checked.steps.map(({ title }) => title),
    checked.claims.map(rowWords),
    errorsOutside(checked),
  ]);

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
  /** What stands in the list. */
  let drawn = '';
  /** The claim at the cursor, by its name. */
  let looked: string | undefined;
  let entries: readonly { readonly claim: TextClaim; readonly row: HTMLElement }[] = [];

  /** A row that leads to its place in the text, and under it the change that mends what it tells of. */
  const row = (
    kind: string,
    lines: readonly (readonly [kind: string, words: string])[],
    proposed: string | undefined,
    press: (what: 'go' | 'mend') => void,
  ): readonly HTMLElement[] => {
    const button = html(
      'button',
      { type: 'button', class: `claim-row is-${kind}` },
      ...lines.map(([name, words]) => html('span', { class: name }, words)),
    );
    button.addEventListener('click', () => {
      press('go');
    });
    if (proposed === undefined) return [button];
    const write = html('button', { type: 'button', class: 'write' }, `write: ${proposed}`);
    write.addEventListener('click', () => {
      press('mend');
    });
    return [button, write];
  };

  /** @param position the claim's place among those that are shown */
  const claimRow = (claim: TextClaim, position: number): HTMLElement => {
    const { verdict, text, reason, nearest, fix, isJudged } = claim;
    const more = isJudged ? nearest && `nearest: ${withAccidentals(nearest)}` : adviceOf(claim);
    const lines: readonly (readonly [string, string])[] = [
      ['verdict', outcomeOf(claim)],
      ['sentence', withAccidentals(text)],
      ...(verdict === 'holds' ? [] : [['reason', withAccidentals(inQuotes(reason))] as const]),
      ...(more === undefined || (isJudged && fix !== undefined) ? [] : [['more', more] as const]),
    ];
    return html(
      'li',
      {},
      ...row(isJudged ? verdict : 'unjudged', lines, fix && withAccidentals(fix.words), what => {
        const now = entries[position]?.claim;
        if (now === undefined) return;
        if (what === 'go') handlers.goTo(now.from, now.to);
        else if (now.fix !== undefined) handlers.mend(now.fix);
      }),
    );
  };

  const errorRow = (finding: TextFinding): HTMLElement => {
    const { message, from, to, fix } = finding;
    const advice = adviceOf(finding);
    const lines: readonly (readonly [string, string])[] = [
      ['verdict', 'error'],
      ['sentence', inQuotes(message)],
      ...(advice === undefined ? [] : [['more', advice] as const]),
    ];
    return html(
      'li',
      {},
      ...row('error', lines, fix?.words, what => {
        if (what === 'go') handlers.goTo(from, to);
        else if (fix !== undefined) handlers.mend(fix);
      }),
    );
  };

  const draw = (): void => {
    if (shown === undefined) return;
    const { claims, steps, findings, isRead } = shown;
    const open = claims
      .filter(claim => isShown(claim, hidden))
      .map((claim, position) => ({ claim, row: claimRow(claim, position) }));
    entries = open;
    const errors = findings.filter(({ severity }) => severity === 'error').length;
    counts.textContent = [
      ...(isRead ? countsOf(claims) : ['the lesson cannot be read yet']),
      ...(errors === 0
        ? []
        : [errors === 1 ? '1 error in the text' : `${String(errors)} errors in the text`]),
    ].join(' · ');
    drawn = wordsOf(shown);
    looked = undefined;
    const outside = errorsOutside(shown);
    list.replaceChildren(
      ...(outside.length === 0 ? [] : [html('ul', { class: 'claims' }, ...outside.map(errorRow))]),
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
      const isSame = drawn === wordsOf(checked);
      shown = checked;
      counts.title = `checked in ${checked.took.toFixed(0)} ms`;
      if (isSame) {
        // Most keys change no verdict: then only the places in the text have moved.
        const visible = checked.claims.filter(claim => isShown(claim, hidden));
        entries = entries.flatMap(({ row: item }, position) => {
          const claim = visible[position];
          return claim === undefined ? [] : [{ claim, row: item }];
        });
      } else draw();
    },
    mark: at => {
      let here: TextClaim | undefined;
      for (const { claim, row: item } of entries) {
        const isHere = claim.from <= at && at <= claim.to;
        item.classList.toggle('is-here', isHere);
        if (!isHere) continue;
        here = claim;
        if (nameOf(claim) !== looked) item.scrollIntoView({ block: 'nearest' });
      }
      const name = here === undefined ? undefined : nameOf(here);
      if (here !== undefined && name !== looked) handlers.look(here);
      looked = name;
    },
  };
}

function outcomeOf({ verdict, accepted, isJudged }: TextClaim): string {
  if (!isJudged) return 'not checked';
  return accepted ? `${verdict}, set aside` : verdict;
}

/** Tells one claim from another while their places move. */
const nameOf = ({ step, text }: TextClaim): string => `${String(step)} ${text}`;
