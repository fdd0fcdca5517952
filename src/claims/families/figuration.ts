import { compare, equals, isBefore, midiOf, subtract } from '../../score/index.js';
import type { Bar, Fraction, Note, Score } from '../../score/index.js';
import type { Finding, Judged } from '../claim.js';
import { family } from '../family.js';
import { choice, map, nothing, optional, quiet, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Range } from '../model.js';
import { endOf } from '../place/beats.js';
import { segmentsIn } from '../segments.js';
import type { Line } from '../subjects/line.js';
import type { LineName } from '../subjects/line-name.js';
import { lineNotes } from '../subjects/line-notes.js';
import { soundingIn } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { be, have, haveNo, printHas, printVerb, verb } from '../terms/verb.js';
import type { Verb, VerbForm } from '../terms/verb.js';
import { textureFinding } from './texture-finding.js';

/** Whether a figure is kept from bar to bar, is the one of an Alberti bass, or how chords are played. */
export interface FigurationSays {
  readonly kind: 'kept' | 'Alberti bass' | ChordPlaying;
}
/** The tones of each chord one after the other, or together. */
type ChordPlaying = 'broken chords' | 'block chords';
const kept: FigurationSays = { kind: 'kept' };

const figureNoun = word(
  'figuration',
  'figure',
  'pattern',
  'accompaniment pattern',
  'accompaniment figure',
  'rhythmic pattern',
);
/** `stays the same`; `changes` denies it. */
const stays: Verb = choice<{ readonly negated: boolean }>(
  map(word('stays the same', 'stay the same', 'does not change', "doesn't change"), () => ({
    negated: false,
  })),
  map(word('changes', 'change', 'does not stay the same'), () => ({ negated: true })),
);
const keeps: Parser<FigurationSays> = map(
  sequence(optional(word('the same', 'one', 'its')), figureNoun),
  () => kept,
);
const alberti: Parser<FigurationSays> = map(
  sequence(
    quiet(optional(article)),
    word('Alberti bass', 'Alberti accompaniment', 'Alberti figure', 'Alberti figuration'),
  ),
  () => ({ kind: 'Alberti bass' }),
);
const playing = wordsFor<FigurationSays>([
  [{ kind: 'broken chords' }, 'broken chords', 'arpeggiated chords', 'arpeggios'],
  [{ kind: 'block chords' }, 'block chords', 'solid chords'],
]);
const aPlaying: Parser<FigurationSays> = map(
  sequence(
    article,
    wordsFor<FigurationSays>([
      [{ kind: 'broken chords' }, 'broken-chord', 'broken chord', 'arpeggiated'],
      [{ kind: 'block chords' }, 'block-chord', 'block chord'],
    ]),
    word('accompaniment', 'texture', 'figuration', 'pattern'),
  ),
  ([, says]) => says,
);
const phrases = [
  [have, playing],
  [haveNo, playing],
  [have, aPlaying],
  [be, map(sequence(word('in'), playing), ([, says]) => says)],
  [verb('plays', 'play'), playing],
  [verb('keeps', 'keep'), keeps],
  [have, map(sequence(word('the same', 'one'), figureNoun), () => kept)],
  [have, alberti],
  [haveNo, alberti],
  [be, alberti],
  [verb('plays', 'play'), alberti],
] as const;
const print = ({ kind }: FigurationSays, form: VerbForm): string =>
  kind === 'kept'
    ? `${printVerb('keeps', 'keep', form)} the same figuration`
    : kind === 'Alberti bass'
      ? printHas(form, 'an', 'Alberti bass')
      : `${printVerb('plays', 'play', form)} ${kind}`;

/** The notes whose figure is asked for, by what may strike at once. */
type NotesIn = (range: Range) => readonly (readonly Note[])[];

const byVoice =
  (score: Score): NotesIn =>
  range =>
    score.voices.map(voice => soundingIn(score, range).filter(note => note.voice === voice.id));
const ofLine =
  (score: Score, line: LineName): NotesIn =>
  range => [(lineNotes(score, line, range) ?? []).map(({ note }) => note)];

/** Notes that are struck in a range, by their onset. */
function struckIn(notes: readonly Note[], { start, end }: Range): readonly (readonly Note[])[] {
  const struck = notes
    .filter(
      note =>
        !note.grace &&
        note.tiedFrom === undefined &&
        compare(start, note.onset) <= 0 &&
        compare(note.onset, end) < 0,
    )
    .sort((a, b) => compare(a.onset, b.onset));
  const groups: Note[][] = [];
  for (const note of struck) {
    const last = groups.at(-1);
    if (last?.[0] !== undefined && equals(last[0].onset, note.onset)) last.push(note);
    else groups.push([note]);
  }
  return groups;
}

