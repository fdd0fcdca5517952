import { isBefore, pitchClassOf, printPitch } from '../../score/index.js';
import type { Bar, Pitch } from '../../score/index.js';
import type { Claim, Finding, Predicate } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, sequence, word } from '../grammar/index.js';
import { statement } from '../statement.js';
import { span as spanOf } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { isNamed, noteName, printNoteName } from '../terms/note-name.js';
import type { NoteName } from '../terms/note-name.js';
import { be, have, printBe, printHave, printVerb, verb } from '../terms/verb.js';
import { compareAligned } from '../versions/differences.js';
import type { Compared, Differences } from '../versions/differences.js';
import type { ClaimContext } from '../model.js';
import { endOf } from '../place/beats.js';
import { mainSegment } from '../segments.js';
import { printChord } from '../../harmony/index.js';
import { noChord } from './judged.js';
import { unknownVersion, versionName, versionOf } from '../versions/version-name.js';

/** How a place stands to the same place of another version. */
export type VersionSays =
  | { readonly kind: 'same' | 'differs'; readonly version: string }
  | { readonly kind: 'left out'; readonly version: string }
  /** Whether the triad is the same. */
  | { readonly kind: 'chord'; readonly version: string; readonly same: boolean }
  /** The other version has another note there, or none of that name. */
  | {
      readonly kind: 'instead';
      readonly version: string;
      readonly here: NoteName;
      readonly there?: NoteName;
    };

const nameOf = (pitch: Pitch): NoteName => ({ pitchClass: pitchClassOf(pitch), octave: pitch.octave });

type Make = (says: VersionSays) => Predicate<Span>;

/** Whether all bars of a place are without a partner in the other version. */
function leftOut(
  span: Span,
  version: string,
  found: Compared,
  { analysis }: ClaimContext,
  make: Make,
): Finding<Span> {
  const own = analysis.score.bars.filter(
    bar => isBefore(bar.start, span.range.end) && isBefore(span.range.start, endOf(bar)),
  );
  const [kept] = found.beside;
  return {
    verdict: kept === undefined ? 'holds' : 'fails',
    code: kept === undefined ? 'C2001' : 'C2003',
    reason:
      kept === undefined
        ? `"${version}" has nothing beside ${span.name}`
        : `bar ${kept} of "${version}" stands beside ${own.length === 1 ? span.name : `a bar of ${span.name}`}`,
    evidence: [],
    instead: () =>
      found.here.length + found.there.length === 0
        ? [make({ kind: 'same', version })]
        : [make({ kind: 'differs', version })],
  };
}

/** The chord of a place beside that of the other version, as far as the triad goes. */
function chordThere(
  { range, name }: Span,
  { version, same }: Extract<VersionSays, { readonly kind: 'chord' }>,
  { where }: Compared,
  context: ClaimContext,
  make: Make,
): Finding<Span> {
  const other = versionOf(version, context);
  const one = mainSegment(context.analysis, range);
  const there = other === undefined || where === undefined ? undefined : mainSegment(other, where);
  if (one === undefined || there === undefined) return noChord(name, 'C0103');
  // The first three tones are the triad; a seventh may be added to it.
  const isSame = one.chord.tones.slice(0, 3).every((tone, at) => tone === there.chord.tones[at]);
  return {
    verdict: isSame === same ? 'holds' : 'fails',
    code: isSame === same ? 'C2001' : 'C2002',
    reason: `${printChord(one.chord)} here, ${printChord(there.chord)} in "${version}"`,
    evidence: [],
    instead: () => [make({ kind: 'chord', version, same: isSame })],
    local: true,
  };
}

/** A note and what stands in its place: the first that begin together, or the first of each, where they have different names. */
function exchangesIn({
  here,
  there,
}: Differences): readonly { readonly here: NoteName; readonly there: NoteName }[] {
  const pairs = here.flatMap(note => there.map(other => ({ note, other })));
  return pairs
    .filter(({ note, other }) => printPitch(note.pitch) !== printPitch(other.pitch))
    .slice(0, 1)
    .map(({ note, other }) => ({ here: nameOf(note.pitch), there: nameOf(other.pitch) }));
}

