import { offsetOf, placeOf, type Diagnostic, type SourceText } from '../diagnostics/index.js';
import { readEngraving, type Engraving } from './abc.js';
import type { AbcText } from './abc-text.js';
import { findingAt } from './finding.js';
import type { Note, Score } from './model.js';

/** Complaints about what is drawn as meant, or what the checks of the fields say better. */
const harmless = /^(Duration not representable|Ignored header|Unknown directive|Can't have an unknown V: id)/;

/** The tune without directives, which lay out the page and cost time, except those that choose the voices. */
const withoutLayout = (tune: string): string =>
  tune.replace(/^%%(?!\s*(?:score|staves|begin|end)).*$/gm, line => `%${' '.repeat(line.length - 1)}`);

/** The notes that the engraver does not draw. */
function notDrawn(engraving: Engraving, start: number, notes: readonly Note[]): readonly Note[] {
  const { notes: drawn } = engraving;
  let next = 0;
  return [...notes]
    .sort((a, b) => a.span.start - b.span.start)
    .filter(note => {
      const at = note.span.start - start;
      while ((drawn[next]?.end ?? Infinity) <= at) next += 1;
      return !((drawn[next]?.start ?? Infinity) <= at);
    });
}

/** Reports what the engraver leaves out or does not understand, so that the student sees what is heard. */
export function checkEngraving(
  source: SourceText,
  abc: AbcText,
  score: Score,
  known: readonly Diagnostic[],
  report: (finding: Diagnostic) => void,
): void {
  const engraving = readEngraving(withoutLayout(source.text.slice(abc.start, abc.end)));
  const firstLine = placeOf(source, abc.start).line;
  const knownLines = new Set(
    known.map(({ span }) => (span === undefined ? 0 : placeOf(source, span.start).line)),
  );
  for (const { line, column, message } of engraving.complaints) {
    const place = { line: firstLine + line - 1, column };
    if (harmless.test(message) || knownLines.has(place.line)) continue;
    const at = offsetOf(source, place);
    report(
      findingAt(
        source,
        'S0501',
        'warning',
        `the engraver complains: ${message.charAt(0).toLowerCase()}${message.slice(1)}`,
        { start: at, end: at + 1 },
        {
          notes: ['what it does not understand it leaves out'],
        },
      ),
    );
  }
  const missing = notDrawn(
    engraving,
    abc.start,
    score.notes.filter(note => !note.grace),
  );
  const voices = new Map(missing.map(note => [note.voice, note] as const).reverse());
  for (const [voice, note] of voices) {
    const count = missing.filter(other => other.voice === voice).length;
    report(
      findingAt(
        source,
        'S0502',
        'warning',
        `${count === 1 ? 'a note' : `${String(count)} notes`} of voice \`${voice}\` ${count === 1 ? 'is' : 'are'} heard but not drawn`,
        note.span,
        {
          label: count === 1 ? 'not drawn' : 'the first of them',
          help: 'check that the `%%score` directive names the voice, and that the engraver understands the line',
        },
      ),
    );
  }
}
