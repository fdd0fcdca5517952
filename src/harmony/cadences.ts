import { compare, fraction, pitchClassOf } from '../score/index.js';
import type { Bar, PitchClass } from '../score/index.js';
import { closureOf, opensPhrase, sopranoNotes } from './cadence-signs.js';
import { cadenceTraits } from './cadence-traits.js';
import { degreeTone, leadingTone, sameKey } from './key.js';
import { isProlonged, leadsOn } from './leading-on.js';
import type { Cadence, CadenceKind, Segment, Sequence } from './model.js';
import { beatLength } from './sound.js';
import type { Heard } from './segments.js';
import { sequenceAt } from './sequences.js';

/** By so much the two ends that phrases have most, perfect authentic and half, count for more than other cadences in the bar before or after them. */
const endOfPhrase = 0.2;

const isDominant = (segment: Segment, root: PitchClass): boolean =>
  segment.chord.root === root &&
  (segment.chord.quality === 'major' || segment.chord.quality.startsWith('dominant'));

/** What two harmonies in succession make, closure aside (Hutchinson, Cadences; Open Music Theory, Cadence Types). */
function kindOf(before: Segment, arrival: Segment, sopranoOnTonic: boolean): CadenceKind | undefined {
  const { key } = arrival;
  if (!sameKey(before.key, key)) return undefined;
  const { tonic } = key;
  const dominant = degreeTone(key, 5);
  const plain = arrival.chord.quality === 'major' || arrival.chord.quality === 'minor';
  const fromDominant = isDominant(before, dominant);
  const fromLeadingTone =
    before.chord.root === leadingTone(key) && before.chord.quality.includes('diminished');
  if (arrival.chord.root === tonic && plain && arrival.roman !== 'cad64') {
    const rooted = arrival.chord.inversion === 0 && before.chord.inversion === 0;
    if (fromDominant && rooted && sopranoOnTonic) return 'perfect authentic';
    if (fromDominant && arrival.chord.inversion === 1) return undefined;
    if (fromDominant || fromLeadingTone) return 'imperfect authentic';
    if (
      before.chord.root === degreeTone(key, 4) &&
      before.chord.inversion === 0 &&
      arrival.chord.inversion === 0
    )
      return 'plagal';
    return undefined;
  }
  if (
    fromDominant &&
    plain &&
    ([degreeTone(key, 6), degreeTone({ tonic, mode: 'minor' }, 6)].includes(arrival.chord.root)
      ? arrival.chord.inversion === 0
      : arrival.chord.root === degreeTone(key, 4) && arrival.chord.inversion === 1)
  )
    return 'deceptive';
  if (
    arrival.chord.root === dominant &&
    arrival.chord.quality === 'major' &&
    arrival.chord.inversion === 0 &&
    !fromDominant
  )
    return 'half';
  return undefined;
}

/** Whether V is on its way to I, or was there before. */
const isMerelyPassed = (heard: Heard, segments: readonly Segment[], { start, key }: Segment): boolean =>
  leadsOn(heard, segments, start, key) || isProlonged(heard, segments, start, key);

/** One V either ends a phrase or leads to the close that follows it: of two cadences that share it the stronger stays, else the first. */
const withoutShared = (found: readonly Cadence[]): readonly Cadence[] => {
  const share = (half: Cadence, close: Cadence): boolean =>
    half.kind === 'half' && close !== half && close.segments.includes(half.segments.at(-1) ?? -1);
  return found.filter((each, at) =>
    [found[at - 1], found[at + 1]].every(
      other =>
        other === undefined ||
        !(
          (share(each, other) && other.strength > each.strength) ||
          (share(other, each) && other.strength >= each.strength)
        ),
    ),
  );
};

/** A phrase is longer than a bar: of two cadences in one bar or in neighbouring ones only the stronger ends it, of equals the first. */
function withoutNeighbours(found: readonly Cadence[], bars: readonly Bar[]): readonly Cadence[] {
  const weighed = found.map(cadence => ({
    cadence,
    bar: bars.findLastIndex(({ start }) => compare(start, cadence.onset) <= 0),
    weight:
      cadence.strength + (cadence.kind === 'perfect authentic' || cadence.kind === 'half' ? endOfPhrase : 0),
  }));
  // In order of time, so that of equals the one before stays.
  return weighed
    .filter(({ bar, weight }, at) =>
      weighed.every(
        (other, place) =>
          Math.abs(other.bar - bar) > 1 ||
          (place < at ? other.weight < weight : other.weight <= weight) ||
          place === at,
      ),
    )
    .map(({ cadence }) => cadence);
}

/** Every cadence of the piece: two harmonies that make one, at a place where a phrase closes. The links of a sequence close nothing. */
export function cadencesOf(
  heard: Heard,
  segments: readonly Segment[],
  sequences: readonly Sequence[],
): readonly Cadence[] {
  const found = segments.flatMap((arrival, at): Cadence[] => {
    const before = segments[at - 1];
    if (before === undefined) return [];
    const bar = heard.score.bars.findLast(candidate => compare(candidate.start, arrival.start) <= 0);
    if (bar === undefined) return [];
    const beat = fraction(Math.round(beatLength(bar.meter) * bar.meter.unit), bar.meter.unit);
    const sopranoOnTonic = sopranoNotes(heard, arrival.start, beat).some(
      note => pitchClassOf(note.pitch) === arrival.key.tonic,
    );
    const kind = kindOf(before, arrival, sopranoOnTonic);
    if (kind === undefined || sequenceAt(sequences, arrival.start) !== undefined) return [];
    if (kind !== 'half' && opensPhrase(heard, segments, arrival.start)) return [];
    if (kind === 'half' && isMerelyPassed(heard, segments, arrival)) return [];
    const strength = closureOf(heard, segments, arrival.start, kind, arrival.key);
    if (strength < cadenceTraits[kind].borders.list) return [];
    const phrygian =
      kind === 'half' &&
      arrival.key.mode === 'minor' &&
      before.chord.root === degreeTone(arrival.key, 4) &&
      before.chord.inversion === 1;
    const cadential = segments[at - 2]?.roman === 'cad64' ? [at - 2] : [];
    return [
      {
        kind,
        onset: arrival.start,
        key: arrival.key,
        phrygian,
        segments: [...cadential, at - 1, at],
        strength,
      },
    ];
  });
  return withoutNeighbours(withoutShared(found), heard.score.bars);
}
