import { nativeTones } from './key.js';
import type { KeyPath } from './key-path.js';
import type { Edge, Lattice } from './lattice.js';
import type { Chord, Key } from './model.js';
import type { PhraseEnd } from './phrase-ends.js';
import { readingsOf } from './readings.js';
import type { Units } from './units.js';

/** A harmony of the path with the key in which it is read. */
interface Step {
  readonly edge: Edge;
  readonly chord: Chord;
  readonly key: Key;
}

/** A chord no more unusual in a key than that can lead to its close: applied and augmented sixth chords can, borrowed ones cannot. */
const usual = 0.75;

/**
 * The fifth degree is tonicized before many a half cadence: its key must have been heard in so many chords of its own before the close, and what
 * has no chord that is foreign to the old key must close a section (Open Music Theory, Binary form: the first section of a piece in major
 * mostly ends in the key of V).
 */
const chordsOfDominantKey = 2;

const isIn = ({ tones }: Chord, key: Key): boolean => {
  const native: readonly number[] = nativeTones(key);
  return tones.every(tone => native.includes(tone));
};

/** Where the six-four, the dominant and the tonic of a key stand in their places before a step: the position of the six-four. */
function sixFourBefore(
  steps: readonly Step[],
  at: number,
  { tonic }: Key,
  level: (at: number) => number,
): number | undefined {
  let first = at;
  const isDominant = (step: Step | undefined): boolean =>
    step?.chord.root === tonic + 1 &&
    (step.chord.quality === 'major' || step.chord.quality === 'dominant seventh');
  while (isDominant(steps[first - 1])) first--;
  const [sixFour, dominant, last] = [steps[first - 1], steps[first], steps[at - 1]];
  if (first === at || sixFour === undefined || dominant === undefined) return undefined;
  const isSixFour =
    sixFour.chord.root === tonic && sixFour.chord.tones.length === 3 && sixFour.edge.bassPart === 2;
  const isPlaced = level(sixFour.edge.from) <= level(dominant.edge.from) && last?.edge.bassPart === 0;
  return isSixFour && isPlaced ? first - 1 : undefined;
}

/** Where a key begins whose six-four stands at a step of the path, `undefined` where too little leads up to it to make it a key. */
function beginningOf(
  steps: readonly Step[],
  sixFour: number,
  to: Key,
  phraseEnds: readonly PhraseEnd[],
  closesSection: boolean,
): number | undefined {
  const old = steps[sixFour]?.key;
  let turn: number | undefined;
  let own = 0;
  let isPrepared = false;
  for (let at = sixFour - 1; at >= 0; at--) {
    const step = steps[at];
    const [reading] = step === undefined ? [] : readingsOf(step.chord, to);
    if (step === undefined || old === undefined || reading === undefined) break;
    const isBefore = at === sixFour - 1;
    // Only the chord before the six-four may be chromatic in the key.
    if (reading.cost > usual || (!isBefore && !isIn(step.chord, to))) break;
    if (phraseEnds[step.edge.from] !== 'none') break;
    if (isBefore) isPrepared = reading.function === 'predominant' || reading.name.toLowerCase() === 'vi';
    if (isIn(step.chord, to)) own++;
    if (!isIn(step.chord, old)) turn = at;
  }
  const isDominantKey = to.tonic === (old?.tonic ?? 0) + 1;
  const atPivot = isPrepared ? sixFour - 1 : undefined;
  if (isDominantKey)
    return own < chordsOfDominantKey ? undefined : (turn ?? (closesSection ? atPivot : undefined));
  return turn ?? atPivot;
}

/**
 * The path with the keys that a phrase closes in although it is cheaper to read them within the key around: at a point of rest the six-four of a tonic,
 * its dominant and the tonic itself, led up to by chords of that key. That is the strongest confirmation of a key there is (Open Music Theory and
 * Hutchinson, Modulation: the cadence confirms the key); from its first own chord on the music is read in it. A change of mode alone is no new
 * key: the last chord of a minor key may be major.
 */
export function confirmKeys(
  lattice: Lattice,
  path: KeyPath,
  phraseEnds: readonly PhraseEnd[],
  { endsOfSections }: Units,
): KeyPath {
  const { edges, chords, moments } = lattice;
  const steps = path.path.map(({ edge, key }): Step => {
    const of = edges[edge] as Edge;
    return { edge: of, chord: chords[of.chord] as Chord, key: path.keys[key] as Key };
  });
  const level = (at: number): number => moments[at]?.level ?? 4;
  const confirmed = path.path.map(({ key }) => key);
  steps.forEach(({ edge, chord: { root, quality }, key: heard }, at) => {
    if (quality !== 'major' && quality !== 'minor') return;
    if (edge.bassPart !== 0 || level(edge.from) > 1 || phraseEnds[edge.from] === 'none') return;
    const k = path.keys.findIndex(key => key.tonic === root && key.mode === quality);
    const key = path.keys[k];
    if (key === undefined || heard.tonic === root) return;
    const sixFour = sixFourBefore(steps, at, key, level);
    const closesSection = endsOfSections[moments[edge.from]?.bar ?? -1] === true;
    const from =
      sixFour === undefined ? undefined : beginningOf(steps, sixFour, key, phraseEnds, closesSection);
    if (from !== undefined) confirmed.fill(k, from, at + 1);
  });
  return { ...path, path: path.path.map(({ edge, key }, at) => ({ edge, key: confirmed[at] ?? key })) };
}
