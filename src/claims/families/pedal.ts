import { bassOf, degreeTone } from '../../harmony/index.js';
import type { Key, PedalPoint, Segment } from '../../harmony/index.js';
import { greatest, isBefore, midiOf, pitchClassOf, printPitchClass } from '../../score/index.js';
import type { Bar, Note, PitchClass } from '../../score/index.js';
import type { Finding, Predicate } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Range } from '../model.js';
import { endOf } from '../place/beats.js';
import { statement } from '../statement.js';
import { span as spanOf } from '../subjects/span.js';
import { soundingIn } from '../subjects/sounding.js';
import type { Line } from '../subjects/line.js';
import type { Span } from '../subjects/span.js';
import { article, articleOf, withArticle } from '../terms/chord-name.js';
import { pitchClassName } from '../terms/note-name.js';
import { be, have, haveNo, printHas, verb } from '../terms/verb.js';
import { silence } from './judged.js';
import { liesIn, segmentsIn } from '../segments.js';

/** A pedal point: by its note or by its degree, and where it lies in the texture. */
export interface PedalSays {
  readonly degree?: 'tonic' | 'dominant';
  readonly tone?: PitchClass;
  readonly position?: PedalPoint['position'];
}

const degrees = wordsFor<'tonic' | 'dominant'>([
  ['tonic', 'tonic'],
  ['dominant', 'dominant'],
]);
const positions = wordsFor<PedalPoint['position']>([
  ['bass', 'bass'],
  ['inner', 'inner'],
  ['upper', 'upper', 'inverted'],
]);
const noun = word('pedal', 'pedal point', 'pedal-point', 'pedal note', 'organ point');

/** `a dominant pedal`, `a pedal on F#`. */
export const pedal: Parser<PedalSays> = rule(
  'Pedal',
  () =>
    map(
      sequence(
        optional(article),
        optional(degrees),
        optional(positions),
        optional(pitchClassName),
        noun,
        optional(map(sequence(word('on'), pitchClassName), ([, tone]) => tone)),
        optional(map(sequence(word('in the'), choice(positions)), ([, where]) => where)),
      ),
      ([, degree, before, named, , on, after]): PedalSays => {
        const tone = named ?? on;
        const position = before ?? after;
        return {
          ...(degree === undefined ? {} : { degree }),
          ...(tone === undefined ? {} : { tone }),
          ...(position === undefined ? {} : { position }),
        };
      },
    ),
  'a pedal such as `a dominant pedal` or `a pedal on F#`',
);

const nameOf = ({ degree, position, tone }: PedalSays): string =>
  [degree, position, 'pedal'].filter(each => each !== undefined).join(' ') +
  (tone === undefined ? '' : ` on ${printPitchClass(tone)}`);
const describe = (says: PedalSays): string => withArticle(nameOf(says));

const toneOfDegree = (degree: 'tonic' | 'dominant', key: Key): PitchClass =>
  degreeTone(key, degree === 'tonic' ? 1 : 5);

/** First and last bar that a stretch touches. */
function barsOf({ start, end }: Range, context: ClaimContext): readonly [Bar, Bar] | undefined {
  const touched = context.analysis.score.bars.filter(
    bar => isBefore(bar.start, end) && isBefore(start, endOf(bar)),
  );
  const [first] = touched;
  const last = touched.at(-1);
  return first === undefined || last === undefined ? undefined : [first, last];
}

/** Counted in bars: the last note of a repeated pedal may stop before its bar does. */
function coversBars(found: PedalPoint, range: Range, context: ClaimContext): boolean {
  const own = barsOf(found, context);
  const asked = barsOf(range, context);
  return (
    own !== undefined &&
    asked !== undefined &&
    own[0].index <= asked[0].index &&
    asked[1].index <= own[1].index
  );
}

function fits(found: PedalPoint, says: PedalSays, keys: readonly Key[]): boolean {
  const { degree, tone, position } = says;
  return (
    (degree === undefined || keys.some(key => toneOfDegree(degree, key) === found.tone)) &&
    (tone === undefined || tone === found.tone) &&
    (position === undefined || position === found.position)
  );
}

