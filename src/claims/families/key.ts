import {
  isUnread,
  judgeCadence,
  judgeKey,
  keyOfTarget,
  nativeTones,
  parseRomanNumeral,
  printKey,
  relativeOf,
  sameKey,
} from '../../harmony/index.js';
import type { Key, KeyArea, Segment } from '../../harmony/index.js';
import { add, compare, isBefore, pitchClassOf, subtract } from '../../score/index.js';
import type { Finding, Predicate } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { map, optional, sequence, word } from '../grammar/index.js';
import type { ClaimContext, Evidence, Range } from '../model.js';
import { barAt, momentOf } from '../place/beats.js';
import type { Span } from '../subjects/span.js';
import { keyName } from '../terms/key-name.js';
import { printBeat } from '../terms/number.js';
import { be, printBe, printVerb, verb } from '../terms/verb.js';
import { judged, silence } from './judged.js';
import { liesIn, segmentsIn } from '../segments.js';
import type { Codes } from './judged.js';

/** The key of a passage, and what becomes of it. */
export interface KeySays {
  readonly what: 'is in' | 'stays in' | 'modulates to' | 'tonicizes';
  readonly key: Key;
}

const codes: Codes = { supported: 'C0401', rivalled: 'C0402', open: 'C0403', contradicted: 'C0404' };

const areasIn = (range: Range, context: ClaimContext): readonly KeyArea[] =>
  context.analysis.keyAreas.filter(
    area => isBefore(area.start, range.end) && isBefore(range.start, area.end),
  );

const where = (onset: KeyArea['start'], context: ClaimContext): string => {
  const moment = momentOf(context.analysis.score, onset, context.beatUnit);
  return moment === undefined ? 'there' : `bar ${moment.bar} beat ${printBeat(moment.beat)}`;
};

