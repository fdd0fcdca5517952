import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { analyse, printChord, printKey } from '../../src/harmony/index.js';
import type { Analysis } from '../../src/harmony/index.js';
import { compare, placeAt, printFraction, printPitch, printPitchClass } from '../../src/score/index.js';
import type { Fraction, Score } from '../../src/score/index.js';
import { scoreOf } from './pieces.js';

/**
 * The analyses of the sample scores, read line by line by a musician before they were kept. A line that begins with `!` is a remark of
 * that reader: it disagrees with the line above it, which stands there because the engine says so. To take over what the engine says now:
 * `BARWISE_REFRESH=golden-analysis npx vitest run tests/harmony/golden-analysis.test.ts`, then read the difference.
 */
const refresh = process.env['BARWISE_REFRESH'] === 'golden-analysis';

const place = (score: Score, moment: Fraction): string => {
  const at = placeAt(score, moment);
  return at === undefined ? '?' : `${at.label}.${printFraction(at.beat)}`;
};

/** Bars of a passage, its end excluded. */
function bars(score: Score, start: Fraction, end: Fraction): string {
  const last = score.bars.findLast(bar => compare(bar.start, end) < 0);
  return `${place(score, start)} to the end of bar ${last?.label ?? '?'}`;
}

function tableOf({ score, segments, keyAreas, cadences, pedals, sequences }: Analysis): readonly string[] {
  const pitchOf = (note: number): string => {
    const found = score.notes[note];
    return found === undefined ? '?' : printPitch(found.pitch);
  };
  const rows = segments.map(segment => [
    place(score, segment.start),
    printChord(segment.chord),
    segment.roman,
    printKey(segment.key),
    segment.function,
    [
      ...segment.nonChordTones.map(({ note, kind, figure, chromatic }) =>
        [pitchOf(note), chromatic ? 'chromatic' : '', kind, figure ?? ''].filter(Boolean).join(' '),
      ),
      ...segment.unexplained.map(note => `${pitchOf(note)} unexplained`),
    ].join(', '),
  ]);
  const widths = [0, 1, 2, 3, 4].map(column => Math.max(...rows.map(row => (row[column] ?? '').length)));
  return [
    ...rows.map(row =>
      row
        .map((cell, column) => cell.padEnd(widths[column] ?? 0))
        .join('  ')
        .trimEnd(),
    ),
    '',
    ...keyAreas.map(({ start, end, key }) => `key      ${bars(score, start, end)}: ${printKey(key)}`),
    ...cadences.map(
      ({ kind, onset, key, phrygian }) =>
        `cadence  ${place(score, onset)}: ${phrygian ? 'Phrygian ' : ''}${kind} in ${printKey(key)}`,
    ),
    ...pedals.map(
      ({ start, end, tone, position }) =>
        `pedal    ${bars(score, start, end)}: ${printPitchClass(tone)} in the ${position}`,
    ),
    ...sequences.map(
      ({ start, statements, step, real }) =>
        `sequence ${place(score, start)}: ${String(statements)} statements by ${String(step)}${real ? ', real' : ''}`,
    ),
  ];
}

/** The lines of the engine with the remarks of the reader kept below the lines that they are about. */
const withRemarks = (lines: readonly string[], kept: readonly string[]): readonly string[] =>
  lines.flatMap(line => {
    const at = kept.indexOf(line);
    const after = at < 0 ? [] : kept.slice(at + 1);
    const end = after.findIndex(next => !next.startsWith('!'));
    return [line, ...after.slice(0, end < 0 ? after.length : end)];
  });

describe('the analysis of a sample score is the one that was read and kept', () => {
  test.each(['mill-road', 'long-table'])('%s', name => {
    const source = new URL(`../../sample-lessons/${name}.abc`, import.meta.url);
    const golden = new URL(`../fixtures/harmony/golden/${name}.txt`, import.meta.url);
    const lines = tableOf(analyse(scoreOf(readFileSync(source, 'utf8'))));
    const kept = existsSync(golden) ? readFileSync(golden, 'utf8').trimEnd().split('\n') : [];
    if (refresh) writeFileSync(golden, `${withRemarks(lines, kept).join('\n')}\n`);
    else expect(lines.join('\n')).toBe(kept.filter(line => !line.startsWith('!')).join('\n'));
  });
});
