import type { Evidence } from '../claims/index.js';

/** How each role of a note is named beside the verdict, in the order in which they are read. */
const roles: readonly { readonly role: Evidence['role']; readonly name: string }[] = [
  { role: 'contradicts', name: 'against' },
  { role: 'missing', name: 'missing' },
  { role: 'set aside', name: 'set aside' },
  { role: 'supports', name: 'for' },
];

/** Places in a line; JSON lists every note. */
const mostPlaces = 3;

/** What the notes of one role say, in lines. */
export interface RoleLines {
  readonly role: Evidence['role'];
  readonly name: string;
  readonly lines: readonly string[];
}

/** The notes of a verdict in words, role by role, those against it first; roles without a note are left out. */
export const evidenceByRole = (evidence: readonly Evidence[]): readonly RoleLines[] =>
  roles
    .map(({ role, name }) => ({ role, name, lines: linesOf(evidence.filter(one => one.role === role)) }))
    .filter(({ lines }) => lines.length > 0);

/** A line for all notes that do the same for the verdict: `G3 B3 (LH, bar 22 beat 2), E4 (LH, bar 22 beat 3): foreign`. */
function linesOf(evidence: readonly Evidence[]): readonly string[] {
  const reasons = new Map<string, Map<string, string[]>>();
  for (const one of evidence) {
    const places = reasons.get(one.why) ?? new Map<string, string[]>();
    reasons.set(one.why, places);
    const place = placeText(one);
    places.set(place, [...(places.get(place) ?? []), one.pitch]);
  }
  return [...reasons].map(([why, places]) => {
    const notes = [...places].map(
      ([place, pitches]) => `${pitches.join(' ')}${place === '' ? '' : ` (${place})`}`,
    );
    const rest = notes.length - mostPlaces;
    const more = rest > 0 ? ` and ${rest} more` : '';
    return `${notes.slice(0, mostPlaces).join(', ')}${more}${why === '' ? '' : `: ${why}`}`;
  });
}

function placeText({ voice, bar, beat }: Evidence): string {
  const moment = [...(bar === '' ? [] : [`bar ${bar}`]), ...(beat === '' ? [] : [`beat ${beat}`])].join(' ');
  return [/^\d+$/.test(voice) ? `voice ${voice}` : voice, moment].filter(part => part !== '').join(', ');
}
