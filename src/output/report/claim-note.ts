import { evidenceByRole } from '../check-evidence.js';
import { withAccidentals } from '../../timeline/index.js';
import { element, text } from './markup.js';
import type { Markup } from './markup.js';
import type { NumberedClaim } from './marks.js';
import { outcomeOf, verdictSign } from './verdict-sign.js';

/** Claims and reasons with real accidentals, as the page of the lesson sets them. */
const set = (words: string): Markup => text(withAccidentals(words));

/** A claim with everything that is said of it. */
export function claimNote(claim: NumberedClaim): Markup {
  const { number, entry, verdict, accepted } = claim;
  const { code, reason, nearest, evidence } = verdict;
  const outcome = outcomeOf(claim);
  const roles = evidenceByRole(evidence).flatMap(({ name, lines }) =>
    lines.map((line, index) => element('dt', {}, index === 0 ? name : '') + element('dd', {}, set(line))),
  );
  return element(
    'li',
    { class: `verdict-note ${outcome}`, id: `claim-${String(number)}` },
    element('a', { class: 'number', href: `#claim-${String(number)}` }, String(number)),
    element(
      'div',
      {},
      element(
        'p',
        { class: 'statement' },
        element('b', {}, set(entry.text)),
        element(
          'span',
          { class: 'verdict' },
          verdictSign(outcome),
          ` ${outcome === 'unjudged' ? 'not checked' : outcome}`,
        ),
      ),
      element('p', { class: 'why' }, set(reason), ' ', element('code', {}, code)),
      outcome === 'holds' || roles.length === 0 ? '' : element('dl', { class: 'evidence' }, ...roles),
      nearest === undefined
        ? ''
        : element('p', { class: 'nearest' }, element('i', {}, 'nearest true statement '), set(nearest)),
      accepted === undefined
        ? ''
        : element('p', { class: 'accepted' }, element('i', {}, 'set aside '), text(accepted)),
    ),
  );
}