/** Segments over a pedal to which its note is foreign: without one it is a common tone, not a pedal. */
const foreignTo = (found: PedalPoint, context: ClaimContext) =>
  segmentsIn(context.analysis, found).filter(segment => !segment.chord.tones.includes(found.tone));

const saysOf = (found: PedalPoint, keys: readonly Key[]): PedalSays => {
  const degree = (['tonic', 'dominant'] as const).find(each =>
    keys.some(key => toneOfDegree(each, key) === found.tone),
  );
  return degree === undefined ? { tone: found.tone } : { degree };
};

/** A tone that is there wherever a chord or a bar begins, and the chords over which it stays. */
interface Staying extends PedalPoint {
  /** Chords to which it is foreign, and those of which it makes the seventh. */
  readonly foreign: readonly Segment[];
  readonly sevenths: readonly Segment[];
  /** Whether it stays through so many chords that it is a pedal where it could be a seventh (Open Music Theory, chordal dissonance: a seventh resolves). */
  readonly holdsSeventh: boolean;
}

/** So many chords over one tone are no accident. */
const manyChords = 4;

/**
 * What stays through the whole of a place, in any voice, held or struck again with each chord and each bar (Hutchinson, Non-Chord Tones, pedal:
 * it may lie in the upper voices as well). It begins and ends as a member of the chord and is foreign to one between, or its seventh.
 */
function stayingThrough(range: Range, context: ClaimContext): readonly Staying[] {
  const { analysis } = context;
  const { score } = analysis;
  const over = segmentsIn(analysis, range);
  const [first] = over;
  const last = over.at(-1);
  if (first === undefined || last === undefined) return [];
  const moments = [
    ...over.map(({ start }) => greatest(start, range.start)),
    ...score.bars.filter(({ start }) => liesIn(start, range)).map(({ start }) => start),
  ].map(moment => soundingIn(score, { start: moment, end: moment }));
  const pitchesOf = (notes: readonly Note[]): ReadonlySet<number> =>
    new Set(notes.map(({ pitch }) => midiOf(pitch)));
  const [begin, ...others] = moments.map(pitchesOf);
  const isMember = ({ chord }: Segment, tone: PitchClass): boolean => chord.tones.includes(tone);
  return [...(begin ?? [])]
    .filter(pitch => others.every(each => each.has(pitch)))
    .flatMap((pitch): readonly Staying[] => {
      const notes = [...new Set(moments.flat())].filter(note => midiOf(note.pitch) === pitch);
      const [note] = notes;
      if (note === undefined) return [];
      const tone = pitchClassOf(note.pitch);
      const foreign = over.filter(each => !isMember(each, tone));
      const sevenths = over.filter(({ chord }) => chord.tones[3] === tone);
      if (!isMember(first, tone) || !isMember(last, tone) || foreign.length + sevenths.length === 0)
        return [];
      const all = [begin ?? new Set<number>(), ...others];
      const position = all.every(each => Math.min(...each) === pitch)
        ? 'bass'
        : all.every(each => Math.max(...each) === pitch)
          ? 'upper'
          : 'inner';
      const ids = notes.map(({ id }) => id);
      const holdsSeventh = sevenths.length > 0 && over.length >= manyChords;
      return [{ ...range, tone, voice: note.voice, position, notes: ids, foreign, sevenths, holdsSeventh }];
    })
    .sort((a, b) => b.foreign.length - a.foreign.length);
}

/**
 * A bass that stays from a chord on it over a six-four to a chord on it again: the fourth above it is a dissonance, so that it is a pedal though it
 * belongs to every chord (Hutchinson, Six-Four Chords, pedal six-four). The place may be a part of it.
 */
