import { barAt, endOf } from '../place/beats.js';
import {
  degreeTone,
  isUnread,
  judgeCadence,
  judgeKey,
  keyOfTarget,
  nativeTones,
  parseRomanNumeral,
  printChord,
  printKey,
  sameKey,
} from '../../harmony/index.js';
import type { Key, Segment } from '../../harmony/index.js';
import { compare, isBefore, pitchClassOf } from '../../score/index.js';
import type { Fraction } from '../../score/index.js';
import type { Claim, Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import type { ClaimContext, Range } from '../model.js';
import { isPlural } from '../place/place.js';
import { withArticle } from '../terms/chord-name.js';
import { sayMoment } from '../place/say-moment.js';
import { liesIn, segmentsIn } from '../segments.js';
import { statement } from '../statement.js';
import { span as spanOf } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { judged } from './judged.js';
import { alternatives, areasIn, cadencesIn, codes, newNotes } from './key-question.js';
import type { Asked } from './key-question.js';

const isOneBar = ({ start, end }: Range, { analysis }: ClaimContext): boolean =>
  analysis.score.bars.some(bar => compare(bar.start, start) <= 0 && compare(end, endOf(bar)) <= 0);

/** Whether a section begins at a place with a key signature of its own: what is written in its key from the start does not modulate to it. */
function hasNewSignature(at: Fraction, { analysis: { score } }: ClaimContext): boolean {
  const index = score.bars.findIndex(bar => compare(bar.start, at) === 0);
  const [bar, before] = [score.bars[index], score.bars[index - 1]];
  return bar !== undefined && before !== undefined && bar.key.fifths !== before.key.fifths;
}

/** What can be said of the key in the bars from one moment to another. */
function ofBars(
  { key, context, make }: Asked,
  what: 'modulates to' | 'tonicizes',
  from: Fraction,
  to: Fraction,
): readonly Claim[] {
  const { score } = context.analysis;
  const [first, last] = [barAt(score, from), barAt(score, to)];
  return first === undefined || last === undefined
    ? []
    : [statement(spanOf({ kind: 'bars', first: first.label, last: last.label }), make({ what, key }))];
}

/** Does a new key begin in the place, confirmed by a cadence? */
export function checkModulatesTo(asked: Asked): Finding<Span> {
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
    const own = areas.find(each => sameKey(each.key, key) && isBefore(each.start, span.range.start));
    const arrival = context.analysis.cadences.find(
      each => sameKey(each.key, key) && liesIn(each.onset, span.range),
    );
    // Books date a modulation by its first chord, its first accidental or its cadence (claim D3 of the trade).
    const opens = own !== undefined && own !== areas[0];
    if (already && opens && isOneBar(span.range, context) && arrival !== undefined)
      return {
        verdict: 'arguable',
        code: 'C0402',
        reason: `true of the cadence: ${printKey(key)} begins in ${sayMoment(own.start, context)}, and ${withArticle(`${arrival.kind} cadence`)} confirms it in ${sayMoment(arrival.onset, context)}`,
        evidence: newNotes(own, areas[areas.indexOf(own) - 1]?.key ?? context.home, key, context),
        instead: () => [make({ what: 'is in', key })],
      };
    const left = already ? keyClosedBefore(span.range, key, context) : undefined;
    if (left !== undefined)
      return {
        verdict: 'arguable',
        code: 'C0412',
        reason: `a perfect authentic cadence in ${printKey(left)} closes just before; whoever hears that key there hears ${printKey(key)} return`,
        evidence: [],
      };
    return {
      ...judged(judgement, codes, span.range, context),
      verdict: 'fails',
      code: already ? 'C0407' : 'C0404',
      reason: already
        ? `${printKey(key)} is the key already where ${span.name} ${isPlural(span.place) ? 'begin' : 'begins'}`
        : `no new key of ${printKey(key)} begins in ${span.name}`,
      instead: already ? () => [make({ what: 'stays in', key }), make({ what: 'is in', key })] : instead,
    };
  }
  const begins = compare(area.start, span.range.start) === 0;
  // A single bar says when the key begins.
  if (begins && !isOneBar(span.range, context) && hasNewSignature(area.start, context))
    return {
      verdict: 'fails',
      code: 'C0407',
      reason: `a new key signature stands there: ${span.name} ${isPlural(span.place) ? 'begin' : 'begins'} in ${printKey(key)}`,
      evidence: [],
      instead: () => [make({ what: 'stays in', key }), make({ what: 'is in', key })],
    };
  if (before.key.tonic === key.tonic) {
    const tonics = segmentsIn(context.analysis, area).filter(({ chord }) => chord.root === key.tonic);
    const isPicardy = key.mode === 'major' && at === areas.length - 1 && tonics.length === 1;
    return {
      verdict: isPicardy ? 'fails' : 'arguable',
      code: isPicardy ? 'C0404' : 'C0413',
      reason: isPicardy
        ? `only the last chord is major: a Picardy third of ${printKey(before.key)}`
        : `${printKey(before.key)} and ${printKey(key)} share their tonic: many call that a change of mode, no modulation`,
      evidence: newNotes(area, before.key, key, context),
      instead,
    };
  }
  const notes = newNotes(area, before.key, key, context);
  const cadences = cadencesIn(area, key, context);
  const [cadence] = cadences;
  if (cadence === undefined)
    return {
      verdict: 'arguable',
      code: 'C0406',
      reason: `${printKey(key)} begins in ${sayMoment(area.start, context)}, but no cadence confirms it: many would call it a tonicization`,
      evidence: notes,
      instead,
    };
  // A single bar says when the key begins; a passage that modulates has its confirmation within it.
  if (!isOneBar(span.range, context) && !cadences.some(({ onset }) => compare(onset, span.range.end) <= 0))
    return {
      verdict: 'arguable',
      code: 'C0406',
      reason: `${printKey(key)} begins in ${sayMoment(area.start, context)}, but the cadence that confirms it comes after ${span.name}, in ${sayMoment(cadence.onset, context)}`,
      evidence: notes,
      rather: () => ofBars(asked, 'modulates to', span.range.start, cadence.onset),
    };
  return {
    verdict: 'holds',
    code: 'C0401',
    reason: `${printKey(before.key)} gives way to ${printKey(key)} in ${sayMoment(area.start, context)}, and ${withArticle(`${cadence.kind} cadence`)} in ${sayMoment(cadence.onset, context)} confirms it`,
    evidence: notes,
  };
}

