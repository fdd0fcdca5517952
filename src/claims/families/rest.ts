import { compare, isBefore } from '../../score/index.js';
import type { Fraction } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { map, nothing, optional, quiet, sequence, word } from '../grammar/index.js';
import type { ClaimContext, Range } from '../model.js';
import { lineNotes } from '../subjects/line-notes.js';
import type { LineName } from '../subjects/line-name.js';
import type { LineNote } from '../subjects/line-notes.js';
import type { Line } from '../subjects/line.js';
import type { Span } from '../subjects/span.js';
import { voiceTitle } from '../subjects/voice-title.js';
import { article } from '../terms/chord-name.js';
import { be, have, haveNo, printHas, printVerb, verb } from '../terms/verb.js';
import type { VerbForm } from '../terms/verb.js';

/** Where something is silent: throughout, somewhere, at its beginning, at its end; `enters`: it sounds after silence. */
export interface RestSays {
  readonly kind: 'throughout' | 'somewhere' | 'begins' | 'ends' | 'enters';
}

interface PlaceRestSays {
  readonly kind: 'somewhere' | 'begins' | 'ends';
}

const says = (kind: RestSays['kind']) => nothing<RestSays>({ kind });
const rest = <K extends RestSays['kind']>(kind: K) =>
  map(sequence(quiet(optional(article)), word('rest', 'rests')), () => ({ kind }));
const edges = (
  [
    ['begins with', 'begin with', 'begins'],
    ['starts with', 'start with', 'begins'],
    ['ends with', 'end with', 'ends'],
    ['closes with', 'close with', 'ends'],
  ] as const
).map(([singular, plural, kind]) => [verb(singular, plural), rest(kind)] as const);

function print({ kind }: RestSays, form: VerbForm): string {
  switch (kind) {
    case 'throughout':
      return printVerb('rests', 'rest', form);
    case 'somewhere':
      return printHas(form, 'a', 'rest');
    case 'begins':
      return `${printVerb('begins with', 'begin with', form)} a rest`;
    case 'ends':
      return `${printVerb('ends with', 'end with', form)} a rest`;
    case 'enters':
      return printVerb('enters', 'enter', form);
  }
}

/** Stretches of a range in which none of the notes sounds. */
function gapsIn(notes: readonly LineNote[], { start, end }: Range): readonly Range[] {
  const gaps: Range[] = [];
  let silentFrom: Fraction = start;
  for (const note of [...notes].sort((a, b) => compare(a.start, b.start))) {
    if (isBefore(silentFrom, note.start)) gaps.push({ start: silentFrom, end: note.start });
    if (isBefore(silentFrom, note.end)) silentFrom = note.end;
  }
  return isBefore(silentFrom, end) ? [...gaps, { start: silentFrom, end }] : gaps;
}

/** The first note of a line within a range that comes after silence, or that opens the piece. */
function entryIn(line: LineName, { start, end }: Range, { analysis: { score } }: ClaimContext) {
  const before = score.bars.findLast(bar => isBefore(bar.start, start));
  const range = { start: before?.start ?? start, end };
  const heard = lineNotes(score, line, range) ?? [];
  const gaps = gapsIn(heard, range);
  return heard.find(
    note =>
      compare(start, note.start) <= 0 &&
      (gaps.some(gap => compare(gap.end, note.start) === 0) || (before === undefined && note === heard[0])),
  );
}

/** Whether notes leave the silence that is spoken of. */
function isSo(kind: Exclude<RestSays['kind'], 'enters'>, notes: readonly LineNote[], range: Range): boolean {
  const gaps = gapsIn(notes, range);
  switch (kind) {
    case 'throughout':
      return notes.length === 0;
    case 'somewhere':
      return gaps.length > 0;
    case 'begins':
      return gaps.some(({ start }) => compare(start, range.start) === 0);
    case 'ends':
      return gaps.some(({ end }) => compare(end, range.end) === 0);
  }
}

const sounding = (notes: readonly LineNote[], context: ClaimContext) =>
  notes.slice(0, 6).map(({ note }) => noteEvidence('contradicts', note, 'sounding', context));

const reasons: Readonly<Record<RestSays['kind'], readonly [so: string, not: string]>> = {
  throughout: ['is silent', 'sounds'],
  somewhere: ['has a rest', 'sounds without a rest'],
  begins: ['begins with a rest', 'sounds from the beginning'],
  ends: ['ends with a rest', 'sounds to the end'],
  enters: ['enters', 'does not enter after a rest'],
};

/** Rests of a line: what the score writes, a tied or held note being no rest. */
export const lineRestFamily = family<Line, RestSays>({
  name: 'rest of a line',
  examples: ['the left hand of the pickup rests', 'the left hand of bar 12 has no rest'],
  phrases: [
    [verb('rests', 'rest'), says('throughout')],
    [verb('pauses', 'pause'), says('throughout')],
    [be, map(word('silent', 'tacet'), (): RestSays => ({ kind: 'throughout' }))],
    [have, rest('somewhere')],
    [haveNo, rest('somewhere')],
    [verb('enters', 'enter'), says('enters')],
    ...edges,
  ],
  print,
  check: ({ line, notes, span, name }, { kind }, context, make): Finding<Line> => {
    const entry = kind === 'enters' ? entryIn(line, span.range, context) : undefined;
    const holds = kind === 'enters' ? entry !== undefined : isSo(kind, notes, span.range);
    const [so, not] = reasons[kind];
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C1631' : 'C1632',
      reason: `${name} ${holds ? so : not}`,
      evidence:
        entry !== undefined
          ? [noteEvidence('supports', entry.note, 'its entry', context)]
          : holds
            ? []
            : sounding(notes, context),
      instead: () =>
        kind === 'enters' ? [] : (['ends', 'begins', 'somewhere'] as const).map(each => make({ kind: each })),
    };
  },
});

/** Rests of a place. Of its edges it is said of all that sounds there: where only some voices rest it depends on who is meant. */
export const restFamily = family<Span, PlaceRestSays>({
  name: 'rest',
  examples: ['bar 16 has a rest'],
  phrases: [[have, rest('somewhere')], [haveNo, rest('somewhere')], ...edges],
  print,
  check: (span, { kind }, context): Finding<Span> => {
    const { score } = context.analysis;
    const voices = score.voices.flatMap(voice =>
      voice.overlayOf === undefined
        ? [
            {
              name: voiceTitle(voice, score),
              notes: lineNotes(score, { kind: 'voice', name: voice.id }, span.range) ?? [],
            },
          ]
        : [],
    );
    const resting = voices.filter(({ notes }) => isSo(kind, notes, span.range));
    const [so, not] = reasons[kind];
    const all = resting.length === voices.length;
    const verdict = resting.length === 0 ? 'fails' : all || kind === 'somewhere' ? 'holds' : 'arguable';
    const some = `${resting.map(({ name }) => name).join(', ')} ${resting.length === 1 ? 'rests' : 'rest'} there`;
    return {
      verdict,
      code: { holds: 'C1631' as const, arguable: 'C1633' as const, fails: 'C1632' as const }[verdict],
      reason:
        resting.length === 0
          ? `every line of ${span.name} ${not}`
          : all
            ? `${span.name} ${so}`
            : kind === 'somewhere'
              ? some
              : `${some}, and the others sound`,
      evidence:
        verdict === 'holds'
          ? []
          : sounding(
              voices.filter(each => !resting.includes(each)).flatMap(each => each.notes),
              context,
            ),
    };
  },
});
