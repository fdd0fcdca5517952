import { compare } from '../../score/index.js';
import {
  degreeTone,
  isUnread,
  nativeTones,
  parseRomanNumeral,
  printChord,
  printKey,
  romanFor,
  sameKey,
} from '../../harmony/index.js';
import type { Key, Segment } from '../../harmony/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Evidence, VerdictWord } from '../model.js';
import { barAt, endOf } from '../place/beats.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { keyByName } from '../terms/key-name.js';
import { be, printBe } from '../terms/verb.js';
import { silence, noChord } from './judged.js';
import { confirmedTurn } from './key-change.js';
import { liesIn, mainSegment } from '../segments.js';

/** A chord that belongs to two keys and leads from one to the other. */
export interface PivotSays {
  /** Absent where the change of key around the place is meant. */
  readonly from?: Key;
  readonly to?: Key;
}

/** `a pivot chord`, `the pivot chord from B minor to D major`. */
export const pivot: Parser<PivotSays> = map(
  sequence(
    optional(word('the', 'a')),
    word('pivot chord', 'pivot', 'common chord'),
    optional(
      choice(
        map(sequence(word('from'), keyByName, word('to'), keyByName), ([, from, , to]): PivotSays => ({
          from,
          to,
        })),
        map(sequence(word('between'), keyByName, word('and'), keyByName), ([, from, , to]): PivotSays => ({
          from,
          to,
        })),
      ),
    ),
  ),
  ([, , keys]): PivotSays => keys ?? {},
);

/** A plain numeral of the key: no applied chord, every tone native. */
function isDiatonic(tones: readonly number[], key: Key): boolean {
  const native: readonly number[] = nativeTones(key);
  return tones.every(tone => native.includes(tone));
}

/**
 * The dominant seventh of a key: of a relative major it has only tones of the old minor key, where it is VII7 and heard as V7/III (claim C2 of
 * the trade), so that it belongs to the new key all the same.
 */
const isDominantSeventh = ({ chord }: Segment, key: Key): boolean =>
  chord.quality === 'dominant seventh' && chord.root === degreeTone(key, 5);

/** A pivot and the first chord of the new key alone are at most so many segments apart. */
const mostBetween = 4;

/** Within so many bars of its pivot a key that the engine does not list must close. */
const barsToClose = 8;

const isSameTriad = (one: Segment, other: Segment): boolean =>
  one.chord.root === other.chord.root && one.chord.tones[1] === other.chord.tones[1];

/** Whether the music goes over to a key around a chord and stays: what is only tonicized has no pivot. */
function isSettled(segment: Segment, to: Key, context: ClaimContext): boolean {
  const { segments, keyAreas, score } = context.analysis;
  const at = segments.indexOf(segment);
  const from = segments[Math.max(0, at - 2)]?.start ?? segment.start;
  const until = segments[at + mostBetween]?.end ?? segment.end;
  if (keyAreas.some(area => sameKey(area.key, to) && liesIn(area.start, { start: from, end: until })))
    return true;
  const first = barAt(score, segment.start);
  if (first === undefined) return false;
  return score.bars.slice(first.index + 1, first.index + 1 + barsToClose).some(last => {
    const range = { start: first.start, end: endOf(last) };
    const place = { kind: 'bars', first: first.label, last: last.label } as const;
    return confirmedTurn({ span: { range, place, name: '' }, key: to, context }) !== undefined;
  });
}

const evidenceOf = (
  ids: readonly number[],
  why: string,
  role: Evidence['role'],
  context: ClaimContext,
): readonly Evidence[] =>
  ids.slice(0, 4).flatMap(id => {
    const note = context.analysis.score.notes[id];
    return note === undefined ? [] : [noteEvidence(role, note, why, context)];
  });

/** The changes of key that the chord can lead into: the next one, and the one behind it where the new key is read from before it. */
function changesAround(segment: Segment, { analysis: { keyAreas } }: ClaimContext): readonly PivotSays[] {
  const next = keyAreas.findIndex((area, at) => at > 0 && compare(segment.start, area.start) <= 0);
  const own = keyAreas.findLastIndex((area, at) => at > 0 && compare(area.start, segment.start) < 0);
  return [next, own].flatMap(at => {
    const [before, after] = [keyAreas[at - 1], keyAreas[at]];
    return before === undefined || after === undefined ? [] : [{ from: before.key, to: after.key }];
  });
}

/** From the surest to none. */
const surestFirst: readonly VerdictWord[] = ['holds', 'arguable', 'undecided', 'fails'];

