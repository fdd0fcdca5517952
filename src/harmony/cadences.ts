import { fraction, pitchClassOf } from '../score/index.js';
import type { PitchClass } from '../score/index.js';
import { closureOf, isDue, opensPhrase, sopranoNotes } from './cadence-signs.js';
import { degreeTone, leadingTone, sameKey } from './key.js';
import type { Cadence, CadenceKind, Segment, Sequence } from './model.js';
import { beatLength } from './moments.js';
import type { Heard } from './segments.js';
import { sequenceAt } from './sequences.js';

/**
 * From this much closure on a phrase ends. The plainest sign is the soprano on the tonic over V and I in root position; any other close, and a
 * half cadence whose V may simply lead on, must stop more clearly.
 */
const border = { perfect: 0.65, other: 0.8 } as const;

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
    if (fromDominant && arrival.chord.inversion === 1) return 'evaded';
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

/** Every cadence of the piece: two harmonies that make one, at a place where a phrase closes. The links of a sequence close nothing. */
export function cadencesOf(
  heard: Heard,
  segments: readonly Segment[],
  sequences: readonly Sequence[],
): readonly Cadence[] {
  const found = segments.flatMap((arrival, at): Cadence[] => {
    const before = segments[at - 1];
    if (before === undefined) return [];
    const bar = heard.score.bars.findLast(
      candidate => candidate.start.n * arrival.start.d <= arrival.start.n * candidate.start.d,
    );
    if (bar === undefined) return [];
    const beat = fraction(Math.round(beatLength(bar.meter) * bar.meter.unit), bar.meter.unit);
    const sopranoOnTonic = sopranoNotes(heard, arrival.start, beat).some(
      note => pitchClassOf(note.pitch) === arrival.key.tonic,
    );
    const kind = kindOf(before, arrival, sopranoOnTonic);
    if (kind === undefined || sequenceAt(sequences, arrival.start) !== undefined) return [];
    if (kind !== 'half' && opensPhrase(heard, segments, arrival.start)) return [];
    if (kind === 'evaded' && !isDue(segments, arrival.start, arrival.key)) return [];
    const strength = closureOf(heard, segments, arrival.start, kind, arrival.key);
    if (strength < (kind === 'perfect authentic' ? border.perfect : border.other)) return [];
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
  return withoutShared(found);
}
