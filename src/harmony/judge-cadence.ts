import { compare, equals, isBefore, pitchClassOf, printPitchClass } from '../score/index.js';
import type { Fraction } from '../score/index.js';
import { heardIn } from './analyse.js';
import { arrivalsBetween, cadenceSite } from './cadence-site.js';
import type { CadenceSite } from './cadence-site.js';
import { cadenceTraits } from './cadence-traits.js';
import type { CadenceQuestion, Judgement, Witness } from './judgement.js';
import { degreeTone, printKey, sameKey } from './key.js';
import type { Analysis, CadenceKind, Key } from './model.js';
import { allowRespelling, respelledKey } from './respelling.js';
import { segmentAt } from './segment-at.js';

const kinds: readonly CadenceKind[] = [
  'perfect authentic',
  'imperfect authentic',
  'half',
  'deceptive',
  'plagal',
  'evaded',
];

const holdsAs = (site: CadenceSite, kind: CadenceKind, complete = false): boolean =>
  (kind !== 'perfect authentic' || site.sopranoOnTonic) &&
  (kind === 'half' || !site.opens) &&
  site.hasChordsOf(kind, complete && kind === 'half');

/**
 * Why nothing is heard to close where the chords of a cadence stand; `undefined` where it is. Less is asked where the claim points at the beat than
 * where it only names a bar.
 */
function whyOpen(site: CadenceSite, kind: CadenceKind, where: 'beat' | 'bar'): string | undefined {
  if (kind === 'half' && site.leadsTo !== undefined)
    return `but V leads on to ${article(site.leadsTo)} cadence`;
  if (kind === 'half' && site.followsClose) return 'but a phrase has only just closed, in the bar before';
  if (kind === 'half' && site.leadsOn) return 'but V moves straight on to I';
  if (kind === 'half' && site.isOuterTonic) return 'but the piece begins or ends there on its own tonic';
  if (kind.endsWith('authentic') && !site.tonicHeard)
    return 'but another chord than that of the tonic is heard there';
  if (kind.endsWith('authentic') && site.lacksLeadingTone)
    return 'but the seventh degree is lowered before it: without the leading tone there is no dominant';
  if (kind === 'evaded')
    return site.due ? undefined : 'but nothing before it made a close in root position due';
  return site.closure(kind) < cadenceTraits[kind].borders[where]
    ? 'but nothing marks the end of a phrase there'
    : undefined;
}

/** What cadence stands at an onset in a key, if any: the strictest that fits. `complete` as in `CadenceSite.hasChordsOf`. */
function cadenceKindAt(
  analysis: Analysis,
  onset: Fraction,
  key: Key,
  complete = false,
): { readonly kind: CadenceKind; readonly closure: number } | undefined {
  const site = cadenceSite(analysis, onset, key);
  const kind = kinds.find(each => whyOpen(site, each, 'beat') === undefined && holdsAs(site, each, complete));
  return kind === undefined ? undefined : { kind, closure: site.closure(kind) };
}

/**
 * Judges whether a cadence of a kind arrives in a span (or at a moment): the chords before and at the arrival, the bass, the soprano, and
 * whether something closes there. A perfect authentic cadence needs both chords in root position and the tonic in the soprano.
 */
export function judgeCadence(analysis: Analysis, question: CadenceQuestion): Judgement {
  const { key } = question;
  const judgement = judgeAsSpelled(analysis, question);
  if (key === undefined) return judgement;
  const respelled = {
    inKey: key,
    tones: [key.tonic, degreeTone(key, 5)],
    piece: heardIn(analysis).lattice.tables.index,
  };
  return allowRespelling(judgement, respelled, shift =>
    judgeAsSpelled(analysis, { ...question, key: respelledKey(key, shift) }),
  );
}

/**
 * Onsets of a span at which a harmony begins: a chord that stands already arrives no more. Where none begins, V may still come to rest, but nothing
 * else arrives.
 */
function newHarmonies(analysis: Analysis, { start, end, kind }: CadenceQuestion): readonly Fraction[] {
  const onsets = arrivalsBetween(analysis, start, end);
  const begun = onsets.filter(onset => {
    const segment = segmentAt(analysis, onset);
    return segment !== undefined && equals(segment.start, onset);
  });
  return begun.length > 0 || kind !== 'half' ? begun : onsets;
}

