import {
  add,
  barAt,
  compare,
  equals,
  fraction,
  isBefore,
  printPitchClass,
  toNumber,
} from '../score/index.js';
import { heardIn } from './analyse.js';
import { besideIt, isLacking, lacking, list, verdictBorders } from './asked-chord.js';
import type { Answer, AskedChord } from './asked-chord.js';
import { doubtOfBass } from './bass-fit.js';
import { printChord, sameChord } from './chord.js';
import { tonesBetween } from './foreign-tones.js';
import { momentAt } from './hearing.js';
import type { Hearing } from './hearing.js';
import type { Chord, Segment } from './model.js';
import { segmentAt } from './segment-at.js';
import { ticksOf } from './sound.js';

const rivalled = (reason: string): Answer => ({ outcome: 'rivalled', reason });

/** The chord of the harmony that a moment is part of, where it holds all that sounds then and never has the tones that the claimed chord lacks. */
function wholeHarmony({ analysis, question, chord, hearing, missing }: AskedChord): Chord | undefined {
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
const comesWithin = ({ analysis, question, chord, hearing }: AskedChord, part: number): boolean =>
  hearing.resolutions.some(
    ({ to, at }) =>
      to === question.tones[part] &&
      segmentAt(analysis, fraction(at, heardIn(analysis).sound.ticksPerWhole))?.chord.root === chord.root,
  );

/** A suspended tone that is foreign to the claimed chord and resolves into no member of it: then the harmony is another. */
const resolvingAstray = ({
  chord,
  hearing: { resolutions },
}: AskedChord): Hearing['resolutions'][number] | undefined =>
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
function besides({ analysis: { score }, question, chord, segments, price }: AskedChord): readonly string[] {
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

/** Another chord that fits as well, or a fuller one that the claimed triad is taken out of. */
function rival(asked: AskedChord): Answer | undefined {
  const { best, behind, against, fuller } = asked;
  if (behind > verdictBorders.near) {
    const foreign = against.length === 0 ? '' : `, and leaves ${list(against)} unexplained`;
    return rivalled(`${printChord(best)} fits the notes as well or better${foreign}${besideIt(asked)}`);
  }
  return fuller === undefined
    ? undefined
    : rivalled(
        `${printPitchClass(fuller.added)} sounds as well, and with it the notes make ${printChord(fuller.chord)}${besideIt(asked)}`,
      );
}

/** A moment of a harmony that never has what the claimed chord lacks. */
function partOfAnother(asked: AskedChord): Answer | undefined {
  const whole = wholeHarmony(asked);
  return whole === undefined
    ? undefined
    : {
        outcome: 'contradicted',
        reason: `${lacking(asked)} of ${asked.name} never ${asked.missing.length > 1 ? 'sound' : 'sounds'} in the harmony that this moment is part of, ${printChord(whole)}`,
      };
}

/** What a suspension delays belongs to the chord only if the chord is still there when it comes. */
function comesTooLate(asked: AskedChord): Answer | undefined {
  const late = asked.price.delayed.filter(part => !comesWithin(asked, part));
  return late.length === 0
    ? undefined
    : rivalled(
        `${lacking(asked, late)} of ${asked.name} ${late.length > 1 ? 'come' : 'comes'} only when the harmony has changed`,
      );
}

/** A member is missing, and a foreign tone resolves into none. */
function leadsAway(asked: AskedChord): Answer | undefined {
  const astray = asked.missing.length === 0 ? undefined : resolvingAstray(asked);
  return astray === undefined
    ? undefined
    : rivalled(
        `${isLacking(asked)}, and ${printPitchClass(astray.from)} resolves to ${printPitchClass(astray.to)}, which is foreign to ${asked.name} too`,
      );
}

/** Whole bars that are said to be one chord and have others in them. */
function besideOthers(asked: AskedChord): Answer | undefined {
  const others = besides(asked);
  return others.length === 0
    ? undefined
    : rivalled(
        `it stands for a part of the bar only: there ${others.length > 1 ? 'are' : 'is'} ${list(others)} too`,
      );
}

/** A member is missing, and the foreign bass makes another chord of the notes. */
function overForeignBass(asked: AskedChord): Answer | undefined {
  const { question, hearing, missing, segments } = asked;
  const low = hearing.basses?.first.pitchClass;
  if (missing.length === 0 || low === undefined || question.tones.includes(low)) return undefined;
  const withBass = segments.find(({ chord }) => chord.tones.includes(low))?.chord;
  return withBass === undefined
    ? undefined
    : rivalled(
        `${isLacking(asked)}, and ${printPitchClass(low)} in the bass is set aside; heard as a chord tone it makes ${printChord(withBass)}`,
      );
}

/** What makes a chord that the tones of its span allow arguable, or wrong, after all: the first of these that is so. */
export function doubtOf(asked: AskedChord): Answer | undefined {
  const ofBass = doubtOfBass(asked.question, asked.bass);
  return (
    (ofBass === undefined ? undefined : rivalled(ofBass)) ??
    rival(asked) ??
    partOfAnother(asked) ??
    comesTooLate(asked) ??
    leadsAway(asked) ??
    besideOthers(asked) ??
    overForeignBass(asked)
  );
}
