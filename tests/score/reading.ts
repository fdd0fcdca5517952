import { readFileSync } from 'node:fs';
import { placeOf, sourceText, type Diagnostic } from '../../src/diagnostics/index.js';
import { printFraction, printPitch, readScore, type Score } from '../../src/score/index.js';

export const header = 'X:1\nM:4/4\nL:1/4\nK:C\n';

/** Reads a whole tune. */
export const read = (text: string): { readonly score: Score; readonly findings: readonly Diagnostic[] } => {
  const { value, diagnostics } = readScore(sourceText('test.abc', text));
  return { score: value, findings: diagnostics };
};

/** Reads music under a plain header: 4/4, quarters, C major. */
export const readMusic = (music: string): Score => read(header + music).score;

export const fixture = (name: string): string =>
  readFileSync(new URL(`../fixtures/score/${name}`, import.meta.url), 'utf8');

/** Main notes as `C4 1/4`, in the order of the score. */
export const pitchesOf = (score: Score): string =>
  mainNotes(score)
    .map(note => printPitch(note.pitch))
    .join(' ');

export const mainNotes = (score: Score): Score['notes'] => score.notes.filter(note => !note.grace);

export const lengthsOf = (score: Score): string =>
  mainNotes(score)
    .map(note => printFraction(note.duration))
    .join(' ');

export const onsetsOf = (score: Score): string =>
  mainNotes(score)
    .map(note => printFraction(note.onset))
    .join(' ');

export const orderOf = (score: Score): string =>
  score.playingOrder.map(({ bar }) => score.bars[bar]?.label ?? '?').join(' ');

/** `S0301 5:3` */
export const printFinding = (finding: Diagnostic): string => {
  const place = finding.span === undefined ? undefined : placeOf(finding.span.source, finding.span.start);
  return `${finding.code} ${String(place?.line)}:${String(place?.column)}`;
};