function standingBass(range: Range, { analysis }: ClaimContext): Staying | undefined {
  const { segments, score } = analysis;
  const own = segmentsIn(analysis, range);
  const [first] = own;
  if (first === undefined) return undefined;
  const tone = bassOf(first.chord);
  const stays = (segment: Segment | undefined): boolean =>
    segment !== undefined && bassOf(segment.chord) === tone;
  if (!own.every(stays)) return undefined;
  let from = segments.indexOf(first);
  let until = segments.indexOf(own.at(-1) ?? first);
  while (stays(segments[from - 1])) from--;
  while (stays(segments[until + 1])) until++;
  const over = segments.slice(from, until + 1);
  const isRoot = ({ chord }: Segment): boolean => chord.root === tone;
  const sixFours = over.slice(1, -1).filter(({ chord }) => chord.inversion === 2 && chord.tones.length === 3);
  const [opens] = over;
  const closes = over.at(-1);
  if (opens === undefined || closes === undefined || sixFours.length === 0) return undefined;
  if (!isRoot(opens) || !isRoot(closes)) return undefined;
  const notes = soundingIn(score, range).filter(note => pitchClassOf(note.pitch) === tone);
  const lowest = notes.reduce<Note | undefined>(
    (low, each) => (low === undefined || midiOf(each.pitch) < midiOf(low.pitch) ? each : low),
    undefined,
  );
  if (lowest === undefined) return undefined;
  const ids = notes.filter(({ pitch }) => midiOf(pitch) === midiOf(lowest.pitch)).map(({ id }) => id);
  return {
    ...range,
    tone,
    voice: lowest.voice,
    position: 'bass',
    notes: ids,
    foreign: sixFours,
    sevenths: [],
    holdsSeventh: false,
  };
}

/** Looks for a pedal of a place among those whose notes are meant. */
function checkPedal(
  span: Span,
  says: PedalSays,
  isMeant: (pedal: PedalPoint) => boolean,
  context: ClaimContext,
  make: (says: PedalSays) => Predicate<Span>,
): Finding<Span> {
  const silent = silence<Span>(span.range, span.name, context);
  if (silent !== undefined) return silent;
  const keys = segmentsIn(context.analysis, span.range).map(segment => segment.key);
  const overlapping = context.analysis.pedals.filter(
    each => isMeant(each) && isBefore(each.start, span.range.end) && isBefore(span.range.start, each.end),
  );
  const fitting = overlapping.filter(each => fits(each, says, keys));
  const whole = fitting.find(each => coversBars(each, span.range, context));
  const staying =
    whole === undefined
      ? [...stayingThrough(span.range, context), standingBass(span.range, context)].find(
          each => each !== undefined && isMeant(each) && fits(each, says, keys),
        )
      : undefined;
  if (staying !== undefined) {
    const pitch = printPitchClass(staying.tone);
    const list = (segments: readonly Segment[]): string =>
      [...new Set(segments.map(({ roman }) => roman))].join(' and ');
    const isForeign = staying.foreign.length > 0;
    const isPedal = isForeign || staying.holdsSeventh;
    const isMember = staying.foreign.every(({ chord }) => chord.tones.includes(staying.tone));
    return {
      verdict: isPedal ? 'holds' : 'arguable',
      code: isPedal ? 'C0801' : 'C0804',
      reason: `${pitch} stays through ${span.name}; ${
        isForeign
          ? `${isMember ? 'it is the bass of the six-four' : 'it is foreign to'} ${list(staying.foreign)}`
          : isPedal
            ? `where it is the seventh of ${list(staying.sevenths)} it does not move on, as a seventh would`
            : `it can be heard as a pedal or as the seventh of ${list(staying.sevenths)}`
      }`,
      evidence: staying.notes
        .flatMap(id => context.analysis.score.notes[id] ?? [])
        .slice(0, 8)
        .map(note => noteEvidence(isPedal ? 'supports' : 'set aside', note, 'pedal note', context)),
    };
  }
  const [found] = whole === undefined ? [...fitting, ...overlapping] : [whole];
  if (found === undefined)
    return {
      verdict: 'fails',
      code: 'C0803',
      reason: `no note of ${span.name} is held or repeated while chords change to which it is foreign`,
      evidence: [],
    };
  const bars = barsOf(found, context);
  const where =
    bars === undefined
      ? ''
      : bars[0] === bars[1]
        ? `in bar ${bars[0].label}`
        : `in bars ${bars[0].label}-${bars[1].label}`;
  const notes = found.notes.flatMap(id => context.analysis.score.notes[id] ?? []);
  const foreign = foreignTo(found, context).map(segment => segment.roman);
  const evidence = notes
    .slice(0, 8)
    .map(note => noteEvidence(whole === undefined ? 'contradicts' : 'supports', note, 'pedal note', context));
  const description = `${printPitchClass(found.tone)} is ${describe({ ...saysOf(found, keys), position: found.position })} ${where}`;
  if (whole !== undefined)
    return {
      verdict: 'holds',
      code: 'C0801',
      reason: `${description}; ${foreign.length === 0 ? 'the chords change over it' : `it is foreign to ${[...new Set(foreign)].join(' and ')}`}`,
      evidence,
    };
  return {
    verdict: 'fails',
    code: fitting.length > 0 ? 'C0802' : 'C0803',
    reason: description,
    evidence,
    instead: () => [make({ ...saysOf(found, keys), position: found.position }), make(saysOf(found, keys))],
    rather: () => {
      if (bars === undefined) return [];
      const place = { kind: 'bars', first: bars[0].label, last: bars[1].label } as const;
      return [statement(spanOf(place), make(saysOf(found, keys)))];
    },
  };
}

