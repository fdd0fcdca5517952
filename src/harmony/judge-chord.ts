import {
  add,
  compare,
  equals,
  fraction,
  midiOf,
  pitchClassOf,
  printPitchClass,
  toNumber,
} from '../score/index.js';
import type { NoteId, PitchClass } from '../score/index.js';
import { heardIn } from './analyse.js';
import { bassOf, chordQualities, printChord, qualityIntervals, sameChord } from './chord.js';
import { letterOf } from './chord-tables.js';
import { cheapest, lengthOf, tryChords, unusualness } from './candidates.js';
import { foreignTones, tonesBetween } from './foreign-tones.js';
import { momentAt } from './hearing.js';
import type { Hearing } from './hearing.js';
import type { ChordQuestion, Judgement, Outcome, Witness } from './judgement.js';
import { key as makeKey } from './key.js';
import type { Analysis, Chord, ChordQuality, Key, Segment } from './model.js';
import { priceOf } from './price.js';
import type { Price } from './price.js';
import { allowRespelling, respelledKey, respelledTone } from './respelling.js';
import { segmentAt, segmentsBetween } from './segment-at.js';
import { ticksOf } from './sound.js';
import type { Tone } from './sound.js';

/**
 * Borders of the verdicts, in beats of unexplained tone per two beats of music (the unit of `lattice.ts`). A reading that is dearer
 * than the best by less than `near` explains the notes as well as any listener could ask; from `far` on, an accented tone of a beat
 * or the defining tone of another chord speaks against it.
 */
export const verdictBorders = { near: 0.6, far: 1.35 } as const;

const partNames = ['root', 'third', 'fifth', 'seventh', 'ninth'] as const;
const partName = (part: number): string => partNames[part] ?? 'tone';

const qualityFor = (tones: readonly PitchClass[]): ChordQuality =>
  chordQualities.find(name => {
    const intervals = qualityIntervals[name];
    return (
      intervals.length === tones.length &&
      intervals.every((interval, at) => (tones[at] ?? 0) - (tones[0] ?? 0) === interval)
    );
  }) ?? 'major';

