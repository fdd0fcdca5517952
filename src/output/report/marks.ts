import type { Evidence, EvidenceRole } from '../../claims/index.js';
import type { ReportedClaim } from '../check-report.js';
import { withAccidentals } from '../../timeline/index.js';
import { element, text } from './markup.js';
import type { Markup } from './markup.js';
import type { PlacedSystem } from './placed-system.js';

/** A claim with the number that it has in the report. */
export interface NumberedClaim extends ReportedClaim {
  readonly number: number;
}

/** The sign of a role around a point, told apart by its shape and not by colour alone; a tone that never sounds has none. */
export function roleSign(role: EvidenceRole, x: number, y: number): Markup {
  switch (role) {
    case 'supports':
      return element('circle', { cx: x, cy: y, r: 9 });
    case 'contradicts':
      return element('path', { d: `M${round(x)} ${round(y - 12)}l12 12-12 12-12-12z` });
    case 'set aside':
      return element('circle', { cx: x, cy: y, r: 9, 'stroke-dasharray': '3.5 3' });
    case 'missing':
      return '';
  }
}

const className: Readonly<Record<EvidenceRole, string>> = {
  supports: 'for',
  contradicts: 'against',
  'set aside': 'aside',
  missing: 'missing',
};

/** The notes that decide the claims of a step, marked in a line of the score; those of claims that hold are shown when asked for. */
export function evidenceMarks(system: PlacedSystem, claims: readonly NumberedClaim[]): Markup {
  const groups = claims.map(claim => {
    const notes = claim.verdict.evidence.flatMap(evidence => {
      const head = evidence.note === undefined ? undefined : system.heads.get(evidence.note);
      return head === undefined ? [] : [{ evidence, ...head }];
    });
    if (notes.length === 0) return '';
    const shown = claim.verdict.verdict === 'holds' ? ' asked' : '';
    return element(
      'g',
      { class: `of-${claim.number}${shown}` },
      ...notes.map(({ evidence, x, y }) => mark(evidence, round(x), round(y))),
      shown === '' ? numbers(claim.number, notes) : '',
    );
  });
  return element('g', { class: 'marks' }, ...groups);
}

const mark = ({ role, pitch, why }: Evidence, x: number, y: number): Markup =>
  element(
    'g',
    { class: className[role] },
    roleSign(role, x, y),
    element('title', {}, text(withAccidentals(`${pitch}${why === '' ? '' : `: ${why}`}`))),
  );

/** The number of the claim above the highest of its notes at each moment. */
function numbers(number: number, notes: readonly { readonly x: number; readonly y: number }[]): Markup {
  const highest = new Map<number, { readonly x: number; readonly y: number }>();
  for (const { x, y } of notes) {
    const moment = Math.round(x / 12);
    if (y < (highest.get(moment)?.y ?? Infinity)) highest.set(moment, { x, y });
  }
  return [...highest.values()]
    .map(({ x, y }) =>
      element('text', { x: round(x + 8), y: round(y - 8), 'font-size': 12 }, text(String(number))),
    )
    .join('');
}

const round = (value: number): number => Math.round(value * 10) / 10;
