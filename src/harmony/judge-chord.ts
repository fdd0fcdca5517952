import {
  add,
  compare,
  equals,
  fraction,
  barAt,
  isBefore,
  midiOf,
  pitchClassOf,
  printPitchClass,
  toNumber,
} from '../score/index.js';
import type { Fraction, NoteId, PitchClass } from '../score/index.js';
import { heardIn } from './analyse.js';
import { askBass, doubtOfBass } from './bass-fit.js';
import { bassOf, printChord, sameChord } from './chord.js';
import { letterOf } from './chord-tables.js';
import { partName, unheard, witnessesOf } from './chord-witnesses.js';
import { fullerChord } from './fuller-chord.js';
import { tonesBetween } from './foreign-tones.js';
import { momentAt } from './hearing.js';
import type { Hearing } from './hearing.js';
import type { ChordQuestion, Judgement, Outcome, Witness } from './judgement.js';
import { key as makeKey, nativeTones } from './key.js';
import type { Analysis, Chord, Segment } from './model.js';
import { priceOf } from './price.js';
import { allowRespelling, respelledKey, respelledTone } from './respelling.js';
import { segmentAt } from './segment-at.js';
import { ticksOf } from './sound.js';
import { isAugmentedSixth, weigh } from './weigh-chord.js';
import type { Weighed } from './weigh-chord.js';

/**
 * Borders of the verdicts, in beats of unexplained tone per two beats of music (the unit of `lattice.ts`). A reading that is dearer
 * than the best by less than `near` explains the notes as well as any listener could ask; from `far` on, an accented tone of a beat
 * or the defining tone of another chord speaks against it.
 */
export const verdictBorders = { near: 0.6, far: 1.35 } as const;