const list = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1] ?? ''}`;

/** What is said of tones that are not there: a claim about a beat speaks of one moment, later in the beat they may well sound. */
const unheard = ({ start, end }: ChordQuestion, several: boolean): string =>
  compare(start, end) === 0
    ? `${several ? 'do' : 'does'} not sound at this moment`
    : `never ${several ? 'sound' : 'sounds'}`;

interface Weighed {
  readonly question: ChordQuestion;
  readonly chord: Chord;
  readonly hearing: Hearing;
  readonly price: Price;
  readonly best: Chord;
  /** How much dearer the claimed chord is than the best, over the length of the span. */
  readonly behind: number;
  readonly segments: readonly Segment[];
  /** Chord tones that never sound here nor in the harmony that the span is part of. */
  readonly missing: readonly number[];
}

/**
 * How a bass stays: `through changes` while roots change above it, a pedal point; `long` for more than a bar of one root. Under a cadential
 * six-four and its V alone the bass is the dominant's own, however long.
 */
type Stay = 'through changes' | 'long' | 'no';

function stayOf(analysis: Analysis, bass: Tone): Stay {
  const { sound, lattice } = heardIn(analysis);
  const { moments } = lattice;
  const isBass = (at: number): boolean => lattice.ground[at]?.pitchClass === bass.pitchClass;
  let from = momentAt(moments, bass.on);
  let to = from;
  while (from > 0 && isBass(from - 1)) from--;
  while (to + 1 < moments.length && isBass(to + 1)) to++;
  const first = moments[from];
  const bar = analysis.score.bars[first?.bar ?? 0];
  const length = (moments[to]?.end ?? 0) - (first?.start ?? 0);
  const under = segmentsBetween(
    analysis,
    fraction(first?.start ?? 0, sound.ticksPerWhole),
    fraction(moments[to]?.end ?? 0, sound.ticksPerWhole),
  );
  const sixFours = under.filter(segment => segment.roman === 'cad64').length;
  const dominants = under.filter(segment => segment.chord.root === bass.pitchClass).length;
  if (sixFours > 0 && sixFours + dominants === under.length) return 'no';
  if (new Set(under.map(segment => segment.chord.root)).size > 1) return 'through changes';
  return bar !== undefined && length > ticksOf(bar.meter.length, sound.ticksPerWhole) ? 'long' : 'no';
}

const stays = new WeakMap<Tone, Stay>();

/** `stayOf`, worked out once for each tone: every claim about a bar asks about its bass. */
function howLongStays(analysis: Analysis, bass: Tone): Stay {
  const answer = stays.get(bass) ?? stayOf(analysis, bass);
  stays.set(bass, answer);
  return answer;
}

/** The deepest tone struck earlier in the bar: it may still be the bass of what is played above it. */
function deepestBefore(analysis: Analysis, question: ChordQuestion): Tone | undefined {
  const { sound, lattice } = heardIn(analysis);
  let deepest: Tone | undefined;
  let at = momentAt(lattice.moments, ticksOf(question.start, sound.ticksPerWhole));
  for (let level = lattice.moments[at]?.level; at > 0 && level !== 0; level = lattice.moments[at]?.level) {
    at--;
    const tone = sound.tones[lattice.moments[at]?.sounding[0] ?? -1];
    if (tone !== undefined && (deepest === undefined || tone.midi < deepest.midi)) deepest = tone;
  }
  return deepest;
}

/**
 * A pedal is set aside by nature: it keeps a quarter of its weight against a chord that does not hold it. Where another voice strikes its tone
 * too, the tone is no mere pedal.
 */
function withoutPedal(hearing: Hearing, pedal: Tone): Hearing {
  const isDoubled = hearing.tones.some(
    ({ pitchClass, midi, voice }) =>
      pitchClass === pedal.pitchClass && midi !== pedal.midi && voice !== pedal.voice,
  );
  if (isDoubled) return hearing;
  const foreign = [...hearing.foreign].map(
    ([tone, weight]) => [tone, tone === pedal.pitchClass ? weight / 4 : weight] as const,
  );
  return { ...hearing, foreign: new Map(foreign) };
}

/**
 * What it costs a claimed chord not to hold the bass that is struck where it begins, over the price of the tone itself (common practice: the ear
 * takes the harmony from its bass).
 */
const foreignFirstBass = 0.3;

function weigh(analysis: Analysis, question: ChordQuestion): Weighed {
  const heard = heardIn(analysis);
  const start = ticksOf(question.start, heard.sound.ticksPerWhole);
  const end = Math.max(start + 1, ticksOf(question.end, heard.sound.ticksPerWhole));
  const tried = tryChords(heard, start, end);
  const { hearing } = tried;
  const quality = qualityFor(question.tones);
  const root = question.tones[0] as PitchClass;
  const inversion = question.bass === undefined ? 0 : Math.max(0, question.tones.indexOf(question.bass));
  const chord: Chord = { root, quality, tones: question.tones, inversion };
  const segments = segmentsBetween(analysis, question.start, question.end);
  // A span that is part of a longer harmony of the same chord borrows the tones that sound elsewhere in it.
  const whole =
    segments.length === 1 && segments[0]?.chord.root === root && segments[0].chord.quality === quality
      ? segments[0]
      : undefined;
  const borrowed = new Set(
    (whole?.chordTones ?? []).flatMap(id => {
      const note = analysis.score.notes[id];
      return note === undefined ? [] : [pitchClassOf(note.pitch)];
    }),
  );
  const bass = hearing.basses?.first;
  const isForeignBass = bass !== undefined && !question.tones.includes(bass.pitchClass);
  const isPedal = isForeignBass && howLongStays(analysis, bass) === 'through changes';
  const plain = priceOf(chord, isPedal ? withoutPedal(hearing, bass) : hearing, borrowed);
  const beginsOnForeign = isForeignBass && !isPedal && bass.on >= start && plain.delayed.length === 0;
  const price = beginsOnForeign ? { ...plain, total: plain.total + foreignFirstBass } : plain;
  const inKey = question.key ?? segments[0]?.key;
  const own = price.total / lengthOf(hearing) + unusualness(chord, inKey);
  const other = cheapest(heard, tried, inKey);
  const better = other === undefined || other.value >= own - 1e-9 ? chord : other.chord;
  // An augmented sixth is named by its bass, not by the root of its thirds.
  const low = bass === undefined ? -1 : better.tones.indexOf(bass.pitchClass);
  const best = isAugmentedSixth(better) && low >= 0 ? { ...better, inversion: low } : better;
  return {
    question,
    chord,
    hearing,
    price,
    best,
    behind: Math.max(0, own - (other?.value ?? own)),
    segments,
    missing: price.missing,
  };
}

type BassAnswer = {
  /** `unfigured`: over a foreign pedal, where the plain numeral is right though its root is not the bass. */
  readonly fits: 'yes' | 'unfigured' | 'leaning' | 'figure' | 'no' | 'pedal' | 'earlier' | 'unheard';
  readonly lowest: Tone | undefined;
};

/** At a moment within a harmony of the claimed chord: the bass that the harmony began on. After-beats and the rest of a figure do not invert it. */
function figuredBass(
  analysis: Analysis,
  { start, end }: ChordQuestion,
  { root, quality }: Chord,
): PitchClass | undefined {
  const segment = segmentAt(analysis, start);
  const isWithin = compare(start, end) === 0 && segment !== undefined && compare(segment.start, start) < 0;
  return isWithin && segment.chord.root === root && segment.chord.quality === quality
    ? bassOf(segment.chord)
    : undefined;
}

/**
 * Does the claimed bass lie lowest? The first or the lowest tone of the span decides (broken chords begin with their bass or reach down
 * to it), or the bass that after-beats leave ringing. A bass tone that is foreign to the chord, or that stays while the harmony changes, is
 * a pedal and hides the inversion (Hutchinson, Non-Chord Tones: the pedal is not counted for the inversion). A single line has no bass.
 * `onGround`: the bass that a broken chord leaves ringing counts alone, as for a span that begins in the middle of its figure.
 */
function askBass(analysis: Analysis, { question, hearing, chord }: Weighed, onGround = false): BassAnswer {
  const { basses } = hearing;
  if (question.bass === undefined || basses === undefined) return { fits: 'yes', lowest: basses?.lowest };
  const { first, lowest, longest, ground } = basses;
  const figured = figuredBass(analysis, question, chord);
  if (figured !== undefined && lowest.pitchClass !== figured) {
    if (question.bass === figured) return { fits: 'yes', lowest };
    if (question.bass === lowest.pitchClass) return { fits: 'figure', lowest };
  }
  const deeper = deepestBefore(analysis, question);
  if (onGround && ground.midi < lowest.midi && chord.tones.includes(ground.pitchClass))
    return { fits: ground.pitchClass === question.bass ? 'yes' : 'no', lowest: ground };
  if ([first, lowest, ground].some(tone => tone.pitchClass === question.bass)) return { fits: 'yes', lowest };
  if (longest.pitchClass === question.bass && hearing.beats >= 2) return { fits: 'yes', lowest };
  const above = hearing.tones
    .filter(tone => chord.tones.includes(tone.pitchClass) && tone.pitchClass !== first.pitchClass)
    .reduce<Tone | undefined>(
      (low, tone) => (low === undefined || tone.midi < low.midi ? tone : low),
      undefined,
    );
  const foreignBass = !chord.tones.includes(first.pitchClass);
  if (foreignBass && above?.pitchClass === question.bass) return { fits: 'yes', lowest: first };
  const goal = first.next === undefined ? undefined : heardIn(analysis).sound.tones[first.next];
  if (foreignBass && first.departure.startsWith('step') && goal?.pitchClass === question.bass)
    return { fits: 'leaning', lowest: first };
  if (hearing.mostAtOnce < 2) return { fits: 'unheard', lowest: first };
  if (howLongStays(analysis, first) !== 'no') {
    // Over a foreign pedal the inversion is not figured, so the plain numeral is right.
    if (foreignBass && question.bass === chord.root) return { fits: 'unfigured', lowest: first };
    if (foreignBass || above?.pitchClass === question.bass) return { fits: 'pedal', lowest: first };
  }
  if (deeper !== undefined && deeper.midi < lowest.midi && deeper.pitchClass === question.bass)
    return { fits: 'earlier', lowest: first };
  return { fits: foreignBass && !hearing.present.has(question.bass) ? 'unheard' : 'no', lowest: first };
}

function witnessesOf(
  analysis: Analysis,
  weighed: Weighed,
  key: Key,
): {
  readonly all: readonly Witness[];
  readonly setAside: readonly string[];
  readonly against: readonly string[];
} {
  const { sound, lattice } = heardIn(analysis);
  const { question, hearing, price } = weighed;
  const start = ticksOf(question.start, sound.ticksPerWhole);
  const end = Math.max(start + 1, ticksOf(question.end, sound.ticksPerWhole));
  const from = momentAt(lattice.moments, start);
  const to = momentAt(lattice.moments, end - 1) + 1;
  const chordAt = (ticks: number): { readonly tones: readonly PitchClass[] } | undefined => {
    if (ticks >= start && ticks < end) return question;
    return segmentAt(analysis, fraction(ticks, sound.ticksPerWhole))?.chord;
  };
  const foreign = new Map(
    foreignTones(sound, lattice, { from, to, tones: question.tones, key }, chordAt).map(({ tone, named }) => [
      tone,
      named,
    ]),
  );
  const all: Witness[] = [];
  const setAside: string[] = [];
  const against: string[] = [];
  for (const tone of hearing.tones) {
    const [note] = tone.notes;
    if (note === undefined) continue;
    const part = question.tones.indexOf(tone.pitchClass);
    const name = printPitchClass(tone.pitchClass);
    const named = foreign.get(tone);
    if (part >= 0) all.push({ role: 'supports', note, why: `${partName(part)} of the chord` });
    else if (named !== undefined) {
      all.push({
        role: 'set aside',
        note,
        why: named.kind + (named.figure === undefined ? '' : ` ${named.figure}`),
      });
      setAside.push(`${name} (${named.kind})`);
    } else {
      all.push({
        role: 'contradicts',
        note,
        why: 'foreign to the chord, neither prepared nor resolved by step',
      });
      against.push(name);
    }
  }
  for (const part of price.missing) {
    const tone = question.tones[part];
    if (tone !== undefined)
      all.push({ role: 'missing', tone, why: `${partName(part)} of the chord, ${unheard(question, false)}` });
  }
  return { all, setAside: [...new Set(setAside)], against: [...new Set(against)] };
}

/** The reading that the analysis prefers at a place, as long as it is another chord than the one asked about. */
function betterThan(weighed: Weighed): Judgement['better'] {
  const { segments, chord, question } = weighed;
  const main = segments.reduce<Segment | undefined>((longest, segment) => {
    const length = (s: Segment): number => s.end.n / s.end.d - s.start.n / s.start.d;
    return longest === undefined || length(segment) > length(longest) ? segment : longest;
  }, undefined);
  if (main === undefined) return undefined;
  const same = main.chord.root === chord.root && main.chord.quality === chord.quality;
  if (same && (question.bass === undefined || bassOf(main.chord) === question.bass)) return undefined;
  return { roman: main.roman, chord: printChord(main.chord), key: main.key };
}

/** A third, fifth or seventh of the chord that never sounds, while its letter sounds with another accidental in the chord that fits best. */
function alteredIn({
  question,
  hearing,
  best,
  missing,
}: Weighed): { readonly part: number; readonly heard: PitchClass } | undefined {
  for (const part of missing.filter(each => each >= 1 && each <= 3)) {
    const wanted = question.tones[part] as PitchClass;
    const heard = best.tones.find(
      tone => tone !== wanted && hearing.present.has(tone) && letterOf(tone) === letterOf(wanted),
    );
    if (heard !== undefined) return { part, heard };
  }
  return undefined;
}

/** The chord of the harmony that a moment is part of, where it holds all that sounds then and never has the tones that the claimed chord lacks. */
function wholeHarmony(analysis: Analysis, { question, chord, hearing, missing }: Weighed): Chord | undefined {
  const segment = segmentAt(analysis, question.start);
  if (compare(question.start, question.end) !== 0 || segment === undefined || sameChord(segment.chord, chord))
    return undefined;
  const { sound, lattice } = heardIn(analysis);
  const [from, to] = [segment.start, segment.end].map(time =>
    momentAt(lattice.moments, ticksOf(time, sound.ticksPerWhole)),
  ) as [number, number];
  const sounding = tonesBetween(sound, lattice.moments, from, Math.max(from + 1, to));
  const holdsAll = [...hearing.present.keys()].every(tone => segment.chord.tones.includes(tone));
  const lacks = missing.some(part => sounding.every(({ pitchClass }) => pitchClass !== question.tones[part]));
  return holdsAll && lacks ? segment.chord : undefined;
}

/** Whether a delayed part of the chord comes while the analysis still hears a chord on its root. */
const comesWithin = (analysis: Analysis, { question, chord, hearing }: Weighed, part: number): boolean =>
  hearing.resolutions.some(
    ({ to, at }) =>
      to === question.tones[part] &&
      segmentAt(analysis, fraction(at, heardIn(analysis).sound.ticksPerWhole))?.chord.root === chord.root,
  );

/** Share of whole bars from which on other harmonies forbid calling them by one. */
const otherHarmonies = 0.5;

/**
 * The numerals beside the claimed chord, where whole bars are said to be it and it is one harmony among others that fill half of them: of a
 * bar with six-four and V neither is simply `the` chord. A chord that holds every tone of them is one harmony all the same.
 */
function besides({ score }: Analysis, { question, chord, segments, price }: Weighed): readonly string[] {
  const isWhole =
    score.bars.some(bar => equals(bar.start, question.start)) &&
    score.bars.some(bar => equals(add(bar.start, bar.length), question.end));
  if (!isWhole || price.foreign === 0 || !segments.some(segment => segment.chord.root === chord.root))
    return [];
  const others = segments.filter(segment => segment.chord.root !== chord.root);
  const length = ({ start, end }: Segment): number =>
    Math.min(toNumber(end), toNumber(question.end)) - Math.max(toNumber(start), toNumber(question.start));
  const filled = others.reduce((sum, segment) => sum + length(segment), 0);
  const whole = toNumber(question.end) - toNumber(question.start);
  return filled < otherHarmonies * whole ? [] : [...new Set(others.map(({ roman }) => roman))];
}

/** The augmented sixths share their frame and differ in one tone, which decides between them. */
const isAugmentedSixth = (of: Chord): boolean => of.quality.endsWith('augmented sixth');
const withArticle = (of: Chord): string => `${of.quality.startsWith('I') ? 'an' : 'a'} ${of.quality}`;

/** How far a chord is behind the best reading of a span, and whether its bass fits; the measures behind the verdicts. */
export function supportFor(
  analysis: Analysis,
  question: ChordQuestion,
): { readonly behind: number; readonly bassFits: boolean } {
  const weighed = weigh(analysis, question);
  return {
    behind: weighed.hearing.tones.length === 0 ? Infinity : weighed.behind,
    bassFits: askBass(analysis, weighed, true).fits === 'yes',
  };
}

/**
 * Judges whether the harmony of a span is the chord asked about: how well the notes support it, what contradicts it, which reading is
 * better. A question of its own, not a comparison with the analysis: a defensible reading is no error.
 */
export function judgeChord(analysis: Analysis, question: ChordQuestion): Judgement {
  const respelled = {
    inKey: question.key,
    tones: question.tones,
    piece: heardIn(analysis).lattice.tables.index,
  };
  return allowRespelling(judgeAsSpelled(analysis, question), respelled, shift =>
    judgeAsSpelled(analysis, {
      ...question,
      tones: question.tones.map(tone => respelledTone(tone, shift)),
      ...(question.bass === undefined ? {} : { bass: respelledTone(question.bass, shift) }),
      ...(question.key === undefined ? {} : { key: respelledKey(question.key, shift) }),
    }),
  );
}

function judgeAsSpelled(analysis: Analysis, question: ChordQuestion): Judgement {
  const weighed = weigh(analysis, question);
  const { hearing, price, chord, best, behind, missing } = weighed;
  const key = question.key ?? weighed.segments[0]?.key ?? makeKey(chord.root, 'major');
  const { all, setAside, against } = witnessesOf(analysis, weighed, key);
  const better = betterThan(weighed);
  const name = printChord(chord);
  const tone = (part: number): string => printPitchClass(question.tones[part] as PitchClass);
  // Against a chord that is refused stands all that belongs to the better one, however its voices move.
  const refused = (witness: Witness): Witness => {
    const isForeign = witness.role === 'set aside' || witness.role === 'contradicts';
    const note = isForeign ? analysis.score.notes[witness.note ?? -1] : undefined;
    return note !== undefined && best.tones.includes(pitchClassOf(note.pitch))
      ? { ...witness, role: 'contradicts', why: `of ${printChord(best)}, not of ${name}` }
      : witness;
  };
  const answer = (outcome: Outcome, reason: string): Judgement => ({
    outcome,
    reason,
    witnesses: outcome === 'contradicted' ? all.map(refused) : all,
    ...(outcome !== 'supported' && better !== undefined ? { better } : {}),
  });

  if (hearing.beats === 0 || hearing.tones.length === 0) return answer('open', 'nothing sounds there');
  const lacking = list(missing.map(part => `the ${partName(part)} ${tone(part)}`));
  const verb = unheard(question, missing.length > 1);
  const wrong = list([
    ...new Set(
      [...hearing.foreign.keys()]
        .filter(other => !question.tones.includes(other) && best.tones.includes(other))
        .map(printPitchClass),
    ),
  ]);

  if (isAugmentedSixth(chord) && isAugmentedSixth(best) && !sameChord(chord, best)) {
    const heard = list(best.tones.filter(other => !question.tones.includes(other)).map(printPitchClass));
    const unheard = list(missing.map(tone));
    const parts = [heard === '' ? '' : `with ${heard}`, unheard === '' ? '' : `without ${unheard}`];
    return answer(
      'contradicted',
      `${parts.filter(part => part !== '').join(' and ')} it is ${withArticle(best)}`,
    );
  }
  const bass = askBass(analysis, weighed);
  if (bass.fits === 'no' && bass.lowest !== undefined) {
    const part = question.tones.indexOf(bass.lowest.pitchClass);
    const role = part < 0 ? 'which is foreign to the chord' : `the ${partName(part)}`;
    const low = `the lowest tone is ${printPitchClass(bass.lowest.pitchClass)}, ${role}, not ${printPitchClass(question.bass as PitchClass)}`;
    const refusal = answer(
      'contradicted',
      behind >= verdictBorders.far && wrong !== ''
        ? `${low}; ${wrong} ${wrong.includes(' and ') ? 'do' : 'does'} not belong to ${name}`
        : low,
    );
    const { midi } = bass.lowest;
    const lies = (id: NoteId | undefined): boolean => {
      const note = id === undefined ? undefined : analysis.score.notes[id];
      return note !== undefined && midiOf(note.pitch) === midi;
    };
    // A member of the chord speaks against it where it lies in the bass.
    return {
      ...refusal,
      witnesses: refusal.witnesses.map(each =>
        each.role === 'supports' && lies(each.note)
          ? { ...each, role: 'contradicts', why: `${each.why}, in the bass` }
          : each,
      ),
    };
  }
  if (behind >= verdictBorders.far) {
    // Only absences speak against it: the notes are compatible, they do not say enough.
    if (missing.length > 0 && price.foreign < 0.3 && price.foreign - priceOf(best, hearing).foreign < 0.3) {
      return answer('open', `${lacking} of ${name} ${verb}; what sounds also makes ${printChord(best)}`);
    }
    const parts = [
      wrong === '' ? '' : `${wrong} ${wrong.includes(' and ') ? 'do' : 'does'} not belong to ${name}`,
      missing.length === 0 ? '' : `${lacking} ${verb}`,
    ].filter(text => text !== '');
    return answer(
      'contradicted',
      parts.length > 0 ? parts.join(', and ') : `${printChord(best)} explains the notes much better`,
    );
  }
  if (bass.fits === 'unheard')
    return answer(
      behind > verdictBorders.near ? 'contradicted' : 'rivalled',
      `${printPitchClass(question.bass as PitchClass)} never sounds in the bass`,
    );
  const altered = alteredIn(weighed);
  if (altered !== undefined)
    return answer(
      'contradicted',
      `${printPitchClass(altered.heard)} sounds, not the ${partName(altered.part)} ${tone(altered.part)}`,
    );
  // A missing root is understood from third, fifth and seventh, and from no less.
  const defining = missing.filter(part => part === 1 || part === 3 || (part === 0 && missing.length > 1));
  if (defining.length > 0)
    return answer(
      'open',
      `${list(defining.map(part => `the ${partName(part)} ${tone(part)}`))} of ${name} ${unheard(question, defining.length > 1)}, so the notes do not settle what chord it is`,
    );
  if (bass.fits === 'pedal' && bass.lowest !== undefined) {
    return answer(
      'rivalled',
      `${printPitchClass(bass.lowest.pitchClass)} sounds below it through more than one harmony; heard as a pedal it leaves ${printPitchClass(question.bass as PitchClass)} as the bass, heard as the bass it does not`,
    );
  }
  if (bass.fits === 'figure') {
    const under = figuredBass(analysis, question, chord) as PitchClass;
    return answer(
      'rivalled',
      `${printPitchClass(question.bass as PitchClass)} is the lowest tone at this moment, but ${printPitchClass(under)} began the harmony below it`,
    );
  }
  if (bass.fits === 'leaning' && bass.lowest !== undefined) {
    const [low, goal] = [bass.lowest.pitchClass, question.bass as PitchClass].map(printPitchClass);
    return answer(
      'rivalled',
      `${low} in the bass moves on to ${goal}: heard as leaning on it, it leaves ${goal} as the bass`,
    );
  }
  if (bass.fits === 'earlier') {
    return answer(
      'rivalled',
      `${printPitchClass(question.bass as PitchClass)} was struck deeper earlier in the bar; whether it is still heard as the bass here is a matter of hearing`,
    );
  }
  const aside = setAside.length === 0 ? '' : `; set aside: ${list(setAside)}`;
  if (behind > verdictBorders.near) {
    const foreign = against.length === 0 ? '' : `, and leaves ${list(against)} unexplained`;
    return answer('rivalled', `${printChord(best)} fits the notes as well or better${foreign}${aside}`);
  }
  const whole = wholeHarmony(analysis, weighed);
  if (whole !== undefined)
    return answer(
      'contradicted',
      `${lacking} of ${name} never ${missing.length > 1 ? 'sound' : 'sounds'} in the harmony that this moment is part of, ${printChord(whole)}`,
    );
  // What a suspension delays belongs to the chord only if the chord is still there when it comes.
  const late = price.delayed.filter(part => !comesWithin(analysis, weighed, part));
  if (late.length > 0)
    return answer(
      'rivalled',
      `${list(late.map(part => `the ${partName(part)} ${tone(part)}`))} of ${name} ${late.length > 1 ? 'come' : 'comes'} only when the harmony has changed`,
    );
  const beside = besides(analysis, weighed);
  if (beside.length > 0)
    return answer(
      'rivalled',
      `it stands for a part of the bar only: there ${beside.length > 1 ? 'are' : 'is'} ${list(beside)} too`,
    );
  const low = hearing.basses?.first.pitchClass;
  if (missing.length > 0 && low !== undefined && !question.tones.includes(low)) {
    const withBass = weighed.segments.find(segment => segment.chord.tones.includes(low))?.chord;
    if (withBass !== undefined)
      return answer(
        'rivalled',
        `${lacking} ${verb}, and ${printPitchClass(low)} in the bass is set aside; heard as a chord tone it makes ${printChord(withBass)}`,
      );
  }
  const absent = missing.length === 0 ? '' : `; ${lacking} ${missing.length > 1 ? 'are' : 'is'} left out`;
  const sounding = question.tones.filter(of => hearing.present.has(of)).map(printPitchClass);
  // What makes it this chord may sound before or after the span: the harmony is heard as a whole.
  const around = question.tones
    .filter((of, part) => !hearing.present.has(of) && !missing.includes(part))
    .map(printPitchClass);
  const elsewhere =
    around.length === 0
      ? ''
      : `; ${list(around)} ${around.length > 1 ? 'sound' : 'sounds'} elsewhere in the same harmony`;
  return answer(
    'supported',
    `${list(sounding)} ${sounding.length > 1 ? 'sound' : 'sounds'}${elsewhere}${absent}${aside}`,
  );
}
