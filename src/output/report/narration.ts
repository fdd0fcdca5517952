import { element } from './markup.js';
import type { Markup } from './markup.js';
import type { NumberedClaim } from './marks.js';
import { outcomeOf } from './verdict-sign.js';

const claimMark = /<span class="claim" data-claim="([^"]*)">|<span\b[^>]*>|<\/span>/g;

/** The narration as its reader made it, safe HTML already: the words of each claim in the tone of its verdict, with its number behind. */
export function linkedNarration(html: Markup, claims: readonly NumberedClaim[]): Markup {
  const byPath = new Map(claims.map(claim => [claim.entry.path, claim]));
  const open: (NumberedClaim | undefined)[] = [];
  return html.replace(claimMark, (tag: string, path: string | undefined) => {
    if (tag !== '</span>') {
      const claim = path === undefined ? undefined : byPath.get(path);
      open.push(claim);
      return claim === undefined ? '<span>' : `<span class="claim ${outcomeOf(claim)}">`;
    }
    const claim = open.pop();
    if (claim === undefined) return tag;
    const number = String(claim.number);
    return (
      tag + element('a', { class: 'ref', href: `#claim-${number}`, 'aria-label': `claim ${number}` }, number)
    );
  });
}