/** Another key in which the bar before a place closes with a perfect authentic cadence, although the analysis counts it as part of this one. */
function keyClosedBefore({ start }: Range, key: Key, context: ClaimContext): Key | undefined {
  const { analysis } = context;
  const before = analysis.score.bars.findLast(bar => isBefore(bar.start, start));
  if (before === undefined) return undefined;
  const range = { start: before.start, end: endOf(before) };
  const last = segmentsIn(analysis, range).at(-1);
  if (last === undefined || last.chord.root === key.tonic) return undefined;
  const third = (last.chord.tones[1] ?? 0) - last.chord.root;
  const left: Key = { tonic: last.chord.root, mode: third === 4 ? 'major' : 'minor' };
  // V and I of the old key are a cadence of the fourth degree in any phrase: the new leading tone must have been heard.
  const leads = { start: analysis.score.bars[before.index - 1]?.start ?? before.start, end: range.end };
  if (turnTo(leads, key, left, context) === undefined) return undefined;
  const cadence = judgeCadence(analysis, { ...range, kind: 'perfect authentic', key: left });
  return cadence.outcome === 'supported' ? left : undefined;
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
export function confirmedTurn({
  span,
  key,
  context,
}: Pick<Asked, 'span' | 'key' | 'context'>): Finding<Span> | undefined {
  const [old] = areasIn(span.range, context);
  // A change of mode is no change of key, and a close on the major tonic speaks for the major key.
  if (old === undefined || old.key.tonic === key.tonic) return undefined;
  const turn = turnTo(span.range, old.key, key, context);
  const cadence = judgeCadence(context.analysis, { ...span.range, kind: 'perfect authentic', key });
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
    reason: `${turn.roman} in ${sayMoment(turn.start, context)} turns from ${printKey(old.key)} to ${printKey(key)}, and a perfect authentic cadence confirms it${fully ? '' : `; ${settled.reason}`}`,
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

/** The key that a dominant points to: its target, or its own key where that is another than the lesson's home, as for V7 and I heard in III. */
function keyPointedTo(segment: Segment, home: Key): Key | undefined {
  const isDominant = segment.function === 'dominant' && segment.roman !== 'cad64';
  return targetOf(segment) ?? (isDominant && !sameKey(segment.key, home) ? segment.key : undefined);
}

/** An applied chord of a key and the chord of arrival after it. */
function tonicization(range: Range, key: Key, context: ClaimContext): readonly Segment[] | undefined {
  const { segments } = context.analysis;
  for (const segment of segmentsIn(context.analysis, range)) {
    const target = keyPointedTo(segment, context.home);
    if (target === undefined || target.tonic !== key.tonic) continue;
    const after = segments.slice(segments.indexOf(segment) + 1, segments.indexOf(segment) + 4);
    const arrival = after.find(each => each.chord.root === key.tonic && targetOf(each) === undefined);
    if (arrival !== undefined) return [segment, arrival];
  }
  return undefined;
}

/** The goal with which a place begins, where the chord right before the place is applied to it. */
function goalOf(range: Range, key: Key, context: ClaimContext): readonly Segment[] | undefined {
  const { segments } = context.analysis;
  const [goal] = segmentsIn(context.analysis, range);
  const before = goal === undefined ? undefined : segments[segments.indexOf(goal) - 1];
  if (goal === undefined || before === undefined || isBefore(goal.start, range.start)) return undefined;
  const third = (goal.chord.tones[1] ?? 0) - goal.chord.root;
  const isGoal = goal.chord.root === key.tonic && (third === 4 ? 'major' : 'minor') === key.mode;
  return isGoal && keyPointedTo(before, context.home)?.tonic === key.tonic ? [before, goal] : undefined;
}

/** Is a chord of the place applied to the key and resolved to it, without a cadence? */
export function checkTonicizes(asked: Asked): Finding<Span> {
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
  const [leading, goal] = found === undefined ? (goalOf(span.range, key, context) ?? []) : [];
  if (leading !== undefined && goal !== undefined)
    return {
      verdict: 'arguable',
      code: 'C0414',
      reason: `${leading.roman} in ${sayMoment(leading.start, context)} is the chord applied to it; ${span.name} ${isPlural(span.place) ? 'begin' : 'begins'} with its goal`,
      evidence: [],
      rather: () => ofBars(asked, 'tonicizes', leading.start, goal.start),
    };
  if (applied === undefined || arrival === undefined)
    return {
      verdict: 'fails',
      code: 'C0409',
      reason: `no chord of ${span.name} is applied to ${printKey(key)} and resolves to it`,
      evidence: [],
      instead: () =>
        segmentsIn(context.analysis, span.range).flatMap(segment => {
          const target = keyPointedTo(segment, context.home);
          return target === undefined ? [] : [make({ what: 'tonicizes', key: target })];
        }),
    };
  // What is tonicized is the chord that comes: E minor is not E major. V of a minor key is a major chord, and its key has both modes.
  const third = (arrival.chord.tones[1] ?? 0) - arrival.chord.root;
  const mode = third === 4 ? 'major' : 'minor';
  if (arrival.chord.root === key.tonic && mode !== key.mode) {
    const isDominant =
      mode === 'major' && applied.key.mode === 'minor' && arrival.chord.root === degreeTone(applied.key, 5);
    const other: Key = { tonic: key.tonic, mode };
    return {
      verdict: isDominant ? 'arguable' : 'fails',
      code: isDominant ? 'C0411' : 'C0409',
      reason: `${applied.roman} in ${sayMoment(applied.start, context)} resolves to ${printChord(arrival.chord)}, which is ${isDominant ? `the dominant and makes ${printKey(other)} of it` : `the tonic of ${printKey(other)}`}`,
      evidence: [],
      instead: () => [make({ what: 'tonicizes', key: other })],
    };
  }
  const area = context.analysis.keyAreas.find(
    each => sameKey(each.key, key) && !sameKey(key, context.home) && liesIn(arrival.start, each),
  );
  const close = context.analysis.cadences.find(
    cadence =>
      sameKey(cadence.key, key) &&
      (liesIn(cadence.onset, span.range) ||
        (area !== undefined && liesIn(cadence.onset, { start: arrival.start, end: area.end }))),
  );
  const around = sameKey(applied.key, key) ? context.home : applied.key;
  const notes = applied.chordTones.flatMap(id => context.analysis.score.notes[id] ?? []);
  const foreign = notes.filter(note => !nativeTones(around).includes(pitchClassOf(note.pitch)));
  // The dominant seventh of a relative major has no tone that the minor key lacks.
  const shown = foreign.length > 0 ? foreign : notes;
  const why =
    foreign.length > 0 ? `foreign to ${printKey(around)}` : `of ${applied.roman} in ${printKey(applied.key)}`;
  return {
    verdict: close === undefined ? 'holds' : 'arguable',
    code: close === undefined ? 'C0401' : 'C0408',
    reason: `${applied.roman} in ${sayMoment(applied.start, context)} resolves to ${arrival.roman} in ${sayMoment(arrival.start, context)}${close === undefined ? `, and no cadence follows in ${printKey(key)}` : `, but a cadence in ${printKey(key)} confirms it in ${sayMoment(close.onset, context)}: that goes further than a tonicization`}`,
    evidence: shown.slice(0, 4).map(note => noteEvidence('supports', note, why, context)),
  };
}
