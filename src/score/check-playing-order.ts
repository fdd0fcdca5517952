import type { Diagnostic, SourceText } from '../diagnostics/index.js';
import { findingAt } from './finding.js';
import type { Score } from './model.js';
import { mostPlayedBars, type Direction } from './playing-order.js';

/** The signs that a direction needs and does not find. */
function missingSign(direction: Direction, directions: readonly Direction[]): string | undefined {
  const count = (text: string): number => directions.filter(other => other.text === text).length;
  if (direction.text.startsWith('D.S.') && count('segno') === 0) return 'segno';
  if (direction.text.endsWith('fine') && direction.text.startsWith('D.') && count('fine') === 0)
    return 'fine';
  if (direction.text.endsWith('al coda') && count('coda') + count('to coda') < 2) return 'coda';
  return undefined;
}

/** Reports directions that lead nowhere and repeats beyond all measure. */
export function checkPlayingOrder(
  source: SourceText,
  score: Score,
  directions: readonly Direction[],
  report: (finding: Diagnostic) => void,
): void {
  for (const direction of directions) {
    const missing = missingSign(direction, directions);
    const bar = score.bars[direction.bar];
    if (missing === undefined || bar === undefined) continue;
    report(
      findingAt(source, 'S0407', 'warning', `\`${direction.text}\` finds no ${missing} sign`, bar.span, {
        help: `write \`!${missing}!\` where the music goes on`,
      }),
    );
  }
  const first = score.bars[0];
  if (first !== undefined && score.playingOrder.length >= mostPlayedBars) {
    report(
      findingAt(
        source,
        'S0408',
        'error',
        `the repeats unfold to more than ${String(mostPlayedBars)} bars`,
        first.span,
        {
          help: 'check the numbers of the endings and the colons of the repeat signs',
        },
      ),
    );
  }
}
