import type { PageClaim, PageData } from './page-data.js';

/**
 * The claims that the notes contradict and that no reason of the author's keeps. While there are any the page is a draft: it tells its author
 * which they are, and shows none of them as a statement of the lesson.
 */
export const contradictedClaims = ({ claims }: Pick<PageData, 'claims'>): readonly PageClaim[] =>
  claims.filter(({ verdict, accepted }) => verdict === 'fails' && accepted === undefined);
