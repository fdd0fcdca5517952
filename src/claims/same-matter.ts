import { compare } from '../score/index.js';
import type { Claim } from './claim.js';
import type { ClaimContext, Range } from './model.js';
import { isPlace } from './place/place-in.js';
import type { Place } from './place/place.js';
import { isResolved, resolvePlace } from './place/resolve.js';

/**
 * Matters of which a place has one only: a chord that is named so is not named otherwise. Several notes, several non-chord tones and
 * several motions of the voices stand beside each other without harm.
 */
const matterOfFamily: Readonly<Record<string, string>> = {
  chord: 'chord',
  numeral: 'chord',
  'chord within a place': 'chord',
  key: 'key',
  cadence: 'cadence',
  function: 'function',
};

interface Matter {
  readonly matter: string;
  readonly place: Place;
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null;

/** What the content of a plain sentence about a place speaks of; nothing for a denial, a comparison or a line. */
function matterOf(
  { content }: Claim,
  families: Readonly<Record<string, string>> = matterOfFamily,
): Matter | undefined {
  if (!isRecord(content) || (isRecord(content['what']) && 'not' in content['what'])) return undefined;
  const { subject, quantity, says } = content;
  const place = isRecord(quantity) ? quantity['place'] : subject;
  const matter = typeof says === 'string' ? families[says] : undefined;
  return matter === undefined || !isPlace(place) ? undefined : { matter, place };
}

function rangeOf(place: Place, context: ClaimContext): Range | undefined {
  const resolved = resolvePlace(place, context);
  return isResolved(resolved) ? resolved.range : undefined;
}

const contains = (outer: Range, inner: Range): boolean =>
  compare(outer.start, inner.start) <= 0 && compare(inner.end, outer.end) <= 0;

/**
 * Whether two claims answer the same question about the same notes, so that both cannot be true unless they say the same: the chord, the
 * key or the function of a place that `other` speaks of as a whole, or the cadence that one of them finds within the other's place.
 */
export function areOfSameMatter(one: Claim, other: Claim, context: ClaimContext): boolean {
  return (other.parts ?? [other]).some(part => {
    const [a, b] = [matterOf(one), matterOf(part)];
    if (a === undefined || b === undefined || a.matter !== b.matter) return false;
    const [inner, outer] = [rangeOf(a.place, context), rangeOf(b.place, context)];
    if (inner === undefined || outer === undefined) return false;
    return contains(outer, inner) || (a.matter === 'cadence' && contains(inner, outer));
  });
}

/** What is in a stretch where it is in a part of it: a cadence, a sequence, a pedal; what a chord or a key is said to be speaks of the whole. */
const found = new Set(['cadence', 'sequence', 'pedal']);

interface Finding {
  readonly place: Place;
  readonly says: string;
  /** Everything said of it but whether the place is it or has it. */
  readonly what: readonly (readonly [string, string])[];
}

function findingOf({ content }: Claim): Finding | undefined {
  if (!isRecord(content)) return undefined;
  const { subject, says, what } = content;
  if (typeof says !== 'string' || !found.has(says) || !isPlace(subject) || !isRecord(what) || 'not' in what)
    return undefined;
  const said = Object.entries(what).filter(([name]) => name !== 'how');
  return { place: subject, says, what: said.map(([name, value]) => [name, JSON.stringify(value)]) };
}

/**
 * Whether `other` says where in the place of `one` it is that `one` finds there, and no less about it: that bar 12 is a Phrygian half
 * cadence says of bars 9-12 that they have one.
 */
export function findsWithin(one: Claim, other: Claim, context: ClaimContext): boolean {
  const whole = findingOf(one);
  if (whole === undefined) return false;
  return (other.parts ?? [other]).some(each => {
    const part = findingOf(each);
    if (part?.says !== whole.says) return false;
    const [outer, inner] = [rangeOf(whole.place, context), rangeOf(part.place, context)];
    return (
      outer !== undefined &&
      inner !== undefined &&
      contains(outer, inner) &&
      whole.what.every(([name, value]) => part.what.some(([at, said]) => at === name && said === value))
    );
  });
}

/** What a claim about a chord, a key or a cadence may back: also other names of the chord than would contradict it. */
const backed: Readonly<Record<string, string>> = {
  chord: 'chord',
  numeral: 'chord',
  'named chord': 'chord',
  'applied chord': 'chord',
  'six-four': 'chord',
  'chord within a place': 'chord',
  key: 'key',
  cadence: 'cadence',
};
/** What says all of it. */
const backing: Readonly<Record<string, string>> = {
  chord: 'chord',
  numeral: 'chord',
  key: 'key',
  cadence: 'cadence',
};
/** Cadences that are more exactly what a shorter name says. */
const shorterNames: Readonly<Record<string, readonly string[]>> = {
  'perfect authentic': ['perfect', 'authentic'],
  'imperfect authentic': ['imperfect', 'authentic'],
  'Phrygian half': ['half'],
};

const whatOf = ({ content }: Claim, detail: string): unknown =>
  isRecord(content) && isRecord(content['what']) ? content['what'][detail] : undefined;

/** Whether a claim names its cadence no less exactly than words do. */
function namesAsMuch(claim: Claim, words: Claim): boolean {
  const [name, said] = [claim, words].map(each => whatOf(each, 'name'));
  return (
    name === said || (typeof name === 'string' && shorterNames[name]?.some(each => each === said) === true)
  );
}

/** What words seem to say, also of another place than theirs. */
export interface Said {
  readonly claim: Claim;
  readonly of?: (place: Place) => Claim | undefined;
}

/**
 * Whether the place of a claim that holds is what words about a chord, a key or a cadence are true of: `a secondary dominant`, said of bars 3-4,
 * of which the claim is that bar 4 is V65/IV.
 */
export function isBackedBy(said: Said, other: Claim, context: ClaimContext): boolean {
  const words = matterOf(said.claim, backed);
  const range = words === undefined ? undefined : rangeOf(words.place, context);
  if (words === undefined || range === undefined) return false;
  return (other.parts ?? [other]).some(part => {
    const matter = matterOf(part, backing);
    const within = matter === undefined ? undefined : rangeOf(matter.place, context);
    if (matter === undefined || within === undefined || matter.matter !== words.matter) return false;
    if (matter.matter === 'cadence' && !namesAsMuch(part, said.claim)) return false;
    // A key lasts: what is in G major is so in all its parts.
    const isSameKey = JSON.stringify(whatOf(part, 'key')) === JSON.stringify(whatOf(said.claim, 'key'));
    if (matter.matter === 'key' && isSameKey && contains(within, range)) return true;
    const there = contains(range, within)
      ? said.of?.(matter.place)
      : contains(within, range)
        ? said.claim
        : undefined;
    return there?.check({ ...context, probing: true }).verdict === 'holds';
  });
}