/** Whether a chord leads from one key to the other. */
function judge(segment: Segment, { from, to }: PivotSays, context: ClaimContext): Finding<Span> {
  if (from === undefined || to === undefined) return noChord('the place', 'C0103');
  const { segments } = context.analysis;
  const { tones } = segment.chord;
  const numerals = [from, to].map(key => `${romanFor(segment.chord, key)} in ${printKey(key)}`).join(' and ');
  const inOld = isDiatonic(tones, from);
  const inNew = isDiatonic(tones, to);
  const at = segments.indexOf(segment);
  // A chromatic chord of the new key, such as its Neapolitan, belongs to it as well.
  const isOfNewAlone = (each: Segment): boolean =>
    isDominantSeventh(each, to) ||
    (!isDiatonic(each.chord.tones, from) && (isDiatonic(each.chord.tones, to) || sameKey(each.key, to)));
  const ahead = segments.slice(at + 1, at + 1 + mostBetween);
  const next = ahead.find(isOfNewAlone);
  // V of which the seventh comes a beat later is the dominant seventh all the same.
  const isDominant = isDominantSeventh(segment, to) || (next !== undefined && isSameTriad(next, segment));
  const already = segments
    .slice(Math.max(0, at - 2), at)
    .find(each => sameKey(each.key, to) && isOfNewAlone(each));
  const before = segments
    .slice(0, at)
    .some(each => each.key.tonic === from.tonic && each.key.mode === from.mode);
  const applied = parseRomanNumeral(romanFor(segment.chord, from));
  if (inOld && inNew && !isDominant) {
    const refused = (why: string): Finding<Span> => ({
      verdict: 'fails',
      code: 'C0422',
      reason: `${numerals}, but ${why}`,
      evidence: evidenceOf(segment.chordTones, numerals, 'contradicts', context),
    });
    if (already !== undefined)
      return refused(`${printChord(already.chord)} before it belongs to ${printKey(to)} already`);
    if (next === undefined)
      return {
        ...refused(`no chord that only ${printKey(to)} has follows it`),
        instead: () => [pivotFamily.make({ from: to, to: from })],
      };
    if (!isSettled(segment, to, context))
      return refused(`the music does not go over to ${printKey(to)}, which is tonicized at most`);
    // Both keys have several chords in a row: the last of them is the pivot by definition, and any of them by some books.
    const later = ahead
      .slice(0, ahead.indexOf(next))
      .findLast(
        each =>
          isDiatonic(each.chord.tones, from) &&
          isDiatonic(each.chord.tones, to) &&
          !isSameTriad(each, next) &&
          !isSameTriad(each, segment),
      );
    const doubt = !before
      ? `, but the music before it is not in ${printKey(from)}`
      : later === undefined
        ? ''
        : `, but ${printChord(later.chord)} between them belongs to both keys as well and stands nearer to the new one`;
    return {
      verdict: doubt === '' ? 'holds' : 'arguable',
      code: doubt === '' ? 'C0421' : 'C0423',
      reason: `${numerals}; ${printChord(next.chord)} after it is ${isDiatonic(next.chord.tones, from) ? `the dominant seventh of ${printKey(to)}` : `foreign to ${printKey(from)}`}${doubt}`,
      evidence: [
        ...evidenceOf(segment.chordTones, numerals, 'supports', context),
        ...evidenceOf(
          next.chordTones,
          `member of ${printChord(next.chord)}, the first chord of the new key alone`,
          'supports',
          context,
        ),
      ],
    };
  }
  const key = inOld ? to : from;
  const isApplied = inNew && (isDominant || (!isUnread(applied) && applied.target !== undefined));
  return {
    verdict: inNew ? 'arguable' : 'fails',
    code: inNew ? 'C0423' : 'C0422',
    reason: isApplied
      ? `${numerals}: Open Music Theory takes a chord that is applied in the old key and dominant in the new for no pivot, Hutchinson allows it`
      : `${printChord(segment.chord)} is not native to ${printKey(key)}`,
    evidence: evidenceOf(
      segment.chordTones,
      `member of ${printChord(segment.chord)}`,
      'contradicts',
      context,
    ),
  };
}

/**
 * Pivot chords: claim D4 of the trade. Diatonic in both keys and before the first chord that only the new key has; a chord that is
 * applied in the old key and dominant in the new is none (Open Music Theory, Modulation); Hutchinson also allows chromatic ones.
 */
export const pivotFamily = family<Span, PivotSays>({
  name: 'pivot',
  examples: ['bar 6 beat 1 is the pivot chord from Eb major to Bb major'],
  phrases: [[be, pivot]],
  print: ({ from, to }, form) =>
    `${printBe(form)} the pivot chord${from === undefined || to === undefined ? '' : ` from ${printKey(from)} to ${printKey(to)}`}`,
  check: (span, keys, context): Finding<Span> => {
    const range = rangeOrMoment(span);
    const silent = silence<Span>(range, span.name, context);
    if (silent !== undefined) return silent;
    const segment = mainSegment(context.analysis, range);
    if (segment === undefined) return noChord(span.name, 'C0103');
    const changes = keys.from === undefined ? changesAround(segment, context) : [keys];
    if (changes.length === 0)
      return {
        verdict: 'fails',
        code: 'C0422',
        reason: `no change of key begins at or after ${span.name}`,
        evidence: [],
        pointless: true,
      };
    const findings = changes.map(change => judge(segment, change, context));
    const found = surestFirst
      .map(word => findings.find(({ verdict }) => verdict === word))
      .find(each => each !== undefined);
    return found ?? noChord(span.name, 'C0103');
  },
});
