import { contentFamily } from '../families/content.js';
import { formFamily } from '../families/form.js';
import { versionFamily } from '../families/version.js';
import { statement } from '../statement.js';
import { span } from '../subjects/span.js';
import { at } from '../place/place-name.js';
import { noteName } from '../terms/note-name.js';
import { isBefore, printPitch } from '../../score/index.js';
import type { Bar } from '../../score/index.js';
import type { Claim, Predicate } from '../claim.js';
import type { Span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { ofWholeVersion } from './whole-version.js';
import { conjunction } from '../conjunction.js';
import { noteEvidence } from '../evidence.js';
import { choice, map, quiet, optional, mark, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Range, Verdict } from '../model.js';
import { endOf } from '../place/beats.js';
import { barList, placeName, printBarList, printPlace, scope } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { isPlural } from '../place/place.js';
import { rangeOf } from '../range-of.js';
import { count } from '../terms/number.js';
import { alignBars } from './alignment.js';
import type { Aligned } from './alignment.js';
import { differencesOf } from './differences.js';
import { unknownVersion, versionName, versionOf } from './version-name.js';

const oneInVersion = (name: string, claim: Claim): Claim => ({
  content: { version: name, claim: claim.content },
  print: () => `in "${name}" ${claim.print()}`,
  check: context => {
    const analysis = versionOf(name, context);
    if (analysis === undefined) return unknownVersion(name);
    const verdict = claim.check({ ...context, analysis });
    return {
      ...verdict,
      // The number of a note belongs to its own score; the place in that score's text is kept.
      evidence: verdict.evidence.map(({ role, pitch, voice, bar, beat, why, span }) => ({
        ...{ role, pitch, voice, bar, beat, why },
        ...(span === undefined ? {} : { span }),
      })),
      ...(verdict.nearest === undefined ? {} : { nearest: `in "${name}" ${verdict.nearest}` }),
    };
  },
});

/** The same question, or several, put to another version of the piece. */
const inVersion = (name: string, claim: Claim): Claim =>
  conjunction((claim.parts ?? [claim]).map(part => oneInVersion(name, part)));

const describe = (label: readonly string[]): string =>
  label.length === 1 ? `bar ${label[0] ?? ''}` : `bars ${label.join(', ')}`;

/** Pairs of bars that are not the same, bars without a partner among them. */
function changed(aligned: readonly Aligned[], context: ClaimContext, name: string): readonly Aligned[] {
  const other = versionOf(name, context);
  if (other === undefined) return [];
  return aligned.filter(({ here, there }) => {
    if (here === undefined || there === undefined) return true;
    const found = differencesOf(
      context.analysis.score,
      { start: here.start, end: endOf(here) },
      other.score,
      { start: there.start, end: endOf(there) },
    );
    return found.here.length + found.there.length > 0;
  });
}

/** `bar 8`, `bars 2, 6 and 8`. */
const printPlaces = (places: readonly Place[]): string =>
  places.length === 1
    ? places.map(printPlace).join('')
    : printBarList(places.flatMap(place => (place.kind === 'bars' ? [place.first] : [])));

/** One place, or bars by their numbers. */
const placesNamed: Parser<readonly Place[]> = choice<readonly Place[]>(
  map(placeName, place => [place]),
  map(barList, labels => labels.map((label): Place => ({ kind: 'bars', first: label, last: label }))),
);

/** `only bar 8 differs from "altered.abc"`: every other bar is the same, note for note. */
export const onlyDiffers = (places: readonly Place[], name: string): Claim => ({
  content: { only: places, differsFrom: name },
  print: () =>
    `only ${printPlaces(places)} ${places.length > 1 || places.some(isPlural) ? 'differ' : 'differs'} from "${name}"`,
  check: (context): Verdict => {
    const other = versionOf(name, context);
    if (other === undefined) return unknownVersion(name);
    const ranges: Range[] = [];
    for (const place of places) {
      const found = rangeOf(place, context);
      if ('problem' in found) return found.problem;
      ranges.push(found.range);
    }
    const rows = changed(alignBars(context.analysis.score, other.score), context, name);
    const isIn = (bar: Bar, range: Range): boolean =>
      isBefore(bar.start, range.end) && isBefore(range.start, endOf(bar));
    const inside = (bar: Bar): boolean => ranges.some(range => isIn(bar, range));
    const outside = rows.filter(({ here }) => here === undefined || !inside(here));
    const within = rows.filter(({ here }) => here !== undefined && inside(here));
    const labels = rows.map(({ here, there }) => here?.label ?? `${there?.label ?? ''} of "${name}"`);
    const [first] = rows;
    const last = rows.at(-1);
    const differs = ranges.every(range => within.some(({ here }) => here !== undefined && isIn(here, range)));
    const holds = outside.length === 0 && within.length > 0 && differs;
    const isRow =
      first?.here !== undefined &&
      last?.here !== undefined &&
      rows.length === last.here.index - first.here.index + 1;
    const nearest: readonly Place[] = isRow
      ? [{ kind: 'bars', first: first.here.label, last: last.here.label }]
      : rows.every(({ here }) => here !== undefined)
        ? rows.flatMap(({ here }): readonly Place[] =>
            here === undefined ? [] : [{ kind: 'bars', first: here.label, last: here.label }],
          )
        : [];
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C2001' : 'C2002',
      reason:
        rows.length === 0
          ? 'the two versions are the same'
          : `${describe(labels)} ${labels.length === 1 ? 'differs' : 'differ'}`,
      evidence: rows.slice(0, 4).flatMap(({ here, there }) => {
        if (here === undefined || there === undefined) return [];
        const found = differencesOf(
          context.analysis.score,
          { start: here.start, end: endOf(here) },
          other.score,
          { start: there.start, end: endOf(there) },
        );
        return found.here
          .slice(0, 2)
          .map(note =>
            noteEvidence(
              holds ? 'supports' : 'contradicts',
              note,
              `"${name}" has ${found.there.map(each => printPitch(each.pitch)).join(' ') || 'no note'}`,
              context,
            ),
          );
      }),
      ...(holds || nearest.length === 0 ? {} : { nearest: onlyDiffers(nearest, name).print() }),
    };
  },
});

