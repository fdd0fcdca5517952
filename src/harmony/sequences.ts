import { compare, letters, spell, subtract } from '../score/index.js';
import type { Fraction } from '../score/index.js';
import type { Segment, Sequence } from './model.js';

/** Fewest statements of a model: the model and two copies for a pair of chords (the strict count; two make only a repetition). */
const fewestStatements = 3;

const letterStep = (from: Segment, to: Segment): number => {
  const index = (segment: Segment): number => letters.indexOf(spell(segment.chord.root).letter);
  const step = (((index(to) - index(from)) % 7) + 7) % 7;
  return step > 3 ? step - 7 : step;
};

const length = (segment: Segment): Fraction => subtract(segment.end, segment.start);

/** Whether `b` is the same pattern of harmonies as `a`, `step` letters away: roots, lengths and inversions. */
function copies(a: readonly Segment[], b: readonly Segment[], step: number): boolean {
  return a.every((segment, at) => {
    const other = b[at];
    return (
      other !== undefined &&
      letterStep(segment, other) === step &&
      compare(length(segment), length(other)) === 0 &&
      segment.chord.inversion === other.chord.inversion
    );
  });
}

/**
 * Harmonic sequences: a model of one to four harmonies, at least two of them different, repeated at another step with the same lengths
 * and inversions (claims of real and tonal sequences: common practice).
 */
export function sequencesOf(segments: readonly Segment[]): readonly Sequence[] {
  const found: Sequence[] = [];
  for (let from = 0; from < segments.length;) {
    let best: { sequence: Sequence; count: number } | undefined;
    for (let size = 2; size <= 4; size++) {
      const model = segments.slice(from, from + size);
      const next = segments.slice(from + size, from + 2 * size);
      const [first] = model;
      const [firstCopy] = next;
      if (first === undefined || firstCopy === undefined || next.length < size) continue;
      const step = letterStep(first, firstCopy);
      if (step === 0) continue;
      let statements = 1;
      let real = true;
      while (
        copies(
          model,
          segments.slice(from + statements * size, from + (statements + 1) * size),
          ((((step * statements + 3) % 7) + 7) % 7) - 3,
        )
      ) {
        const copy = segments.slice(from + statements * size, from + (statements + 1) * size);
        real &&= model.every((segment, at) => segment.chord.quality === copy[at]?.chord.quality);
        statements++;
      }
      if (statements < fewestStatements) continue;
      const unit = subtract(firstCopy.start, first.start);
      if (best === undefined || statements * size > best.count) {
        best = { sequence: { start: first.start, unit, statements, step, real }, count: statements * size };
      }
    }
    if (best === undefined) from++;
    else {
      found.push(best.sequence);
      from += best.count;
    }
  }
  return found;
}
