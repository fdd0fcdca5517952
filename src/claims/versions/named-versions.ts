import type { Claim } from '../claim.js';

function collect(content: unknown, into: Set<string>): void {
  if (typeof content !== 'object' || content === null) return;
  for (const [key, value] of Object.entries(content)) {
    if ((key === 'version' || key === 'differsFrom') && typeof value === 'string') into.add(value);
    else collect(value, into);
  }
}

/** The other versions of the piece that a claim speaks of, by the names that `ClaimContext.versions` needs. */
export function namedVersions(claim: Claim): readonly string[] {
  const names = new Set<string>();
  collect(claim.content, names);
  return [...names];
}
