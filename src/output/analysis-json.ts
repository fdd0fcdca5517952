import { printChord, printKey } from '../harmony/index.js';
import type { Analysis, Chord, NonChordTone, Rival, Segment } from '../harmony/index.js';
import { printPitchClass } from '../score/index.js';
import type { Score } from '../score/index.js';
import { printedNote, printedPlace, quarters } from './analysis-place.js';
import type { ScoreReport, ScoreReports } from './analysis-report.js';
import { findingJson } from './finding-json.js';

/** The analyses as JSON, version 1; quarters count from the start of the written score, repeats not unfolded. */
export async function* analysisJson(scores: ScoreReports): AsyncGenerator<string> {
  yield '{\n  "barwise": 1,\n  "scores": [';
  let [before, end] = ['\n    ', ']'];
  for await (const score of scores) {
    // Strings in JSON hold no line breaks: every one of them is the printer's, and moves in with its place.
    yield before + JSON.stringify(scoreJson(score), null, 2).replaceAll('\n', '\n    ');
    [before, end] = [',\n    ', '\n  ]'];
  }
  yield `${end}\n}\n`;
}

const scoreJson = ({ file, diagnostics, analysis }: ScoreReport): object => ({
  file,
  diagnostics: diagnostics.map(findingJson),
  ...analysisParts(analysis),
});

function analysisParts(analysis: Analysis | undefined): object {
  if (analysis === undefined) return { segments: [], keyAreas: [], cadences: [], pedals: [], sequences: [] };
  const { score } = analysis;
  return {
    segments: analysis.segments.map(segment => segmentJson(score, segment)),
    keyAreas: analysis.keyAreas.map(area => ({ ...spanJson(score, area), key: printKey(area.key) })),
    cadences: analysis.cadences.map(({ kind, onset, key, phrygian, strength }) => ({
      kind,
      quarters: quarters(onset),
      ...printedPlace(score, onset),
      key: printKey(key),
      phrygian,
      strength,
    })),
    pedals: analysis.pedals.map(({ tone, voice, position, ...span }) => ({
      ...spanJson(score, span),
      tone: printPitchClass(tone),
      voice,
      position,
    })),
    sequences: analysis.sequences.map(({ start, unit, statements, step, real }) => ({
      startQuarters: quarters(start),
      ...printedPlace(score, start),
      unitQuarters: quarters(unit),
      statements,
      step,
      real,
    })),
  };
}

function spanJson(score: Score, { start, end }: Pick<Segment, 'start' | 'end'>): object {
  return { startQuarters: quarters(start), endQuarters: quarters(end), ...printedPlace(score, start) };
}

/** Tones of a chord from its bass up. */
export const tonesFromBass = (chord: Chord): readonly string[] =>
  [...chord.tones.slice(chord.inversion), ...chord.tones.slice(0, chord.inversion)].map(printPitchClass);

function segmentJson(score: Score, segment: Segment): object {
  return {
    ...spanJson(score, segment),
    key: printKey(segment.key),
    roman: segment.roman,
    root: printPitchClass(segment.chord.root),
    bass: printPitchClass(segment.bass),
    tones: tonesFromBass(segment.chord),
    quality: segment.chord.quality,
    inversion: segment.chord.inversion,
    chord: printChord(segment.chord),
    function: segment.function,
    confidence: segment.confidence,
    nonChordTones: segment.nonChordTones.flatMap(tone => nonChordToneJson(score, tone)),
    unexplained: segment.unexplained.flatMap(id => {
      const note = score.notes[id];
      return note === undefined ? [] : [printedNote(score, note)];
    }),
    rivals: segment.rivals.map(rivalJson),
  };
}

function nonChordToneJson(
  score: Score,
  { note: id, kind, accented, chromatic, figure }: NonChordTone,
): readonly object[] {
  const note = score.notes[id];
  if (note === undefined) return [];
  return [
    { ...printedNote(score, note), kind, accented, chromatic, ...(figure === undefined ? {} : { figure }) },
  ];
}

function rivalJson({ chord, key, roman, behind, reason }: Rival): object {
  return { chord: printChord(chord), key: printKey(key), roman, behind, reason };
}
