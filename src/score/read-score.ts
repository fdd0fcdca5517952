import type { Diagnostic, Result, SourceText } from '../diagnostics/index.js';
import { findUnreadableLine, readMusicCode } from './abc.js';
import { readAbcText, unescapeText, type AbcText } from './abc-text.js';
import { frameBars, placeBars } from './bars.js';
import { checkBars } from './check-bars.js';
import { checkClefs } from './check-clefs.js';
import { checkEngraving } from './check-engraving.js';
import { checkFields } from './check-fields.js';
import { checkKind, checkOutline } from './check-outline.js';
import { checkPlayingOrder } from './check-playing-order.js';
import { findingAt } from './finding.js';
import { add, zero } from './fraction.js';
import { checkCount, checkParts, checkSize } from './limits.js';
import type { Score } from './model.js';
import { directionsOf, placeMarks, placeNotes, placeRests, placeTempos, withOverlays } from './placed.js';
import { playingOrderOf } from './playing-order.js';
import { readVoices } from './voice-fields.js';
import { readVoiceBars } from './voice-reader.js';

const emptyScore = (source: SourceText): Score => ({
  source,
  title: '',
  composer: '',
  voices: [],
  notes: [],
  rests: [],
  bars: [],
  playingOrder: [],
  tempos: [],
  marks: [],
  length: zero,
});

const textOf = (abc: AbcText, letter: string): string =>
  unescapeText(abc.fields.find(field => field.letter === letter)?.value.trim() ?? '');

const byPlace = (a: Diagnostic, b: Diagnostic): number =>
  (a.span?.start ?? 0) - (b.span?.start ?? 0) || a.code.localeCompare(b.code);

const mostOfOneKind = 25;

/** At most so many findings of one code; the last of them says how many there are. */
function limitEachKind(findings: readonly Diagnostic[]): readonly Diagnostic[] {
  const counts = new Map<string, number>();
  for (const { code } of findings) counts.set(code, (counts.get(code) ?? 0) + 1);
  const seen = new Map<string, number>();
  return findings.flatMap(finding => {
    const number = (seen.get(finding.code) ?? 0) + 1;
    seen.set(finding.code, number);
    const more = (counts.get(finding.code) ?? 0) - mostOfOneKind;
    if (number > mostOfOneKind) return [];
    if (number < mostOfOneKind || more <= 0) return [finding];
    return [{ ...finding, notes: [...(finding.notes ?? []), `${String(more)} more of this kind follow`] }];
  });
}

function read(source: SourceText, abc: AbcText): Result<Score> {
  const diagnostics: Diagnostic[] = [];
  const report = (finding: Diagnostic): void => void diagnostics.push(finding);
  const voices = readVoices(abc);
  const elements = readMusicCode(abc.parserText);
  const tooMany = checkCount(source, elements);
  if (tooMany !== undefined) return { value: emptyScore(source), diagnostics: [tooMany] };
  const written = readVoiceBars(abc, source, elements, voices, report);
  const frames = frameBars([...written.values()]);
  const bars = placeBars(source, frames);
  const directions = directionsOf(written);
  const notes = placeNotes(source, written, bars);
  const last = bars.at(-1);
  const score: Score = {
    source,
    title: textOf(abc, 'T'),
    composer: textOf(abc, 'C'),
    voices: withOverlays(voices, written),
    notes,
    rests: placeRests(source, written, bars),
    bars,
    playingOrder: playingOrderOf(frames, directions),
    tempos: placeTempos(written, bars),
    marks: placeMarks(written, bars),
    length: last === undefined ? zero : add(last.start, last.length),
  };
  checkOutline(source, abc, notes.length > 0, report);
  checkFields(source, abc, voices, report);
  checkClefs(source, abc, score, report);
  checkBars(source, frames, bars, written, report);
  checkPlayingOrder(source, score, directions, report);
  checkEngraving(source, abc, score, diagnostics, report);
  return { value: score, diagnostics: limitEachKind(diagnostics.sort(byPlace)) };
}

/**
 * Reads the first ABC tune (standard 2.1) of a source. Never throws: what is wrong or doubtful is in the findings (codes S...),
 * and a text that cannot be read at all gives an empty score with an error.
 */
export function readScore(source: SourceText): Result<Score> {
  const refuse = (finding: Diagnostic): Result<Score> => ({
    value: emptyScore(source),
    diagnostics: [finding],
  });
  const unfitAsAWhole = checkSize(source) ?? checkKind(source);
  if (unfitAsAWhole !== undefined) return refuse(unfitAsAWhole);
  const abc = readAbcText(source);
  const unfit = checkParts(source, abc);
  if (unfit !== undefined) return refuse(unfit);
  try {
    return read(source, abc);
  } catch (error) {
    const start = { start: abc.start, end: abc.start + 1 };
    if (error instanceof RangeError) {
      return refuse(
        findingAt(
          source,
          'S0005',
          'error',
          'the note lengths add up to times that cannot be held exactly',
          start,
          {
            notes: [error.message],
            help: 'use the lengths of notation: halves, thirds, fifths, sevenths and their halves',
          },
        ),
      );
    }
    const reason = error instanceof Error ? error.message : String(error);
    return refuse(
      findingAt(
        source,
        'S0006',
        'error',
        'the engraver cannot read this line',
        findUnreadableLine(abc.parserText) ?? start,
        { notes: [reason], help: 'look for a chord, a quotation or a decoration without an end' },
      ),
    );
  }
}
