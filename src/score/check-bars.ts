import type { Diagnostic, SourceText } from '../diagnostics/index.js';
import { endsStrongly, misfitOf, type BarFrame } from './bars.js';
import { findingAt } from './finding.js';
import {
  compare,
  divide,
  equals,
  greatest,
  printFraction,
  subtract,
  zero,
  type Fraction,
} from './fraction.js';
import type { Bar, VoiceId } from './model.js';
import { beatUnitOf } from './metre.js';
import { lengthOfBar, type VoiceBar } from './voice-bars.js';

type Report = (finding: Diagnostic) => void;
type Voices = ReadonlyMap<VoiceId, readonly VoiceBar[]>;

/** `3 1/2 beats`. */
function printBeats(length: Fraction, bar: Bar): string {
  const beats = divide(length, beatUnitOf(bar.meter));
  const whole = Math.floor(beats.n / beats.d);
  const rest = printFraction({ n: beats.n - whole * beats.d, d: beats.d });
  const text = rest === '0' ? String(whole) : whole === 0 ? rest : `${String(whole)} ${rest}`;
  return `${text} ${text === '1' ? 'beat' : 'beats'}`;
}

/** Short bars that music needs: a pickup at the start of a section, and the bar that completes it at the end of one. */
function excusedBars(frames: readonly BarFrame[], bars: readonly Bar[]): ReadonlySet<number> {
  const short = bars.filter(({ index }) => {
    const frame = frames[index];
    return frame !== undefined && misfitOf(frame) < 0;
  });
  const endsSection = (index: number): boolean => {
    const frame = frames[index];
    return frame === undefined || index === frames.length - 1 || endsStrongly(frame);
  };
  const starts = short.filter(({ index }) => index === 0 || endsSection(index - 1));
  const ends = short.filter(({ index }) => endsSection(index));
  /** Whether one of the bars completes a bar. */
  const completedBy = (others: readonly Bar[]): ((bar: Bar) => boolean) => {
    const byLength = new Map<string, number[]>();
    for (const { length, index } of others)
      byLength.set(printFraction(length), [...(byLength.get(printFraction(length)) ?? []), index].slice(-2));
    return bar =>
      (byLength.get(printFraction(subtract(bar.meter.length, bar.length))) ?? []).some(
        index => index !== bar.index,
      );
  };
  const excused = [...starts.filter(completedBy(ends)), ...ends.filter(completedBy(starts))].map(
    ({ index }) => index,
  );
  return new Set([...excused, ...starts.map(({ index }) => index).filter(index => index === 0)]);
}

function checkLengths(
  source: SourceText,
  frames: readonly BarFrame[],
  bars: readonly Bar[],
  report: Report,
): void {
  const excused = excusedBars(frames, bars);
  for (const [index, frame] of frames.entries()) {
    const bar = bars[index];
    const misfit = misfitOf(frame);
    if (bar === undefined || misfit === 0 || excused.has(index)) continue;
    report(
      findingAt(
        source,
        'S0301',
        'warning',
        `bar ${bar.label} is too ${misfit < 0 ? 'short' : 'long'}`,
        bar.span,
        {
          label: `${printBeats(bar.length, bar)}, where ${bar.meter.text} asks for ${printBeats(bar.meter.length, bar)}`,
          help: 'check the note lengths, or change the metre in front of the bar, for example `[M:2/4]`',
        },
      ),
    );
  }
}

function checkVoices(source: SourceText, bars: readonly Bar[], voices: Voices, report: Report): void {
  for (const [voice, written] of voices) {
    for (const [index, own] of written.entries()) {
      const bar = bars[index];
      if (bar === undefined) continue;
      const range = { start: own.start, end: own.end };
      const [main = zero, ...overlays] = own.layers;
      const overlay = overlays.reduce(greatest, zero);
      if (!equals(lengthOfBar(own), bar.length)) {
        report(
          findingAt(
            source,
            'S0302',
            'error',
            `bar ${bar.label} of voice \`${voice}\` is ${compare(lengthOfBar(own), bar.length) < 0 ? 'shorter' : 'longer'} than in the other voices`,
            range,
            {
              label: `${printBeats(lengthOfBar(own), bar)}, where the others have ${printBeats(bar.length, bar)}`,
              help: 'check the note lengths of the bar',
            },
          ),
        );
      } else if (compare(overlay, main) > 0) {
        report(
          findingAt(
            source,
            'S0306',
            'warning',
            `the overlay in bar ${bar.label} is longer than the bar`,
            range,
            {
              label: `${printBeats(overlay, bar)} over ${printBeats(main, bar)}`,
              help: 'check the note lengths behind the `&`',
            },
          ),
        );
      }
    }
    const end = written.at(-1);
    const missing = bars.length - written.length;
    if (missing <= 0) continue;
    const range =
      end === undefined ? { start: 0, end: 1 } : { start: Math.max(end.start, end.end - 1), end: end.end };
    report(
      findingAt(
        source,
        'S0303',
        'error',
        `voice \`${voice}\` has ${missing === 1 ? 'one bar' : `${String(missing)} bars`} fewer than the longest voice`,
        range,
        {
          label: `ends after bar ${bars[written.length - 1]?.label ?? '0'}`,
          help: 'write the missing bars, with rests where the voice is silent: `Z` is a bar of rest',
        },
      ),
    );
  }
}

/** Keys and repeat signs that only some voices write, each change once. */
function checkAgreement(
  source: SourceText,
  frames: readonly BarFrame[],
  bars: readonly Bar[],
  voices: Voices,
  report: Report,
): void {
  for (const [voice, written] of voices) {
    let wasApart = false;
    for (const [index, own] of written.entries()) {
      const [frame, bar] = [frames[index], bars[index]];
      if (frame === undefined || bar === undefined) continue;
      const range = { start: own.start, end: own.end };
      const isApart = own.key.fifths !== frame.key.fifths;
      if (isApart && !wasApart) {
        report(
          findingAt(
            source,
            'S0304',
            'warning',
            `voice \`${voice}\` stands in another key than the others from bar ${bar.label}`,
            range,
            {
              notes: [
                'a `K:` in the tune body applies to the voice in which it stands, but is drawn on all staves',
              ],
              help: 'write the change of key into every voice',
            },
          ),
        );
      }
      wasApart = isApart;
      const signs = (lines: BarFrame['opening']): string =>
        JSON.stringify([
          Math.max(1, ...lines.map(line => line.times)),
          lines.some(line => line.startsRepeat),
          lines.find(line => line.ending)?.ending,
        ]);
      if (signs(own.closing) !== signs(frame.closing) || signs(own.opening) !== signs(frame.opening)) {
        report(
          findingAt(
            source,
            'S0305',
            'warning',
            `bar ${bar.label} of voice \`${voice}\` lacks a repeat sign or an ending that another voice has`,
            range,
            {
              notes: ['a sign in one voice counts for all'],
              help: 'write the same signs into every voice',
            },
          ),
        );
      }
    }
  }
}

/** Reports bars that do not fit their metre and voices that do not fit each other. */
export function checkBars(
  source: SourceText,
  frames: readonly BarFrame[],
  bars: readonly Bar[],
  voices: Voices,
  report: Report,
): void {
  checkLengths(source, frames, bars, report);
  checkVoices(source, bars, voices, report);
  checkAgreement(source, frames, bars, voices, report);
}