/** The first notes of a range that are foreign to a key and native to another: what a listener notices. */
function newNotes(range: Range, old: Key, now: Key, context: ClaimContext): readonly Evidence[] {
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

interface Asked {
  readonly span: Span;
  readonly key: Key;
  readonly context: ClaimContext;
  readonly make: (says: KeySays) => Predicate<Span>;
}

/** What could be said of the keys of the passage instead. */
function alternatives({ span, key, context, make }: Asked): readonly Predicate<Span>[] {
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

function checkIsIn(asked: Asked): Finding<Span> {
  const { span, key, context, make } = asked;
  const judgement = judgeKey(context.analysis, { ...span.range, key });
  const { better } = judgement;
  const areas = areasIn(span.range, context);
  // A key of two bars or less that no area of the piece has and no cadence confirms is heard as a degree of the key around it.
  const bar = barAt(context.analysis.score, span.range.start);
  const short =
    bar !== undefined &&
    compare(subtract(span.range.end, span.range.start), add(bar.meter.length, bar.meter.length)) <= 0;
  const passing =
    short &&
    judgement.outcome === 'supported' &&
    areas.every(area => !sameKey(area.key, key)) &&
    cadencesIn(span.range, key, context).length === 0;
  const around = areas[0]?.key;
  return {
    ...judged(judgement, codes, span.range, context),
    ...(passing && around !== undefined
      ? {
          verdict: 'arguable' as const,
          code: 'C0410' as const,
          reason: `${judgement.reason}; no cadence confirms it, so it can also be heard within ${printKey(around)}`,
        }
      : {}),
    instead: () => [
      ...(better === undefined ? [] : [make({ what: 'is in', key: better.key })]),
      ...areasIn(span.range, context).map(area => make({ what: 'is in', key: area.key })),
      make({ what: 'is in', key: relativeOf(key) }),
      ...alternatives(asked),
    ],
  };
}

function checkStaysIn(asked: Asked): Finding<Span> {
  const { span, key, context, make } = asked;
  const finding = checkIsIn(asked);
  const left = areasIn(span.range, context).find(area => !sameKey(area.key, key));
  if (finding.verdict === 'fails' || left === undefined) return finding;
  return {
    ...finding,
    verdict: 'fails',
    code: 'C0405',
    reason: `the music leaves ${printKey(key)}: ${printKey(left.key)} from ${where(left.start, context)}`,
    evidence: newNotes(left, key, left.key, context),
    instead: () => [make({ what: 'is in', key }), ...alternatives(asked)],
  };
}

const cadencesIn = (area: Range, key: Key, context: ClaimContext) =>
  context.analysis.cadences.filter(
    cadence =>
      sameKey(cadence.key, key) &&
      (cadence.kind === 'perfect authentic' ||
        cadence.kind === 'imperfect authentic' ||
        cadence.kind === 'half') &&
      (liesIn(cadence.onset, area) || compare(cadence.onset, area.end) === 0),
  );

function checkModulatesTo(asked: Asked): Finding<Span> {
  const { span, key, context, make } = asked;
  const instead = () => alternatives(asked);
  const areas = context.analysis.keyAreas;
  const at = areas.findIndex(area => sameKey(area.key, key) && liesIn(area.start, span.range));
  const area = areas[at];
  const before = areas[at - 1];
  if (area === undefined || before === undefined) {
    const turn = confirmedTurn(asked);
    if (turn !== undefined) return { ...turn, instead };
    const judgement = judgeKey(context.analysis, { ...span.range, key });
    const already = areasIn(span.range, context).some(each => sameKey(each.key, key));
    return {
      ...judged(judgement, codes, span.range, context),
      verdict: 'fails',
      code: already ? 'C0407' : 'C0404',
      reason: already
        ? `${printKey(key)} is the key before ${span.name} begins`
        : `no new key of ${printKey(key)} begins in ${span.name}`,
      instead: already ? () => [make({ what: 'stays in', key }), make({ what: 'is in', key })] : instead,
    };
  }
  const notes = newNotes(area, before.key, key, context);
  const [cadence] = cadencesIn(area, key, context);
  if (cadence === undefined)
    return {
      verdict: 'arguable',
      code: 'C0406',
      reason: `${printKey(key)} begins in ${where(area.start, context)}, but no cadence confirms it: many would call it a tonicization`,
      evidence: notes,
      instead,
    };
  return {
    verdict: 'holds',
    code: 'C0401',
    reason: `${printKey(before.key)} gives way to ${printKey(key)} in ${where(area.start, context)}, and a ${cadence.kind} cadence in ${where(cadence.onset, context)} confirms it`,
    evidence: notes,
  };
}

/** The first segment of a range that is foreign to one key and native to another. */
const turnTo = (range: Range, old: Key, now: Key, context: ClaimContext): Segment | undefined =>
  segmentsIn(context.analysis, range).find(({ chord }) => {
    const [before, after] = [nativeTones(old), nativeTones(now)];
    return (
      chord.tones.some(tone => !before.includes(tone)) && chord.tones.every(tone => after.includes(tone))
    );
  });

/**
 * A new key that the engine counts as part of the old one, but that a cadence of its own confirms within the range: a modulation all the
 * same (Open Music Theory, Modulation).
 */
function confirmedTurn(asked: Asked): Finding<Span> | undefined {
  const { span, key, context } = asked;
  const [old] = areasIn(span.range, context);
  if (old === undefined || sameKey(old.key, key)) return undefined;
  const turn = turnTo(span.range, old.key, key, context);
  const cadence = judgeCadence(context.analysis, { ...span.range, kind: 'authentic', key });
  if (turn === undefined || cadence.outcome !== 'supported') return undefined;
  // The dominant of the close must not be the only chord of the new key: then it is a tonicization.
  const inside = segmentsIn(context.analysis, span.range);
  const arrival = inside.findLastIndex(({ chord }) => chord.root === key.tonic);
  if (arrival - 1 <= inside.indexOf(turn)) return undefined;
  const after = { start: turn.start, end: span.range.end };
  const settled = judgeKey(context.analysis, { ...after, key });
  if (settled.outcome === 'contradicted') return undefined;
  const fully = settled.outcome === 'supported';
  return {
    verdict: fully ? 'holds' : 'arguable',
    code: fully ? 'C0401' : 'C0402',
    reason: `${turn.roman} in ${where(turn.start, context)} turns from ${printKey(old.key)} to ${printKey(key)}, and an authentic cadence confirms it${fully ? '' : `; ${settled.reason}`}`,
    evidence: newNotes(after, old.key, key, context),
  };
}

/** The key that an applied chord points to, where the segment is one. */
function targetOf(segment: Segment): Key | undefined {
  const numeral = parseRomanNumeral(segment.roman);
  return isUnread(numeral) || numeral.target === undefined
    ? undefined
    : keyOfTarget(numeral.target, segment.key);
}

/** An applied chord of a key and the chord of arrival after it. */
function tonicization(range: Range, key: Key, context: ClaimContext): readonly Segment[] | undefined {
  const { segments } = context.analysis;
  for (const segment of segmentsIn(context.analysis, range)) {
    const target = targetOf(segment);
    if (target === undefined || target.tonic !== key.tonic) continue;
    const after = segments.slice(segments.indexOf(segment) + 1, segments.indexOf(segment) + 4);
    const arrival = after.find(each => each.chord.root === key.tonic && targetOf(each) === undefined);
    if (arrival !== undefined) return [segment, arrival];
  }
  return undefined;
}

function checkTonicizes(asked: Asked): Finding<Span> {
  const { span, key, context, make } = asked;
  const modulation = checkModulatesTo(asked);
  if (modulation.verdict === 'holds')
    return {
      verdict: 'arguable',
      code: 'C0408',
      reason: `it goes further than a tonicization: ${modulation.reason}`,
      evidence: modulation.evidence,
      instead: () => [make({ what: 'modulates to', key })],
    };
  const found = tonicization(span.range, key, context);
  const [applied, arrival] = found ?? [];
  if (applied === undefined || arrival === undefined)
    return {
      verdict: 'fails',
      code: 'C0409',
      reason: `no chord of ${span.name} is applied to ${printKey(key)} and resolves to it`,
      evidence: [],
      instead: () =>
        segmentsIn(context.analysis, span.range).flatMap(segment => {
          const target = targetOf(segment);
          return target === undefined ? [] : [make({ what: 'tonicizes', key: target })];
        }),
    };
  const foreign = applied.chordTones
    .flatMap(id => context.analysis.score.notes[id] ?? [])
    .filter(note => !nativeTones(applied.key).includes(pitchClassOf(note.pitch)));
  return {
    verdict: 'holds',
    code: 'C0401',
    reason: `${applied.roman} in ${where(applied.start, context)} resolves to ${arrival.roman} in ${where(arrival.start, context)}, and no cadence follows in ${printKey(key)}`,
    evidence: foreign
      .slice(0, 4)
      .map(note => noteEvidence('supports', note, `foreign to ${printKey(applied.key)}`, context)),
  };
}

/** Key, modulation and tonicization: claims D1 to D3 of the trade. */
export const keyFamily = family<Span, KeySays>({
  name: 'key',
  examples: [
    'bars 1-4 are in D major',
    'bars 1-4 stay in G major',
    'bars 5-8 modulate to D major',
    'bars 4-5 tonicize A minor',
  ],
  phrases: [
    [
      be,
      map(sequence(word('in'), optional(word('the key of')), keyName), ([, , key]) => ({
        what: 'is in' as const,
        key,
      })),
    ],
    [verb('stays in', 'stay in'), map(keyName, key => ({ what: 'stays in' as const, key }))],
    [verb('remains in', 'remain in'), map(keyName, key => ({ what: 'stays in' as const, key }))],
    [verb('modulates to', 'modulate to'), map(keyName, key => ({ what: 'modulates to' as const, key }))],
    [verb('moves to', 'move to'), map(keyName, key => ({ what: 'modulates to' as const, key }))],
    [verb('tonicizes', 'tonicize'), map(keyName, key => ({ what: 'tonicizes' as const, key }))],
    [verb('tonicises', 'tonicise'), map(keyName, key => ({ what: 'tonicizes' as const, key }))],
  ],
  print: ({ what, key }, form) => {
    const verbs = {
      'is in': `${printBe(form)} in`,
      'stays in': printVerb('stays in', 'stay in', form),
      'modulates to': printVerb('modulates to', 'modulate to', form),
      tonicizes: printVerb('tonicizes', 'tonicize', form),
    };
    return `${verbs[what]} ${printKey(key)}`;
  },
  check: (span, { what, key }, context, make) => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const asked = { span, key, context, make };
    switch (what) {
      case 'is in':
        return checkIsIn(asked);
      case 'stays in':
        return checkStaysIn(asked);
      case 'modulates to':
        return checkModulatesTo(asked);
      case 'tonicizes':
        return checkTonicizes(asked);
    }
  },
});
