import type { Key } from '../../harmony/index.js';
import { compare, isBefore, midiOf, pitchClassOf, printPitch } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { Finding, Predicate } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { choice, list, map, mark, nothing, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { segmentsIn } from '../segments.js';
import type { Line } from '../subjects/line.js';
import { stepsOf } from '../subjects/line-steps.js';
import { lineDegree, printLineDegree, toneOfDegree } from '../terms/degree.js';
import type { DegreeName } from '../terms/degree.js';
import { isNamed, noteName, printNoteName } from '../terms/note-name.js';
import type { NoteName } from '../terms/note-name.js';
import { printVerb } from '../terms/verb.js';
import type { VerbForm } from '../terms/verb.js';
import { sayLine } from './line-movement.js';
import { onTo } from './line-way.js';

/** A line note by note. */
export type RowSays =
  | { readonly kind: 'notes'; readonly notes: readonly NoteName[]; readonly up?: boolean }
  /** By degrees of the key there or of the home key: `3-2-1`, `mi re do`. */
  | { readonly kind: 'degrees'; readonly degrees: readonly DegreeName[] };

const arrow = quiet(
  choice(
    map(mark('-', '–', '→', ','), () => undefined),
    map(word('to', 'and then', 'then'), () => undefined),
    nothing(undefined),
  ),
);
/** `3-2-1`, `mi re do`: two or more. */
export const degrees: Parser<RowSays> = map(
  sequence(
    quiet(optional(word('scale degrees', 'degrees', 'through', 'through scale degrees'))),
    lineDegree,
    arrow,
    list(lineDegree, arrow),
  ),
  ([, first, , others]) => ({ kind: 'degrees', degrees: [first, ...others] }),
);
export const notes: Parser<RowSays> = map(list(noteName, arrow), each => ({ kind: 'notes', notes: each }));

/** Two or more: what a line rises through. */
export const severalNotes = (up?: boolean): Parser<RowSays> =>
  map(
    sequence(quiet(optional(word('through'))), noteName, arrow, list(noteName, arrow)),
    ([, first, , rest]) => ({
      kind: 'notes',
      notes: [first, ...rest],
      ...(up === undefined ? {} : { up }),
    }),
  );
export const dash = mark('-', '–', '→');
/** `D# - E - C`: a row, where notes in any order would be a list. */
export const rowOfNotes: Parser<RowSays> = map(
  sequence(noteName, dash, noteName, dash, list(noteName, dash)),
  ([first, , second, , rest]) => ({ kind: 'notes', notes: [first, second, ...rest] }),
);
/** `from D to B and on to C`. */
export const severalFrom: Parser<RowSays> = map(
  sequence(word('from'), noteName, onTo, noteName, onTo, list(noteName, onTo)),
  ([, first, , second, , rest]) => ({ kind: 'notes', notes: [first, second, ...rest] }),
);

export function describeRow(says: RowSays, form: VerbForm): string {
  if (says.kind === 'degrees')
    return `${printVerb('goes', 'go', form)} ${says.degrees.map(printLineDegree).join(' ')}`;
  const verbs =
    says.up === undefined
      ? printVerb('goes', 'go', form)
      : says.up
        ? printVerb('rises through', 'rise through', form)
        : printVerb('falls through', 'fall through', form);
  return `${verbs} ${says.notes.map(printNoteName).join(' ')}`;
}

/** Whether a line goes through these notes and no others. A note that is struck again may be said once or each time. */
export function checkRow(
  line: Line,
  says: RowSays,
  context: ClaimContext,
  make: (says: RowSays) => Predicate<Line>,
): Finding<Line> {
  const all = line.notes.map(({ note }) => note);
  const sounding = all.filter(
    (note, at) =>
      at === 0 ||
      midiOf(note.pitch) !== midiOf(all[at - 1]?.pitch ?? note.pitch) ||
      note.pitch.letter !== all[at - 1]?.pitch.letter,
  );
  const wanted = says.kind === 'notes' ? says.notes : says.degrees;
  const keys = [segmentsIn(context.analysis, line.span.range)[0]?.key ?? context.home, context.home];
  const fitsIn = (key: Key, row: readonly Note[]): boolean =>
    row.length === wanted.length &&
    wanted.every((name, at) => {
      const note = row[at];
      if (note === undefined) return false;
      return 'kind' in name ? toneOfDegree(name, key) === pitchClassOf(note.pitch) : isNamed(note, name);
    });
  const names = sounding.map((note): NoteName => ({ pitchClass: pitchClassOf(note.pitch) }));
  const turns =
    says.kind === 'notes' && says.up !== undefined && stepsOf(line).some(step => step.up !== says.up);
  const holds = !turns && keys.some(key => fitsIn(key, sounding) || fitsIn(key, all));
  // `C, B flat, A from bar 12 into bar 13`: the row reaches into the last bar, and the line goes on there.
  const row = sounding.slice(0, wanted.length);
  const lastBar = context.analysis.score.bars.findLast(bar => isBefore(bar.start, line.span.range.end));
  const [arrives, further] = [row.at(-1), sounding[row.length]];
  const goesOn =
    !holds &&
    wanted.length > 2 &&
    arrives !== undefined &&
    lastBar !== undefined &&
    compare(lastBar.start, line.span.range.start) > 0 &&
    compare(lastBar.start, arrives.onset) <= 0 &&
    keys.some(key => fitsIn(key, row));
  if (goesOn && further !== undefined)
    return {
      verdict: 'arguable',
      code: 'C1109',
      reason: `${line.name} goes so, and then on to ${printPitch(further.pitch)}`,
      evidence: [
        ...row.map(note => noteEvidence('supports', note, 'a note of the line', context)),
        noteEvidence('contradicts', further, 'not in the claim', context),
      ],
      instead: () => [make({ kind: 'notes', notes: names })],
    };
  return {
    verdict: holds ? 'holds' : 'fails',
    code: holds ? 'C1101' : 'C1102',
    reason: `${line.name} goes ${sayLine(line)}`,
    evidence: sounding
      .slice(0, 16)
      .map(note => noteEvidence(holds ? 'supports' : 'contradicts', note, 'a note of the line', context)),
    ...(holds ? {} : { instead: () => [make({ kind: 'notes', notes: names })] }),
  };
}