const lowest = (notes: readonly Note[]): number => Math.min(...notes.map(({ pitch }) => midiOf(pitch)));
const offsetIn = (bar: Bar, onset: Fraction): string => {
  const { n, d } = subtract(onset, bar.start);
  return `${String(n)}/${String(d)}`;
};

/** Onsets and contour of a bar: whether a note or a chord is struck, and which way it goes from the one before; pitches are forgotten. */
const figureOf = (bar: Bar, notesIn: NotesIn): string =>
  notesIn({ start: bar.start, end: endOf(bar) })
    .map(notes =>
      struckIn(notes, { start: bar.start, end: endOf(bar) })
        .map((group, at, all) => {
          const before = all[at - 1];
          const way = before === undefined ? 0 : Math.sign(lowest(group) - lowest(before));
          const [first] = group;
          return `${first === undefined ? '' : offsetIn(bar, first.onset)}${['v', '=', '^'][way + 1] ?? ''}${group.length > 1 ? 'chord' : ''}`;
        })
        .join(' '),
    )
    .join(' | ');

/**
 * Broken triads in the order lowest, highest, middle, highest (Grove Music Online, "Alberti bass"; from memory). In groups of six, as triple
 * metre has them, middle and highest go on alternating (common practice).
 */
function isAlberti(groups: readonly (readonly Note[])[]): boolean {
  const size = groups.length % 4 === 0 ? 4 : 6;
  if (groups.length === 0 || groups.length % size !== 0 || groups.some(({ length }) => length > 1))
    return false;
  const pitches = groups.map(lowest);
  return pitches.every((pitch, at) => {
    const first = at - (at % size);
    const [low = pitch, high = pitch, middle = pitch] = pitches.slice(first, first + 3);
    const wanted = at === first ? low : (at - first) % 2 === 1 ? high : middle;
    return low < middle && middle < high && pitch === wanted;
  });
}

const wholeBarsIn = ({ start, end }: Range, { analysis }: ClaimContext): readonly Bar[] =>
  analysis.score.bars.filter(bar => compare(start, bar.start) <= 0 && compare(endOf(bar), end) <= 0);

const tooShort = (reason: string): Judged & { readonly pointless: true } => ({
  verdict: 'undecided',
  code: 'C1313',
  reason,
  evidence: [],
  pointless: true,
});

/** Whether the dominant or the tonic of a listed cadence stands in a bar, or the piece ends with it. */
const isOfClose = (bar: Bar, { analysis: { cadences, score, segments } }: ClaimContext): boolean =>
  bar === score.bars.at(-1) ||
  cadences.some(cadence =>
    cadence.segments.slice(-2).some(at => {
      const segment = segments[at];
      return segment !== undefined && isBefore(segment.start, endOf(bar)) && isBefore(bar.start, segment.end);
    }),
  );

/**
 * A figure that breaks off for the close alone is still spoken of as that of the passage (common practice): at most so large a part of its bars may
 * lack it.
 */
const mostOfTheClose = 1 / 4;

/** What is found of a figure that each of some bars has, or does not have. */
function figureFinding<S>(
  bars: readonly Bar[],
  has: (bar: Bar) => boolean,
  notesIn: NotesIn,
  reasons: { readonly holds: string; readonly fails: (bar: Bar) => string },
  context: ClaimContext,
): Finding<S> {
  const others = bars.filter(bar => !has(bar));
  const [other] = others;
  const shown = other ?? bars[0];
  const finding: Finding<S> = textureFinding(
    other === undefined,
    other === undefined ? reasons.holds : reasons.fails(other),
    shown === undefined ? [] : notesIn({ start: shown.start, end: endOf(shown) }).flat(),
    context,
  );
  const breaksOff =
    other !== undefined &&
    others.length <= mostOfTheClose * bars.length &&
    others.every(bar => isOfClose(bar, context));
  return breaksOff
    ? {
        ...finding,
        verdict: 'arguable',
        code: 'C1316',
        reason: `${finding.reason}: the figure breaks off for the cadence, and the other bars have it`,
      }
    : finding;
}

function checkKept<S>(range: Range, notesIn: NotesIn, context: ClaimContext): Finding<S> {
  const bars = wholeBarsIn(range, context);
  // Of a single bar it is said that it keeps the figure of the bar before.
  const [only] = bars;
  const before =
    bars.length === 1 && only !== undefined ? context.analysis.score.bars[only.index - 1] : undefined;
  const compared = before === undefined ? bars : [before, ...bars];
  const [model] = compared;
  if (model === undefined || compared.length < 2) return tooShort('fewer than two whole bars to compare');
  return figureFinding(
    compared,
    bar => figureOf(bar, notesIn) === figureOf(model, notesIn),
    notesIn,
    {
      holds: `rhythm and contour of bar ${model.label} return in each bar`,
      fails: bar => `bar ${bar.label} has another rhythm or contour than bar ${model.label}`,
    },
    context,
  );
}