/** `"altered.abc" has 2 bars more`. */
const moreBars = (name: string, number: number, more: boolean): Claim => ({
  content: { version: name, bars: number, more: more || number === 0 },
  print: () =>
    number === 0
      ? `"${name}" has as many bars`
      : `"${name}" has ${String(number)} ${number === 1 ? 'bar' : 'bars'} ${more ? 'more' : 'fewer'}`,
  check: (context): Verdict => {
    const other = versionOf(name, context);
    if (other === undefined) return unknownVersion(name);
    const difference = other.score.bars.length - context.analysis.score.bars.length;
    const alone = alignBars(context.analysis.score, other.score).filter(
      ({ here, there }) => here === undefined || there === undefined,
    );
    const added = alone.flatMap(({ there }) => there?.label ?? []);
    const removed = alone.flatMap(({ here }) => here?.label ?? []);
    const holds = difference === (more ? number : -number);
    const parts = [
      ...(added.length === 0
        ? []
        : [`${describe(added)} of "${name}" ${added.length === 1 ? 'is' : 'are'} new`]),
      ...(removed.length === 0
        ? []
        : [`${describe(removed)} ${removed.length === 1 ? 'is' : 'are'} left out`]),
    ];
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C2001' : 'C2003',
      reason: parts.length === 0 ? 'both versions have as many bars' : parts.join(', '),
      evidence: [],
      ...(holds ? {} : { nearest: moreBars(name, Math.abs(difference), difference > 0).print() }),
    };
  },
});

const moreOrFewer = wordsFor<boolean>([
  [true, 'more', 'longer'],
  [false, 'fewer', 'less', 'shorter'],
]);
const insteadOf = map(sequence(word('instead of', 'for'), noteName), ([, note]) => note);

/**
 * Sentences about another version: claims N1 to N4 of the trade.
 * @param plainPredicate what is said of the other version as of a whole piece
 */
