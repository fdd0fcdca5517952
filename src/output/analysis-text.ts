import { renderDiagnostic } from '../diagnostics/index.js';
import type { FrameOptions } from '../diagnostics/index.js';
import { printChord, printKey } from '../harmony/index.js';
import type { Analysis, Segment } from '../harmony/index.js';
import type { Score } from '../score/index.js';
import { tonesFromBass } from './analysis-json.js';
import { passageLines } from './analysis-passages.js';
import { printedNote, printedPlace } from './analysis-place.js';
import type { ScoreReport, ScoreReports } from './analysis-report.js';
import { counted } from './counted.js';
import { textTable } from './text-table.js';

const heading = ['bar', 'beat', 'chord', 'tones', 'numeral', 'key', 'function', 'set aside'];

/** The analyses for people: a row for each harmony with the notes that it sets aside, then keys, cadences, pedals, sequences. */
export async function* analysisText(scores: ScoreReports, options: FrameOptions): AsyncGenerator<string> {
  let between = '';
  for await (const score of scores)
    for (const block of scoreBlocks(score, options)) {
      yield between + block;
      between = '\n';
    }
}

function scoreBlocks({ file, diagnostics, analysis }: ScoreReport, options: FrameOptions): readonly string[] {
  const findings = diagnostics.map(diagnostic => renderDiagnostic(diagnostic, options));
  if (analysis === undefined) return findings;
  const { score } = analysis;
  const title = score.title === '' ? '' : ` ${score.title}:`;
  const head = `${options.palette.strong(file)}:${title} ${counted(score.bars.length, 'bar')}, ${counted(analysis.segments.length, 'harmony', 'harmonies')}\n`;
  let key = '';
  let bar = '';
  const rows = analysis.segments.map(segment => {
    const place = printedPlace(score, segment.start);
    const segmentKey = printKey(segment.key);
    const row = [
      place.bar === bar ? '' : place.bar,
      String(Math.round(place.beat * 100) / 100),
      printChord(segment.chord),
      tonesFromBass(segment.chord).join(' '),
      segment.roman,
      segmentKey === key ? '' : segmentKey,
      segment.function,
      setAside(score, segment),
    ];
    [key, bar] = [segmentKey, place.bar];
    return row;
  });
  const [first = '', ...table] = textTable([heading, ...rows], options.width);
  const lines = [options.palette.margin(first), ...table, ...passages(analysis)];
  return [...findings, head + lines.map(line => `${line}\n`).join('')];
}

function setAside(score: Score, { nonChordTones, unexplained }: Segment): string {
  const named = nonChordTones.flatMap(({ note: id, kind, figure }) => {
    const note = score.notes[id];
    return note === undefined
      ? []
      : [`${printedNote(score, note).pitch} ${kind}${figure === undefined ? '' : ` ${figure}`}`];
  });
  const left = unexplained.flatMap(id => {
    const note = score.notes[id];
    return note === undefined ? [] : [`${printedNote(score, note).pitch} unexplained`];
  });
  return [...named, ...left].join(', ');
}

const passages = (analysis: Analysis): readonly string[] =>
  passageLines(analysis).flatMap(({ title, lines }) => ['', title, ...lines.map(line => `  ${line}`)]);