function judgeAsSpelled(analysis: Analysis, question: CadenceQuestion): Judgement {
  const key = question.key ?? segmentAt(analysis, question.start)?.key;
  if (key === undefined) return { outcome: 'open', reason: 'nothing sounds there', witnesses: [] };
  const wanted: readonly CadenceKind[] =
    question.kind === 'authentic' ? ['perfect authentic', 'imperfect authentic'] : [question.kind];
  const isSpan = compare(question.start, question.end) !== 0;
  const sites = (
    isSpan ? newHarmonies(analysis, question) : arrivalsBetween(analysis, question.start, question.end)
  ).map(onset => cadenceSite(analysis, onset, key));
  const best = sites
    .flatMap(site => wanted.filter(kind => holdsAs(site, kind, isSpan)).map(kind => ({ site, kind })))
    .reduce<{ readonly site: CadenceSite; readonly kind: CadenceKind } | undefined>(
      (a, b) => (a === undefined || b.site.closure(b.kind) > a.site.closure(a.kind) ? b : a),
      undefined,
    );
  const witnesses = (candidate: CadenceSite | undefined): readonly Witness[] =>
    candidate?.soprano === undefined
      ? []
      : [
          {
            role:
              candidate.sopranoOnTonic || question.kind !== 'perfect authentic' ? 'supports' : 'contradicts',
            note: candidate.soprano.id,
            why: 'soprano at the arrival',
          },
        ];
  const inKey = printKey(key);
  // What the list of cadences has can be claimed: a bare fifth degree after its own dominant, say, that stops a phrase without a third.
  const listed = analysis.cadences.find(
    each =>
      wanted.includes(each.kind) &&
      sameKey(each.key, key) &&
      (question.phrygian !== true || each.phrygian) &&
      compare(each.onset, question.start) >= 0 &&
      (isSpan ? isBefore(each.onset, question.end) : equals(each.onset, question.start)),
  );
  if (listed !== undefined) {
    const site = cadenceSite(analysis, listed.onset, key);
    return {
      outcome: 'supported',
      reason: describe(listed.kind, inKey, site),
      witnesses: witnesses(site),
    };
  }
  if (best !== undefined) {
    const isPerfect = best.kind === 'imperfect authentic' && holdsAs(best.site, 'perfect authentic');
    if (isPerfect && question.kind === 'imperfect authentic') {
      return {
        outcome: 'contradicted',
        reason: `V and I of ${inKey} stand in root position and the soprano closes on the tonic: that is a perfect authentic cadence`,
        witnesses: witnesses(best.site),
      };
    }
    if (question.phrygian === true && !best.site.phrygian) {
      return {
        outcome: 'contradicted',
        reason: `the phrase stops on V of ${inKey}, but iv6 does not come before it: the bass does not step down to the fifth degree by a semitone`,
        witnesses: witnesses(best.site),
      };
    }
    const open = whyOpen(best.site, best.kind, isSpan ? 'bar' : 'beat');
    return {
      outcome: open === undefined ? 'supported' : 'rivalled',
      reason: [describe(best.kind, inKey, best.site), open].filter(part => part !== undefined).join(', '),
      witnesses: witnesses(best.site),
    };
  }
  const opening = sites.find(
    site => site.opens && wanted.some(kind => kind !== 'half' && site.hasChordsOf(kind, false)),
  );
  if (opening !== undefined) {
    return {
      outcome: 'contradicted',
      reason: `a phrase begins there, so that what comes before leads to no close of ${inKey}`,
      witnesses: witnesses(opening),
    };
  }
  const delaying = question.kind === 'half' ? sites.find(({ delays }) => delays) : undefined;
  if (delaying !== undefined) {
    return {
      outcome: 'contradicted',
      reason: `a cadential six-four delays V of ${inKey} there: the half cadence would come with V itself`,
      witnesses: witnesses(delaying),
    };
  }
  // Only the soprano of a perfect authentic cadence can be at fault where the chords are there.
  const unclosed = wanted.includes('perfect authentic')
    ? sites.find(site => site.hasChordsOf('perfect authentic', false))
    : undefined;
  if (unclosed?.soprano !== undefined) {
    return {
      outcome: 'contradicted',
      reason: `the soprano arrives on ${printPitchClass(pitchClassOf(unclosed.soprano.pitch))}, not on the tonic ${printPitchClass(key.tonic)}`,
      witnesses: witnesses(unclosed),
    };
  }
  let other: CadenceKind | undefined;
  for (const site of sites) other ??= cadenceKindAt(analysis, site.onset, key, isSpan)?.kind;
  return {
    outcome: 'contradicted',
    reason:
      other === undefined
        ? `the chords of ${article(question.kind)} cadence in ${inKey} are not there`
        : `the chords there make ${article(other)} cadence in ${inKey}`,
    witnesses: witnesses(sites[0]),
  };
}

const article = (kind: string): string => `${/^[aeiou]/.test(kind) ? 'an' : 'a'} ${kind}`;

function describe(kind: CadenceKind, inKey: string, site: CadenceSite): string {
  switch (kind) {
    case 'perfect authentic':
      return `V and I of ${inKey} in root position, the soprano on the tonic`;
    case 'imperfect authentic':
      return site.soprano !== undefined && site.hasChordsOf('perfect authentic', false)
        ? `V and I of ${inKey} in root position, the soprano on ${printPitchClass(pitchClassOf(site.soprano.pitch))}`
        : `a dominant of ${inKey} moves to its tonic, and not both stand in root position`;
    case 'half':
      return `the phrase stops on V of ${inKey} in root position`;
    case 'deceptive':
      return `V of ${inKey} moves to another chord than the tonic`;
    case 'plagal':
      return `${site.chords.before?.quality === 'minor' ? 'iv' : 'IV'} of ${inKey} moves to ${site.chords.arrival?.quality === 'minor' ? 'i' : 'I'}`;
    case 'evaded':
      return `V of ${inKey} is due to close, but the line is led on`;
  }
}
