import { add, isBefore, printPitch, subtract } from '../../score/index.js';
import type { Bar, Note } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { map, sequence, word } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { endOf } from '../place/beats.js';
import { liesIn } from '../segments.js';
import type { LineName } from '../subjects/line-name.js';
import type { LineNote } from '../subjects/line-notes.js';
import { lineSubject } from '../subjects/line.js';
import type { Line } from '../subjects/line.js';
import { be, printBe, verb } from '../terms/verb.js';
import type { Verb } from '../terms/verb.js';
import { alignBars } from '../versions/alignment.js';
import { unknownVersion, versionName, versionOf } from '../versions/version-name.js';

/** A line beside the same line of another version. */
export interface LineVersionSays {
  readonly version: string;
}

/** The notes of a line that begin in a bar, each with where it stands there and how long it is. */
const startingIn = (notes: readonly LineNote[], bar: Bar): readonly (readonly [string, Note])[] =>
  notes
    .filter(({ start }) => liesIn(start, { start: bar.start, end: endOf(bar) }))
    .map(({ note, start, end }) => {
      const [from, length] = [subtract(start, bar.start), subtract(end, start)];
      return [
        `${printPitch(note.pitch)} ${String(from.n)}/${String(from.d)} ${String(length.n)}/${String(length.d)}`,
        note,
      ];
    });

/** All notes of a line in one version of the piece; `undefined` where it has no such line. */
function wholeLine(line: LineName, context: ClaimContext): readonly LineNote[] | undefined {
  const found = lineSubject(line, { kind: 'piece' }).resolve(context);
  return found.kind === 'found' ? found.subject.notes : undefined;
}

const same = map(
  sequence(word('the same', 'identical', 'unchanged'), word('in', 'as in', 'with'), versionName),
  ([, , version]): LineVersionSays => ({ version }),
);
const isDifferent: Verb = map(sequence(be, word('different', 'changed')), ([{ negated }]) => ({
  negated: !negated,
}));
const differs: Verb = map(verb('differs', 'differ'), ({ negated }) => ({ negated: !negated }));

/** A line note by note against another version: claims N1 and N4 of the trade. Bars stand beside each other as in `alignBars`. */
export const lineVersionFamily = family<Line, LineVersionSays>({
  name: 'version of a line',
  examples: ['the left hand of bar 8 is the same in "altered.abc"'],
  phrases: [
    [be, same],
    [
      isDifferent,
      map(sequence(word('in', 'from'), versionName), ([, version]): LineVersionSays => ({ version })),
    ],
    [
      differs,
      map(sequence(word('in', 'from'), versionName), ([, version]): LineVersionSays => ({ version })),
    ],
  ],
  print: ({ version }, form) => `${printBe(form)} the same in "${version}"`,
  check: (line, { version }, context): Finding<Line> => {
    const other = versionOf(version, context);
    if (other === undefined) return { ...unknownVersion(version), pointless: true };
    const { score } = context.analysis;
    const [ours, others] = [
      wholeLine(line.line, context),
      wholeLine(line.line, { ...context, analysis: other }),
    ];
    if (ours === undefined || others === undefined)
      return {
        verdict: 'undecided',
        code: 'C0006',
        reason: `"${version}" has no line of that name`,
        evidence: [],
        pointless: true,
      };
    const rows = alignBars(score, other.score).filter(
      ({ here }) =>
        here !== undefined &&
        isBefore(here.start, line.span.range.end) &&
        isBefore(line.span.range.start, endOf(here)),
    );
    const changed = rows.flatMap(({ here, there }) => {
      const own = here === undefined ? [] : startingIn(ours, here);
      const theirs = there === undefined ? [] : startingIn(others, there);
      const inside = own.filter(([, note]) => liesIn(note.onset, line.span.range));
      const keys = theirs.map(([key]) => key);
      const missing = inside.filter(([key]) => !keys.includes(key)).map(([, note]) => note);
      const ownKeys = own.map(([key]) => key);
      const added = theirs
        .filter(([key]) => !ownKeys.includes(key))
        .map(([, note]) => note)
        .filter(
          ({ onset }) =>
            here === undefined ||
            there === undefined ||
            liesIn(add(here.start, subtract(onset, there.start)), line.span.range),
        );
      return missing.length + added.length === 0 ? [] : [{ label: here?.label ?? '', missing, added }];
    });
    const [first] = changed;
    const list = (notes: readonly Note[]): string =>
      notes.map(({ pitch }) => printPitch(pitch)).join(' ') || 'nothing';
    return {
      verdict: first === undefined ? 'holds' : 'fails',
      code: first === undefined ? 'C2001' : 'C2002',
      reason:
        first === undefined
          ? `all notes of ${line.name} are the same`
          : `bar ${first.label} has ${list(first.missing)} here and ${list(first.added)} in "${version}"`,
      evidence: (first?.missing ?? [])
        .slice(0, 4)
        .map(note => noteEvidence('contradicts', note, `not in "${version}"`, context)),
      local: true,
    };
  },
});