export const versionSentence = (
  sentence: () => Parser<Claim>,
  plainPredicate: () => Parser<Predicate<Span>>,
): Parser<Claim> =>
  rule('VersionSentence', () =>
    choice(
      map(sequence(word('in'), versionName, quiet(optional(mark(','))), sentence()), ([, name, , claim]) =>
        inVersion(name, claim),
      ),
      map(
        sequence(
          word('only'),
          placesNamed,
          choice(
            map(sequence(word('differs', 'differ'), word('from', 'in')), () => undefined),
            map(
              sequence(word('is', 'are'), word('different', 'changed'), word('in', 'from')),
              () => undefined,
            ),
          ),
          versionName,
        ),
        ([, places, , name]) => onlyDiffers(places, name),
      ),
      map(
        sequence(
          word(
            'everything except',
            'everything but',
            'all bars except',
            'all bars but',
            'every bar except',
            'every bar but',
          ),
          placesNamed,
          word('is', 'are'),
          word('the same', 'identical', 'unchanged'),
          word('in', 'as in'),
          versionName,
        ),
        ([, places, , , , name]) => onlyDiffers(places, name),
      ),
      map(
        sequence(
          versionName,
          word('has', 'is'),
          choice(
            map(
              sequence(count, word('bars', 'bar'), moreOrFewer),
              ([number, , more]) => [number, more] as const,
            ),
            map(
              sequence(count, moreOrFewer, word('bars', 'bar')),
              ([number, more]) => [number, more] as const,
            ),
            map(word('an extra bar', 'an additional bar'), () => [1, true] as const),
          ),
        ),
        ([name, , [number, more]]) => moreBars(name, number, more),
      ),
      map(
        sequence(
          versionName,
          choice(
            map(word('adds', 'inserts'), () => true),
            map(word('leaves out', 'omits', 'drops'), () => false),
          ),
          choice(
            count,
            map(article, () => 1),
          ),
          word('bars', 'bar', 'measures', 'measure'),
        ),
        ([name, more, number]) => moreBars(name, number, more),
      ),
      map(
        sequence(
          versionName,
          word('has'),
          word('the same number of bars', 'as many bars', 'the same length'),
        ),
        ([name]) => moreBars(name, 0, true),
      ),
      ofWholeVersion,
      // `"late.abc" lacks the A4 of bar 18`.
      map(
        sequence(
          versionName,
          word('lacks', 'leaves out', 'omits', 'does not have'),
          quiet(optional(choice(word('the'), article))),
          noteName,
          at,
          placeName,
        ),
        ([name, , , here, , place]) =>
          statement(span(place), versionFamily.make({ kind: 'instead', version: name, here })),
      ),
      map(sequence(versionName, word('lacks', 'leaves out', 'omits'), placeName), ([name, , place]) =>
        statement(span(place), versionFamily.make({ kind: 'left out', version: name })),
      ),
      map(sequence(versionName, plainPredicate(), scope), ([name, says, place]) =>
        inVersion(name, statement(span(place), says)),
      ),
      map(sequence(versionName, word('has'), count, word('bars', 'bar', 'measures')), ([name, , bars]) =>
        inVersion(name, statement(span({ kind: 'piece' }), formFamily.make({ kind: 'bars', bars }))),
      ),
      map(
        sequence(versionName, word('has'), noteName, optional(insteadOf), at, placeName),
        ([name, , there, here, , place]) =>
          here === undefined
            ? inVersion(
                name,
                statement(
                  span(place),
                  contentFamily.make({ quantity: 'all', manner: 'sounding', notes: [there] }),
                ),
              )
            : statement(span(place), versionFamily.make({ kind: 'instead', version: name, here, there })),
      ),
      map(
        sequence(
          word('in'),
          versionName,
          quiet(optional(mark(','))),
          placeName,
          word('has', 'have'),
          noteName,
          insteadOf,
        ),
        ([, name, , place, , there, here]) =>
          statement(span(place), versionFamily.make({ kind: 'instead', version: name, here, there })),
      ),
    ),
  );

/** Sentences that show the forms of this file. */
export const versionExamples = [
  'only bar 8 differs from "altered.abc"',
  '"altered.abc" has 2 bars more',
  'in "altered.abc" bar 8 is iv',
];