/** Pedal points: claim G5 of the trade. */
export const pedalFamily = family<Span, PedalSays>({
  name: 'pedal',
  examples: ['bars 21-24 have a dominant pedal', 'bars 21-24 have a bass pedal on F#'],
  phrases: [
    [have, pedal],
    [haveNo, pedal],
    [be, pedal],
    [be, map(sequence(word('over', 'above'), pedal), ([, says]) => says)],
    [verb('sits on', 'sit on'), pedal],
    [verb('rests on', 'rest on'), pedal],
    [verb('stands on', 'stand on'), pedal],
    [verb('stands over', 'stand over'), pedal],
    [verb('rests over', 'rest over'), pedal],
  ],
  print: (says, form) => printHas(form, articleOf(nameOf(says)), nameOf(says)),
  check: (span, says, context, make) => checkPedal(span, says, () => true, context, make),
});

/** Where the pedal of a line lies; `undefined` for a voice, a hand or an instrument, which may lie anywhere. */
function positionOf({ line }: Line): PedalPoint['position'] | undefined {
  if (line.kind === 'edge') return line.edge === 'bottom' ? 'bass' : 'upper';
  if (line.kind !== 'part') return undefined;
  return ({ soprano: 'upper', alto: 'inner', tenor: 'inner', bass: 'bass' } as const)[line.part];
}

/** The same of one line: `the bass of bars 21-24 is a dominant pedal`. */
export const linePedalFamily = family<Line, PedalSays>({
  name: 'pedal in a line',
  examples: ['the bass of bars 21-24 has a dominant pedal'],
  phrases: [
    [have, pedal],
    [haveNo, pedal],
    [be, pedal],
    [verb('holds', 'hold'), pedal],
  ],
  print: (says, form) => printHas(form, articleOf(nameOf(says)), nameOf(says)),
  check: (line, says, context, make): Finding<Line> => {
    const position = positionOf(line);
    const own = new Set(line.notes.map(({ note }) => note.id));
    const isMeant = (pedal: PedalPoint): boolean =>
      position === undefined ? pedal.notes.some(id => own.has(id)) : pedal.position === position;
    const { verdict, code, reason, evidence } = checkPedal(
      line.span,
      says,
      isMeant,
      context,
      pedalFamily.make,
    );
    const keys = segmentsIn(context.analysis, line.span.range).map(segment => segment.key);
    return {
      verdict,
      code,
      reason,
      evidence,
      instead: () =>
        context.analysis.pedals
          .filter(each => isMeant(each) && coversBars(each, line.span.range, context))
          .map(each => make(saysOf(each, keys))),
    };
  },
});
