import type { Mono } from '../mono.js';
import { voicedStretches } from './pauses.js';
import type { Stretch } from './pauses.js';
import type { WordTime } from './phones.js';
import type { SpokenPiece } from './spell.js';

/** A silence that is long enough to stand for punctuation, in seconds. */
const shortestPause = 0.14;
/** How far a pause may lie from where the weights expect it, as a share of the whole. */
const reach = 0.12;

/** How long a word takes to say, in letters; each word costs about one more. */
const wordWeight = (word: string): number => (word === ',' ? 0 : /^[A-Z]$/u.test(word) ? 3 : word.length + 1);
/** The last word before a pause is drawn out, by about two letters (D. Klatt, Journal of the Acoustical Society of America 59, 1976; from memory). */
const drawnOut = 2;
const weightOf = (piece: SpokenPiece): number =>
  Math.max(
    1,
    piece.words.reduce((sum, word) => sum + wordWeight(word), piece.pause === 'none' ? 0 : drawnOut),
  );

/**
 * Times of the words in a recording that tells nothing about them: spread by their phonetic weight over the stretches in which somebody
 * speaks, and corrected at the pauses, which are taken for the punctuation that is nearest to them. In order, never in a silence.
 */
export function alignRecording(pieces: readonly SpokenPiece[], sound: Mono): readonly WordTime[] {
  const stretches = voicedStretches(sound, shortestPause);
  const whole = sound.samples.length / sound.sampleRate;
  const spoken = stretches.length === 0 ? [{ start: 0, end: whole }] : stretches;
  const weights = pieces.map(weightOf);
  const anchors = anchorsOf(pieces, weights, spoken);
  const times: WordTime[] = [];
  anchors.forEach((anchor, index) => {
    const next = anchors[index + 1] ?? { piece: pieces.length, stretch: spoken.length };
    times.push(
      ...spread(weights.slice(anchor.piece, next.piece), spoken.slice(anchor.stretch, next.stretch)),
    );
  });
  return times;
}

/** From here on these pieces are spoken in these stretches. */
interface Anchor {
  readonly piece: number;
  readonly stretch: number;
}

/** Pairs pauses with punctuation, from left to right: each pause takes the nearest boundary after the last one, if it is near enough. */
function anchorsOf(
  pieces: readonly SpokenPiece[],
  weights: readonly number[],
  spoken: readonly Stretch[],
): readonly Anchor[] {
  const totalWeight = weights.reduce((a, b) => a + b, 0);
  const totalTime = spoken.reduce((sum, { start, end }) => sum + end - start, 0);
  let weight = 0;
  const boundaries = pieces.flatMap((piece, index) => {
    weight += weights[index] ?? 0;
    return piece.pause === 'none' || index === pieces.length - 1
      ? []
      : [{ piece: index + 1, share: weight / totalWeight }];
  });
  const anchors: Anchor[] = [{ piece: 0, stretch: 0 }];
  let time = 0;
  let from = 0;
  spoken.slice(0, -1).forEach(({ start, end }, index) => {
    time += end - start;
    const share = time / totalTime;
    const near = boundaries
      .slice(from)
      .map((boundary, offset) => ({
        boundary,
        at: from + offset,
        distance: Math.abs(boundary.share - share),
      }))
      .filter(({ distance }) => distance <= reach)
      .sort((a, b) => a.distance - b.distance)[0];
    if (near === undefined) return;
    anchors.push({ piece: near.boundary.piece, stretch: index + 1 });
    from = near.at + 1;
  });
  return anchors;
}

/** Spreads words over stretches by their weight; a word that would fall across a silence ends before it. */
function spread(weights: readonly number[], stretches: readonly Stretch[]): readonly WordTime[] {
  const total = weights.reduce((a, b) => a + b, 0);
  const seconds = stretches.reduce((sum, { start, end }) => sum + end - start, 0);
  const place = (share: number, side: 'start' | 'end'): number => {
    let left = share * seconds;
    for (const [index, { start, end }] of stretches.entries()) {
      const isLast = index === stretches.length - 1;
      if (left < end - start || isLast || (side === 'end' && left <= end - start + 1e-9))
        return Math.min(end, start + left);
      left -= end - start;
    }
    return 0;
  };
  let before = 0;
  return weights.map(weight => {
    const start = place(before / total, 'start');
    before += weight;
    return { start, end: Math.max(start, place(before / total, 'end')) };
  });
}