function checkAlberti<S>(range: Range, notesIn: NotesIn, context: ClaimContext): Finding<S> {
  const bars = wholeBarsIn(range, context);
  if (bars.length === 0) return tooShort('there is no whole bar');
  return figureFinding(
    bars,
    bar => {
      const own = { start: bar.start, end: endOf(bar) };
      return isAlberti(struckIn(notesIn(own).flat(), own));
    },
    notesIn,
    {
      holds: 'broken triads in the order lowest, highest, middle, highest',
      fails: bar =>
        `the notes of bar ${bar.label} are not broken triads in the order lowest, highest, middle, highest`,
    },
    context,
  );
}

/** So many tones make a chord. */
const tonesOfChord = 3;

/** Whether the notes of a bar are those of its chords, one after the other (common practice). */
function isBroken(groups: readonly (readonly Note[])[], bar: Bar, { analysis }: ClaimContext): boolean {
  const chordTones = new Set(
    segmentsIn(analysis, { start: bar.start, end: endOf(bar) }).flatMap(({ chordTones: ids }) => ids),
  );
  return (
    groups.length >= tonesOfChord &&
    groups.every(
      ([note, ...others]) => note !== undefined && others.length === 0 && chordTones.has(note.id),
    ) &&
    new Set(groups.map(lowest)).size >= tonesOfChord
  );
}

const playingReasons = {
  'broken chords': 'the tones of each chord come one after the other',
  'block chords': 'the tones of each chord are struck together',
} as const;

function checkPlaying<S>(
  range: Range,
  kind: ChordPlaying,
  notesIn: NotesIn,
  context: ClaimContext,
): Finding<S> {
  const bars = wholeBarsIn(range, context);
  if (bars.length === 0) return tooShort('there is no whole bar');
  const has = (bar: Bar): boolean => {
    const own = { start: bar.start, end: endOf(bar) };
    return notesIn(own).some(notes => {
      const groups = struckIn(notes, own);
      return kind === 'broken chords'
        ? isBroken(groups, bar, context)
        : groups.length > 0 && groups.every(({ length }) => length >= tonesOfChord);
    });
  };
  return figureFinding(
    bars,
    has,
    notesIn,
    {
      holds: playingReasons[kind],
      fails: bar => `it is not so in bar ${bar.label} that ${playingReasons[kind]}`,
    },
    context,
  );
}

/** Of the place as a whole, the accompaniment is that of the lowest voice. */
const lowestVoice =
  (score: Score): NotesIn =>
  range => {
    const staff = Math.max(...score.voices.map(voice => voice.staff));
    const own = new Set(score.voices.filter(voice => voice.staff === staff).map(({ id }) => id));
    return [soundingIn(score, range).filter(note => own.has(note.voice))];
  };

/** Figuration: claim J3 of the trade. */
export const figurationFamily = family<Span, FigurationSays>({
  name: 'figuration',
  examples: ['bars 1-4 keep the same figuration', 'bars 1-4 have an Alberti bass'],
  phrases,
  aspects: [
    [figureNoun, stays, nothing(kept)],
    [word('accompaniment', 'left hand'), be, alberti],
    [word('accompaniment'), choice(be, have, verb('plays', 'play')), playing],
  ],
  print,
  check: ({ range }, { kind }, context) => {
    const { score } = context.analysis;
    if (kind === 'kept') return checkKept(range, byVoice(score), context);
    return kind === 'Alberti bass'
      ? checkAlberti(range, lowestVoice(score), context)
      : checkPlaying(range, kind, byVoice(score), context);
  },
});

/** The same of one line: `the left hand of bars 1-3 keeps the same figuration`. */
export const lineFigurationFamily = family<Line, FigurationSays>({
  name: 'figuration of a line',
  examples: ['the left hand of bars 1-3 keeps the same figuration'],
  phrases,
  print,
  check: ({ line, span: { range } }, { kind }, context) => {
    const { score } = context.analysis;
    const notesIn = ofLine(score, line);
    if (kind === 'kept') return checkKept(range, notesIn, context);
    if (kind === 'Alberti bass') return checkAlberti(range, notesIn, context);
    // An instrument of several voices plays chords in one of them.
    return checkPlaying(
      range,
      kind,
      own => {
        const all = notesIn(own).flat();
        return score.voices.map(({ id }) => all.filter(({ voice }) => voice === id));
      },
      context,
    );
  },
});
