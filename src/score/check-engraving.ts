import { offsetOf, placeOf, type Diagnostic, type SourceText } from '../diagnostics/index.js';
import { readEngraving, type Engraving } from './abc.js';
import { hidden, type AbcText } from './abc-text.js';
import { findingAt, type Range } from './finding.js';
import { isFree } from './meter.js';
import type { Note, Rest, Score } from './model.js';

/** Complaints about what is drawn as meant, or what the checks of the fields say better. */
const harmless = /^(Duration not representable|Ignored header|Unknown directive|Can't have an unknown V: id)/;

/** The tune without directives, which lay out the page and cost time, except those that choose the voices. */
const withoutLayout = (tune: string): string =>
  tune.replace(/^%%(?!\s*(?:score|staves|begin|end)).*$/gm, hidden);

/** What begins in none of the drawn ranges, which are sorted and count from `start`. */
function notWithin<T extends Pick<Note, 'span'>>(
  drawn: readonly Range[],
  start: number,
  written: readonly T[],
): readonly T[] {
  let next = 0;
  return written
    .toSorted((a, b) => a.span.start - b.span.start)
    .filter(({ span }) => {
      const at = span.start - start;
      while ((drawn[next]?.end ?? Infinity) <= at) next += 1;
      return !((drawn[next]?.start ?? Infinity) <= at);
    });
}

interface Complaint extends Range {
  readonly message: string;
}

/** The first complaint about each place; those of one kind that follow each other sign by sign are one. */
function mergeComplaints(complaints: readonly Complaint[]): readonly Complaint[] {
  const merged: Complaint[] = [];
  for (const complaint of complaints.toSorted((a, b) => a.start - b.start)) {
    const last = merged.at(-1);
    if (last === undefined || complaint.start > last.end) merged.push(complaint);
    else if (complaint.start === last.end) {
      if (complaint.message === last.message) merged.splice(-1, 1, { ...last, end: complaint.end });
      else merged.push(complaint);
    }
  }
  return merged;
}

/** What to write instead of what the engraver does not understand. */
function helpAgainst(message: string): string {
  if (/^unknown bar/i.test(message))
    return 'write a bar line that it draws: `|`, `||`, `|]`, `|:`, `:|`, or `::` between two repeated parts';
  if (/^unknown decoration/i.test(message))
    return 'check the spelling, or write words as text: `"^words"` in front of the note';
  return 'take the sign out, or write it as the ABC standard has it';
}

/** The first notes or rests of the bars that begin another metre, voice by voice. */
function startsOfMetres({ bars, notes, rests }: Score): readonly (Note | Rest)[] {
  const changes = new Set(
    bars
      .filter(({ index, meter }) => index > 0 && meter.text !== bars[index - 1]?.meter.text)
      .map(bar => bar.index),
  );
  const firsts = new Map<string, Note | Rest>();
  for (const each of [...notes.filter(note => !note.grace), ...rests]) {
    if (!changes.has(each.bar)) continue;
    const key = `${String(each.bar)} ${each.voice}`;
    const known = firsts.get(key);
    if (known === undefined || each.span.start < known.span.start) firsts.set(key, each);
  }
  return [...firsts.values()];
}

/** Reports each change of metre that a voice is drawn without. */
function checkMetres(
  source: SourceText,
  abc: AbcText,
  score: Score,
  engraving: Engraving,
  report: (finding: Diagnostic) => void,
): void {
  const voices = new Set(score.voices.filter(voice => voice.overlayOf === undefined).map(({ id }) => id));
  const starts = startsOfMetres(score).filter(({ voice }) => voices.has(voice));
  const bare = notWithin(engraving.behindMetre, abc.start, starts);
  const reported = new Set<number>();
  for (const { bar: index, span } of bare) {
    const bar = score.bars[index];
    if (bar === undefined || reported.has(index)) continue;
    reported.add(index);
    const field = abc.fields.findLast(({ letter, start }) => letter === 'M' && start < span.start);
    report(
      findingAt(
        source,
        'S0504',
        'warning',
        `the change to ${bar.meter.text} in bar ${bar.label} is not drawn in every voice`,
        field ?? span,
        {
          notes: ['a voice is drawn with the metres that stand in it'],
          help: `write \`[M:${bar.meter.text}]\` in front of this bar in every voice`,
        },
      ),
    );
  }
}

/** Reports a first bar that is read in a metre with which not every staff begins. */
function checkOpeningMetre(
  source: SourceText,
  abc: AbcText,
  { bars: [first] }: Score,
  { openingMetres }: Engraving,
  report: (finding: Diagnostic) => void,
): void {
  if (first === undefined || isFree(first.meter)) return;
  const { text } = first.meter;
  const isSum = text.includes('+');
  if (isSum || openingMetres.every(metre => metre === '' || metre === text)) return;
  const fields = abc.fields.filter(({ letter }) => letter === 'M');
  const field = fields.find(({ place }) => place !== 'header') ?? fields[0];
  report(
    findingAt(
      source,
      'S0504',
      'warning',
      `the metre ${text} of ${first.label === '0' ? 'the pickup' : `bar ${first.label}`} is not drawn at the head of every staff`,
      field ?? first.span,
      {
        notes: ['a staff begins with the metre of the header, unless its own voice names another'],
        help: `write \`M:${text}\` into the header, above \`K:\``,
      },
    ),
  );
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
  const complaints = engraving.complaints.flatMap(({ line, column, message }): readonly Complaint[] => {
    const place = { line: firstLine + line - 1, column };
    if (harmless.test(message) || knownLines.has(place.line)) return [];
    const start = offsetOf(source, place);
    return [{ start, end: start + 1, message }];
  });
  for (const complaint of mergeComplaints(complaints)) {
    const { message } = complaint;
    report(
      findingAt(
        source,
        'S0501',
        'warning',
        `the engraver complains: ${message.charAt(0).toLowerCase()}${message.slice(1)}`,
        complaint,
        {
          notes: ['what it does not understand it leaves out'],
          help: helpAgainst(message),
        },
      ),
    );
  }
  checkOpeningMetre(source, abc, score, engraving, report);
  checkMetres(source, abc, score, engraving, report);
  const missing = notWithin(
    engraving.notes,
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
