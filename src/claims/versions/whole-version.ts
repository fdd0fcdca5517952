import { printShift, shift } from '../families/recurrence.js';
import type { Shift } from '../families/recurrence.js';
import { compare, equals, midiOf, printPitch } from '../../score/index.js';
import type { Note, Score } from '../../score/index.js';
import type { Claim } from '../claim.js';
import { choice, map, mark, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { Verdict } from '../model.js';
import { oneBar } from '../place/place-name.js';
import { intervalBetween, printInterval } from '../terms/interval-name.js';
import type { IntervalName } from '../terms/interval-name.js';
import { shiftOf } from '../subjects/events.js';
import { alignBars } from './alignment.js';
import { isSameBar } from './differences.js';
import { unknownVersion, versionName, versionOf } from './version-name.js';

/** The struck notes of a score in time order, from low to high. */
const struck = (score: Score): readonly Note[] =>
  score.notes
    .filter(note => !note.grace && note.tiedFrom === undefined)
    .sort((a, b) => compare(a.onset, b.onset) || midiOf(a.pitch) - midiOf(b.pitch));

const isHigher = (note: Note, copy: Note): boolean => midiOf(copy.pitch) > midiOf(note.pitch);

function lies({ steps, semitones }: IntervalName, wanted: Shift, first: IntervalName): boolean {
  switch (wanted.kind) {
    case 'none':
      return steps === 0 && semitones === 0;
    case 'any':
      return steps === first.steps;
    case 'interval': {
      const sign = wanted.up ? 1 : -1;
      return steps === sign * wanted.interval.steps && semitones === sign * wanted.interval.semitones;
    }
    case 'steps':
      return steps === (wanted.up ? 1 : -1) * wanted.steps;
  }
}

/** `"low.abc" is a whole tone lower`: every note, by letters and semitones. */
const transposed = (name: string, moved: Shift): Claim => ({
  content: { version: name, transposed: moved },
  print: () => `"${name}" is${moved.kind === 'any' ? ' transposed' : printShift(moved)}`,
  check: (context): Verdict => {
    const other = versionOf(name, context);
    if (other === undefined) return unknownVersion(name);
    const [here, there] = [struck(context.analysis.score), struck(other.score)];
    const pairs = here.flatMap((note, at) => {
      const copy = there[at];
      return copy === undefined || !equals(copy.onset, note.onset) ? [] : [{ note, copy }];
    });
    const [first] = pairs;
    if (first === undefined || pairs.length < here.length || here.length !== there.length)
      return {
        verdict: 'fails',
        code: 'C2002',
        reason: 'the two versions do not have as many notes at the same moments',
        evidence: [],
      };
    const interval = shiftOf(first.note, first.copy);
    const isTransposed = interval.steps !== 0 || interval.semitones !== 0;
    const wrong = pairs.find(({ note, copy }) => !lies(shiftOf(note, copy), moved, interval));
    const actual: Shift = {
      kind: 'interval',
      interval: intervalBetween(first.note.pitch, first.copy.pitch),
      up: isHigher(first.note, first.copy),
    };
    const isReal = pairs.every(({ note, copy }) => lies(shiftOf(note, copy), actual, interval));
    const holds = wrong === undefined && isTransposed;
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C2001' : 'C2002',
      reason: !isTransposed
        ? 'the two versions begin on the same note'
        : wrong === undefined
          ? `${printPitch(first.note.pitch)} is ${printPitch(first.copy.pitch)} there, and every note lies so`
          : `${printPitch(wrong.note.pitch)} is ${printPitch(wrong.copy.pitch)} in "${name}", ${printInterval(intervalBetween(wrong.note.pitch, wrong.copy.pitch))} ${isHigher(wrong.note, wrong.copy) ? 'higher' : 'lower'}`,
      evidence: [],
      ...(holds || !isTransposed || !isReal ? {} : { nearest: transposed(name, actual).print() }),
    };
  },
});

/** `"long.abc" inserts a bar after bar 3`: the two versions differ in no more bars than if another bar were the new one. */
const insertedAfter = (name: string, label: string): Claim => ({
  content: { version: name, insertedAfter: label },
  print: () => `"${name}" inserts a bar after bar ${label}`,
  check: (context): Verdict => {
    const other = versionOf(name, context);
    if (other === undefined) return unknownVersion(name);
    const { score } = context.analysis;
    const fails = (reason: string): Verdict => ({ verdict: 'fails', code: 'C2003', reason, evidence: [] });
    const bar = score.bars.find(each => each.label === label);
    if (bar === undefined) return { ...fails(`there is no bar ${label}`), code: 'C0003' };
    const rows = alignBars(score, other.score);
    const added = rows.flatMap(({ here, there }) =>
      here === undefined && there !== undefined ? [there] : [],
    );
    const [only] = added;
    if (only === undefined) return fails(`no bar of "${name}" is new`);
    const before = (index: number): string | undefined =>
      rows
        .slice(
          0,
          rows.findIndex(({ there }) => there?.index === index),
        )
        .findLast(({ here }) => here !== undefined)?.here?.label;
    // Of two equal bars either may be the new one.
    const beside = rows.find(({ there }) => there?.index === only.index + 1);
    const repeatsIt =
      added.length === 1 &&
      beside?.here === bar &&
      beside.there !== undefined &&
      isSameBar(other.score, only, other.score, beside.there);
    const holds = added.some(({ index }) => before(index) === label) || repeatsIt;
    const nearest = added.flatMap(({ index }) => before(index) ?? [])[0];
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C2001' : 'C2003',
      reason: `${added.length === 1 ? 'bar' : 'bars'} ${added.map(each => each.label).join(', ')} of "${name}" ${added.length === 1 ? 'is' : 'are'} new`,
      evidence: [],
      ...(holds || nearest === undefined ? {} : { nearest: insertedAfter(name, nearest).print() }),
    };
  },
});

const transposedBy = choice(
  map(sequence(word('is'), shift), ([, moved]) => moved),
  map(
    sequence(word('transposes'), word('the piece', 'the music', 'it', 'everything'), shift),
    ([, , moved]) => moved,
  ),
);
const addsABar = sequence(
  word('inserts', 'adds'),
  word('a bar', 'one bar', 'a new bar', 'an extra bar', 'a measure'),
);

/** What is said of a version as a whole. */
export const ofWholeVersion: Parser<Claim> = choice(
  map(sequence(versionName, transposedBy), ([name, moved]) => transposed(name, moved)),
  map(sequence(versionName, addsABar, word('after'), oneBar), ([name, , , label]) =>
    insertedAfter(name, label),
  ),
  map(
    sequence(
      word('a bar', 'one bar', 'a new bar', 'a measure'),
      word('is inserted', 'is added'),
      word('after'),
      oneBar,
      word('in'),
      versionName,
    ),
    ([, , , label, , name]) => insertedAfter(name, label),
  ),
  map(
    sequence(
      word('in'),
      versionName,
      quiet(optional(mark(','))),
      word('a bar', 'one bar', 'a new bar', 'a measure'),
      word('is inserted', 'is added'),
      word('after'),
      oneBar,
    ),
    ([, name, , , , , label]) => insertedAfter(name, label),
  ),
);