const list = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1] ?? ''}`;

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

/** Says that a third, fifth or seventh of the chord never sounds, but its letter with another accidental, in the chord that fits best. */
function alteredIn({ question, hearing, best, missing }: Weighed): string | undefined {
  for (const part of missing.filter(each => each >= 1 && each <= 3)) {
    const wanted = question.tones[part] as PitchClass;
    const heard = best.tones.find(
      tone => tone !== wanted && hearing.present.has(tone) && letterOf(tone) === letterOf(wanted),
    );
    if (heard !== undefined)
      return `${printPitchClass(heard)} sounds, not the ${partName(part)} ${printPitchClass(wanted)}`;
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

/** A seventh chord of which everything but the seventh sounds. */
const isTriadWithoutSeventh = ({ chord, hearing, missing }: Weighed): boolean =>
  chord.tones.length === 4 &&
  !isAugmentedSixth(chord) &&
  missing.length === 1 &&
  missing[0] === 3 &&
  chord.tones.slice(0, 3).every(tone => hearing.present.has(tone));

/** Whether a part of the claimed chord sounds before or after the span in the harmonies on its root that it belongs to. */
function soundsAround(
  { segments: all, ...analysis }: Analysis,
  { chord, segments }: Weighed,
  part: number,
): boolean {
  const isOnRoot = (segment: Segment | undefined): boolean => segment?.chord.root === chord.root;
  const inside = segments.filter(isOnRoot);
  const [first] = inside;
  const last = inside.at(-1);
  if (first === undefined || last === undefined) return false;
  let from = all.indexOf(first);
  let to = all.indexOf(last);
  while (isOnRoot(all[from - 1])) from--;
  while (isOnRoot(all[to + 1])) to++;
  return all
    .slice(from, to + 1)
    .flatMap(({ chordTones, nonChordTones, unexplained }) => [
      ...chordTones,
      ...nonChordTones.map(({ note }) => note),
      ...unexplained,
    ])
    .some(id => {
      const note = analysis.score.notes[id];
      return note !== undefined && pitchClassOf(note.pitch) === chord.tones[part];
    });
}

/** Whether a delayed part of the chord comes while the analysis still hears a chord on its root. */
const comesWithin = (analysis: Analysis, { question, chord, hearing }: Weighed, part: number): boolean =>
  hearing.resolutions.some(
    ({ to, at }) =>
      to === question.tones[part] &&
      segmentAt(analysis, fraction(at, heardIn(analysis).sound.ticksPerWhole))?.chord.root === chord.root,
  );

/** A suspended tone that is foreign to the claimed chord and resolves into no member of it: then the harmony is another. */
const resolvingAstray = ({
  chord,
  hearing: { resolutions },
}: Weighed): Hearing['resolutions'][number] | undefined =>
  resolutions.find(
    ({ from }) =>
      !chord.tones.includes(from) &&
      resolutions.filter(other => other.from === from).every(({ to }) => !chord.tones.includes(to)),
  );

/** Share of whole bars from which on other harmonies forbid calling them by one. */
const otherHarmonies = 0.5;

/**
 * The numerals beside the claimed chord, where whole bars are said to be it and it is one harmony among others that fill half of them: of a
 * bar with six-four and V neither is simply `the` chord. A chord that holds every tone of them is one harmony all the same.
 */
function besides({ score }: Analysis, { question, chord, segments, price }: Weighed): readonly string[] {
  const first = barAt(score, question.start);
  const after = barAt(score, question.end);
  const last =
    after === undefined || isBefore(after.start, question.end) ? after : score.bars[after.index - 1];
  const isWhole =
    first !== undefined &&
    equals(first.start, question.start) &&
    last !== undefined &&
    equals(add(last.start, last.length), question.end);
  if (!isWhole || price.foreign === 0 || !segments.some(segment => segment.chord.root === chord.root))
    return [];
  const others = segments.filter(segment => segment.chord.root !== chord.root);
  const length = ({ start, end }: Segment): number =>
    Math.min(toNumber(end), toNumber(question.end)) - Math.max(toNumber(start), toNumber(question.start));
  const filled = others.reduce((sum, segment) => sum + length(segment), 0);
  const whole = toNumber(question.end) - toNumber(question.start);
  return filled < otherHarmonies * whole ? [] : [...new Set(others.map(({ roman }) => roman))];
}

/** Price of foreign tones (in the unit of `lattice.ts`) below which only what is missing speaks against a chord. */
const fewForeign = 0.3;

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

/** The harmony that a moment is part of, as far as it lies in its bar. */
function harmonyAround(
  { score }: Analysis,
  moment: Fraction,
  { start, end }: Segment,
): Pick<ChordQuestion, 'start' | 'end'> {
  const bar = barAt(score, moment);
  if (bar === undefined) return { start, end };
  const last = add(bar.start, bar.length);
  return { start: isBefore(start, bar.start) ? bar.start : start, end: isBefore(last, end) ? last : end };
}

/** The answer of a whole harmony, given for a moment in it. */
const forMoment = (whole: Judgement): Judgement => ({
  ...whole,
  reason: `in the harmony that this moment is part of, ${whole.reason}`,
});

/**
 * What is said of a moment is said of the harmony that it is part of: an after-beat, a note of a broken chord or a suspension makes no chord
 * of its own (common practice). A chord that is whole at the moment itself is never refused for that.
 */
function judgeAsSpelled(analysis: Analysis, question: ChordQuestion): Judgement {
  const own = judgeSounding(analysis, question);
  const segment = segmentAt(analysis, question.start);
  if (compare(question.start, question.end) !== 0 || segment === undefined) return own;
  const around = { ...question, ...harmonyAround(analysis, question.start, segment) };
  const whole = judgeSounding(analysis, around);
  if (whole.outcome === own.outcome) return own;
  if (own.outcome === 'open') return forMoment(whole);
  if (own.outcome === 'rivalled') {
    const decides =
      whole.outcome === 'supported' ||
      (whole.outcome === 'contradicted' && weigh(analysis, around).missing.length > 0);
    return decides ? forMoment(whole) : own;
  }
  if (own.outcome === 'supported') {
    const { present } = weigh(analysis, question).hearing;
    if (!question.tones.every(tone => present.has(tone)))
      return whole.outcome === 'open' ? own : forMoment(whole);
    return whole.outcome === 'contradicted'
      ? { ...own, outcome: 'rivalled', reason: `${own.reason}; but ${forMoment(whole).reason}` }
      : own;
  }
  // Suspended or not yet there at the moment; a wrong bass is not mended by what comes later.
  const isItsChord = sameChord(segment.chord, weigh(analysis, question).chord);
  if (whole.outcome !== 'supported' || !isItsChord) return own;
  const { bass, ...ofAnyBass } = question;
  return bass === undefined || judgeSounding(analysis, ofAnyBass).outcome === 'contradicted'
    ? forMoment(whole)
    : own;
}

/** The answer of what sounds in a span, or at a moment, alone. */
function judgeSounding(analysis: Analysis, question: ChordQuestion): Judgement {
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

  // A missing root is understood from third, fifth and seventh, and from no less.
  const defining = missing.filter(part => part === 1 || part === 3 || (part === 0 && missing.length > 1));
  // What decides is named first: tones of another chord and members that never sound weigh more than the bass.
  const spokenOf = behind >= verdictBorders.far ? missing : defining;
  const facts = [
    wrong === '' || behind <= verdictBorders.near
      ? ''
      : `${wrong} ${wrong.includes(' and ') ? 'do' : 'does'} not belong to ${name}`,
    spokenOf.length === 0
      ? ''
      : `${list(spokenOf.map(part => `the ${partName(part)} ${tone(part)}`))} ${unheard(question, spokenOf.length > 1)}`,
  ].filter(text => text !== '');

  if (isAugmentedSixth(chord) && isAugmentedSixth(best) && !sameChord(chord, best)) {
    const heard = list(best.tones.filter(other => !question.tones.includes(other)).map(printPitchClass));
    const unheard = list(missing.map(tone));
    const parts = [heard === '' ? '' : `with ${heard}`, unheard === '' ? '' : `without ${unheard}`];
    return answer(
      'contradicted',
      `${parts.filter(part => part !== '').join(' and ')} it is ${withArticle(best)}`,
    );
  }
  const isMoment = compare(question.start, question.end) === 0;
  const fitsAllTones = price.foreign < fewForeign || behind < verdictBorders.far;
  if (!isMoment && fitsAllTones && isTriadWithoutSeventh(weighed) && !soundsAround(analysis, weighed, 3))
    return answer('contradicted', `the seventh ${tone(3)} never sounds, and the triad is whole without it`);
  const fuller = fullerChord(analysis, weighed);
  if (fuller?.isRooted === true)
    return answer(
      'contradicted',
      `${printPitchClass(fuller.added)} lies in the bass, and with it the notes make ${printChord(fuller.chord)}`,
    );
  const bass = askBass(analysis, weighed);
  const isRefused = bass.fits === 'no' || (bass.fits === 'foreign' && behind > verdictBorders.near);
  if (isRefused && bass.lowest !== undefined) {
    const part = question.tones.indexOf(bass.lowest.pitchClass);
    const role = part < 0 ? 'which is foreign to the chord' : `the ${partName(part)}`;
    const low = `the lowest tone is ${printPitchClass(bass.lowest.pitchClass)}, ${role}, not ${printPitchClass(question.bass as PitchClass)}`;
    const refusal = answer(
      'contradicted',
      [facts.join(', and '), ...(part < 0 && facts.length > 0 ? [] : [low])]
        .filter(text => text !== '')
        .join('; '),
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
  const altered = alteredIn(weighed);
  if (behind >= verdictBorders.far) {
    // Only absences speak against it: the notes are compatible, they do not say enough.
    const isCompatible =
      price.foreign < fewForeign && price.foreign - priceOf(best, hearing).foreign < fewForeign;
    if (missing.length > 0 && isCompatible && altered === undefined) {
      return answer('open', `${lacking} of ${name} ${verb}; what sounds also makes ${printChord(best)}`);
    }
    return answer(
      'contradicted',
      facts.length > 0 ? facts.join(', and ') : `${printChord(best)} explains the notes much better`,
    );
  }
  if (bass.fits === 'unheard')
    return answer(
      behind > verdictBorders.near ? 'contradicted' : 'rivalled',
      `${printPitchClass(question.bass as PitchClass)} never sounds in the bass`,
    );
  if (altered !== undefined) return answer('contradicted', altered);
  // What makes a chromatic chord is its root: N6 without the lowered second degree is iv.
  const lacksItsMark = missing.includes(0) && !nativeTones(key).includes(chord.root);
  if (lacksItsMark && (defining.length > 0 || behind > verdictBorders.near))
    return answer('contradicted', `${lacking} ${verb}, and ${printChord(best)} fits the notes as well`);
  if (defining.length > 0)
    return answer(
      'open',
      `${list(defining.map(part => `the ${partName(part)} ${tone(part)}`))} of ${name} ${unheard(question, defining.length > 1)}, so the notes do not settle what chord it is`,
    );
  const doubt = doubtOfBass(question, bass);
  if (doubt !== undefined) return answer('rivalled', doubt);
  const aside = setAside.length === 0 ? '' : `; set aside: ${list(setAside)}`;
  if (behind > verdictBorders.near) {
    const foreign = against.length === 0 ? '' : `, and leaves ${list(against)} unexplained`;
    return answer('rivalled', `${printChord(best)} fits the notes as well or better${foreign}${aside}`);
  }
  if (fuller !== undefined)
    return answer(
      'rivalled',
      `${printPitchClass(fuller.added)} sounds as well, and with it the notes make ${printChord(fuller.chord)}${aside}`,
    );
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
  const astray = missing.length === 0 ? undefined : resolvingAstray(weighed);
  if (astray !== undefined)
    return answer(
      'rivalled',
      `${lacking} ${verb}, and ${printPitchClass(astray.from)} resolves to ${printPitchClass(astray.to)}, which is foreign to ${name} too`,
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
