import { nativeTones, printKey, relativeOf, sameKey } from '../../harmony/index.js';
import type { Key, KeyArea } from '../../harmony/index.js';
import { compare, isBefore, pitchClassOf } from '../../score/index.js';
import type { Predicate } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import type { ClaimContext, Evidence, Range } from '../model.js';
import { liesIn } from '../segments.js';
import type { Span } from '../subjects/span.js';
import type { KeyRef } from '../terms/key-reference.js';
import type { Codes } from './judged.js';

/** The key of a passage, and what becomes of it. */
export interface KeySays {
  readonly what: 'is in' | 'begins in' | 'ends in' | 'stays in' | 'modulates to' | 'tonicizes';
  readonly key: KeyRef;
  /** The key that a modulation is said to leave. */
  readonly from?: Key;
}

/** Codes of the engine's answers about keys. */
export const codes: Codes = { supported: 'C0401', rivalled: 'C0402', open: 'C0403', contradicted: 'C0404' };

/** Passages in one key that share time with a range. */
export const areasIn = (range: Range, context: ClaimContext): readonly KeyArea[] =>
  context.analysis.keyAreas.filter(
    area => isBefore(area.start, range.end) && isBefore(range.start, area.end),
  );

/** The first notes of a range that are foreign to a key and native to another: what a listener notices. */
export function newNotes(range: Range, old: Key, now: Key, context: ClaimContext): readonly Evidence[] {
  const before = nativeTones(old);
  const after = nativeTones(now);
  const seen = new Set<number>();
  return context.analysis.score.notes
    .filter(note => !isBefore(note.onset, range.start) && isBefore(note.onset, range.end) && !note.grace)
    .filter(note => {
      const tone = pitchClassOf(note.pitch);
      if (before.includes(tone) || !after.includes(tone) || seen.has(tone)) return false;
      seen.add(tone);
      return true;
    })
    .map(note =>
      noteEvidence('supports', note, `native to ${printKey(now)}, not to ${printKey(old)}`, context),
    );
}

/** A question about the key of a place. */
export interface Asked {
  readonly span: Span;
  readonly key: Key;
  readonly context: ClaimContext;
  readonly make: (says: KeySays) => Predicate<Span>;
}

/** What could be said of the keys of the passage instead. */
export function alternatives({ span, key, context, make }: Asked): readonly Predicate<Span>[] {
  const areas = areasIn(span.range, context);
  const arrivals = areas.slice(1).map(area => make({ what: 'modulates to', key: area.key }));
  const keys = areas.map(area => make({ what: 'is in', key: area.key }));
  return [
    make({ what: 'tonicizes', key }),
    ...(arrivals.length === 0 ? keys : arrivals),
    ...keys,
    make({ what: 'is in', key: relativeOf(key) }),
  ];
}

/** Cadences that confirm a key within a range or at its end. */
export const cadencesIn = (area: Range, key: Key, context: ClaimContext) =>
  context.analysis.cadences.filter(
    cadence =>
      sameKey(cadence.key, key) &&
      (cadence.kind === 'perfect authentic' ||
        cadence.kind === 'imperfect authentic' ||
        cadence.kind === 'half') &&
      (liesIn(cadence.onset, area) || compare(cadence.onset, area.end) === 0),
  );
