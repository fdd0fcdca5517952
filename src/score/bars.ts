import type { SourceText } from '../diagnostics/index.js';
import { add, equals, greatest, isBefore, subtract, zero, type Fraction } from './fraction.js';
import type { Bar } from './model.js';
import { lengthOfBar, type VoiceBar } from './voice-reader.js';

type Numbered = Pick<Bar, 'number' | 'startsAt'> & { readonly ending?: readonly number[] };

/** The ending that each bar stands in: from a bar line with a number to the next bar line that is not a plain one. */
export function endingsOf(bars: readonly VoiceBar[]): readonly (readonly number[] | undefined)[] {
  let current: readonly number[] | undefined;
  return bars.map(bar => {
    const started = bar.opening.findLast(line => line.ending !== undefined)?.ending;
    if (started !== undefined) current = started;
    const ending = current;
    if (bar.closing.some(line => line.strong)) current = undefined;
    return ending;
  });
}

/**
 * Numbers the bars: the first full bar is 1, a pickup 0, a bar that a repeat sign or a double bar cuts in two counts once,
 * and each further ending starts again with the number of the first.
 */
function numberBars(bars: readonly VoiceBar[], lengths: readonly Fraction[]): readonly Numbered[] {
  const endings = endingsOf(bars);
  const numbered: Numbered[] = [];
  let next = 1;
  let firstOfEndings = 1;
  let carried = zero;
  for (const [index, bar] of bars.entries()) {
    const length = lengths[index] ?? zero;
    const ending = endings[index];
    const nominal = bar.meter.text === 'free' ? length : bar.meter.length;
    const isPickup = index === 0 && bars.length > 1 && isBefore(length, nominal);
    const startsEnding = ending !== undefined && ending !== endings[index - 1];
    if (startsEnding && ending.includes(1)) firstOfEndings = next;
    else if (startsEnding && (bars[index - 1]?.closing.some(line => line.times > 1) ?? false))
      next = firstOfEndings;
    const cut = carried.n > 0 && !startsEnding && equals(add(carried, length), nominal);
    const number = isPickup ? 0 : cut ? next - 1 : next;
    const startsAt = isPickup ? subtract(nominal, length) : cut ? carried : zero;
    numbered.push({ number, startsAt, ...(ending === undefined ? {} : { ending }) });
    if (!isPickup && !cut) next += 1;
    const ends = bar.closing.some(line => line.strong);
    carried = !isPickup && !cut && ends && isBefore(length, nominal) ? length : zero;
  }
  return numbered;
}

/** Labels: the number, with a letter where alternative endings share it. */
function labelsOf(numbered: readonly Numbered[]): readonly string[] {
  const sharing = new Map<number, (readonly number[] | undefined)[]>();
  for (const { number, ending } of numbered) {
    const known = sharing.get(number) ?? [];
    if (!known.includes(ending)) known.push(ending);
    sharing.set(number, known);
  }
  return numbered.map(({ number, ending }) => {
    const known = sharing.get(number) ?? [];
    return ending === undefined || known.length < 2
      ? String(number)
      : `${String(number)}${String.fromCharCode(97 + known.indexOf(ending))}`;
  });
}

/** The bars of the score: boundaries from the longest voice, each bar as long as the longest thing written in it. */
export function placeBars(source: SourceText, voices: readonly (readonly VoiceBar[])[]): readonly Bar[] {
  const reference = voices.reduce<readonly VoiceBar[]>(
    (best, bars) => (bars.length > best.length ? bars : best),
    [],
  );
  const lengths = reference.map((_, index) =>
    voices.reduce((length, bars) => {
      const bar = bars[index];
      return bar === undefined ? length : greatest(length, lengthOfBar(bar));
    }, zero),
  );
  const numbered = numberBars(reference, lengths);
  const labels = labelsOf(numbered);
  let start = zero;
  return reference.map((bar, index) => {
    const length = lengths[index] ?? zero;
    const at = start;
    start = add(start, length);
    return {
      index,
      label: labels[index] ?? '',
      start: at,
      length,
      meter: bar.meter,
      key: bar.key.signature,
      span: { source, start: bar.start, end: bar.end },
      ...(numbered[index] ?? { number: index, startsAt: zero }),
    };
  });
}