/** The longest part of a place that is the same in another version, where the whole is not. */
function stretchesAlike({ rows }: Compared, version: string): readonly Claim[] {
  const runs: Bar[][] = [[]];
  for (const { bars, differences } of rows) {
    const isSame = differences.here.length + differences.there.length === 0;
    if (isSame && bars.here !== undefined) runs.at(-1)?.push(bars.here);
    else runs.push([]);
  }
  const longest = runs.reduce((best, run) => (run.length > best.length ? run : best), []);
  const [first, last] = [longest[0], longest.at(-1)];
  return first === undefined || last === undefined || longest.length === rows.length
    ? []
    : [
        statement(
          spanOf({ kind: 'bars', first: first.label, last: last.label }),
          versionFamily.make({ kind: 'same', version }),
        ),
      ];
}

/** Note by note against another version: claims N1 and N4 of the trade. Bars stand beside each other as in `alignBars`. */
export const versionFamily = family<Span, VersionSays>({
  name: 'version',
  examples: [
    'bars 1-7 are the same in "altered.abc"',
    'bar 8 differs from "altered.abc"',
    'bar 8 has E5 where "altered.abc" has Eb5',
  ],
  phrases: [
    [
      be,
      map(
        sequence(word('the same', 'identical', 'unchanged'), word('in', 'as in', 'with'), versionName),
        ([, , version]): VersionSays => ({
          kind: 'same',
          version,
        }),
      ),
    ],
    [
      verb('differs in', 'differ in'),
      map(versionName, (version): VersionSays => ({ kind: 'differs', version })),
    ],
    [
      be,
      map(
        sequence(word('different', 'changed'), word('in', 'from'), versionName),
        ([, , version]): VersionSays => ({
          kind: 'differs',
          version,
        }),
      ),
    ],
    [
      have,
      map(
        sequence(noteName, word('instead of'), noteName, word('in', 'of'), versionName),
        ([here, , there, , version]): VersionSays => ({ kind: 'instead', version, here, there }),
      ),
    ],
    [
      be,
      map(
        sequence(word('left out', 'missing', 'omitted', 'cut'), word('in', 'from'), versionName),
        ([, , version]): VersionSays => ({ kind: 'left out', version }),
      ),
    ],
    [
      have,
      map(
        sequence(
          choice(
            map(word('the same chord', 'the same harmony'), () => true),
            map(
              word('another chord', 'a different chord', 'another harmony', 'a different harmony'),
              () => false,
            ),
          ),
          word('in', 'as in', 'than'),
          versionName,
        ),
        ([same, , version]): VersionSays => ({ kind: 'chord', version, same }),
      ),
    ],
    [
      verb('differs from', 'differ from'),
      map(versionName, (version): VersionSays => ({ kind: 'differs', version })),
    ],
    [
      have,
      map(
        sequence(
          noteName,
          word('where'),
          versionName,
          word('has'),
          choice<NoteName | undefined>(
            noteName,
            map(word('none', 'no such note'), () => undefined),
          ),
        ),
        ([here, , version, , there]): VersionSays =>
          there === undefined
            ? { kind: 'instead', version, here }
            : { kind: 'instead', version, here, there },
      ),
    ],
  ],
  print: (says, form) => {
    switch (says.kind) {
      case 'same':
        return `${printBe(form)} the same in "${says.version}"`;
      case 'differs':
        return `${printVerb('differs', 'differ', form)} from "${says.version}"`;
      case 'left out':
        return `${printBe(form)} left out in "${says.version}"`;
      case 'chord':
        return `${printHave(form)} ${says.same ? 'the same chord' : 'another chord'} in "${says.version}"`;
      case 'instead':
        return `${printHave(form)} ${printNoteName(says.here)} where "${says.version}" has ${says.there === undefined ? 'none' : printNoteName(says.there)}`;
    }
  },
  check: (span, says, context, make): Finding<Span> => {
    const other = versionOf(says.version, context);
    if (other === undefined) return { ...unknownVersion(says.version), pointless: true };
    const found = compareAligned(context.analysis.score, span.range, other.score);
    if (says.kind === 'left out') return leftOut(span, says.version, found, context, make);
    // What one version leaves out differs from it, and nothing else can be said of it there.
    if (found.beside.length === 0)
      return {
        verdict: says.kind === 'differs' ? 'holds' : 'fails',
        code: 'C2003',
        reason: `"${says.version}" has nothing beside ${span.name}`,
        evidence: [],
        ...(says.kind === 'differs' ? {} : { pointless: true as const }),
      };
    if (says.kind === 'chord') return chordThere(span, says, found, context, make);
    const changes = found.here.length + found.there.length;
    const list = (notes: typeof found.here): string =>
      [...new Set(notes.map(note => printPitch(note.pitch)))].slice(0, 6).join(' ') || 'nothing';
    const [first] = found.beside;
    const last = found.beside.at(-1);
    const where =
      first === undefined || last === undefined || !found.isMoved
        ? ''
        : ` (its ${first === last ? `bar ${first}` : `bars ${first}-${last}`})`;
    const changed = found.rows.filter(
      ({ differences }) => differences.here.length + differences.there.length > 0,
    );
    const [firstChange] = changed;
    const labels = changed.flatMap(({ bars }) => bars.here?.label ?? []);
    const several = found.rows.length > 1;
    const prefix = labels.length > 1 ? `bars ${labels.join(', ')} differ; ` : '';
    const reason =
      firstChange === undefined
        ? `all notes are the same${where === '' ? '' : ` in "${says.version}"${where}`}`
        : firstChange.bars.here === undefined
          ? `"${says.version}" has bar ${firstChange.bars.there?.label ?? ''} between them`
          : `${prefix}${several ? `bar ${firstChange.bars.here.label} has ` : 'here '}${list(firstChange.differences.here)}${several ? ' here' : ''}, in "${says.version}"${several ? '' : where} ${list(firstChange.differences.there)}`;
    const evidence = (role: 'supports' | 'contradicts') =>
      found.here.slice(0, 6).map(note => noteEvidence(role, note, `not in "${says.version}"`, context));
    const same = says.kind === 'same' ? stretchesAlike(found, says.version) : [];
    const instead = () => [
      ...found.rows
        .flatMap(({ differences }) => exchangesIn(differences))
        .slice(0, 1)
        .map(exchange => make({ kind: 'instead', version: says.version, ...exchange })),
      make({ kind: changes === 0 ? 'same' : 'differs', version: says.version }),
    ];
    const holds = {
      same: changes === 0,
      differs: changes > 0,
      instead:
        says.kind === 'instead' &&
        found.rows.some(
          ({ differences: { here, there } }) =>
            here.some(note => isNamed(note, says.here)) &&
            (says.there === undefined
              ? !there.some(note => isNamed(note, says.here))
              : there.some(note => says.there !== undefined && isNamed(note, says.there))),
        ),
    }[says.kind];
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C2001' : 'C2002',
      reason,
      evidence: evidence(holds ? 'supports' : 'contradicts'),
      ...(same.length > 0 ? { rather: () => same } : { instead }),
      ...(says.kind === 'same' ? { local: true as const } : {}),
    };
  },
});

/** The version from which a predicate tells a place, where it does that. */
export function toldFrom({ family: name, content }: Predicate<Span>): string | undefined {
  if (name !== versionFamily.name) return undefined;
  // Only this family writes content under its name.
  const says = content as VersionSays;
  return says.kind === 'differs' ? says.version : undefined;
}
