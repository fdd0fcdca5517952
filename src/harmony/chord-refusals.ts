import { compare, pitchClassOf, printPitchClass } from '../score/index.js';
import type { PitchClass } from '../score/index.js';
import { fewForeign, isLacking, lacking, list, member, verdictBorders } from './asked-chord.js';
import type { Answer, AskedChord } from './asked-chord.js';
import { printChord, sameChord } from './chord.js';
import { letterOf } from './chord-tables.js';
import { partName, unheard } from './chord-witnesses.js';
import { nativeTones } from './key.js';
import type { Chord, Segment } from './model.js';
import { priceOf } from './price.js';
import { isAugmentedSixth } from './weigh-chord.js';

const contradicted = (reason: string): Answer => ({ outcome: 'contradicted', reason });

/** Says that a third, fifth or seventh of the chord never sounds, but its letter with another accidental, in the chord that fits best. */
function alteredIn({ question, hearing, best, missing }: AskedChord): string | undefined {
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

/** A seventh chord of which everything but the seventh sounds. */
const isTriadWithoutSeventh = ({ chord, hearing, missing }: AskedChord): boolean =>
  chord.tones.length === 4 &&
  !isAugmentedSixth(chord) &&
  missing.length === 1 &&
  missing[0] === 3 &&
  chord.tones.slice(0, 3).every(tone => hearing.present.has(tone));

/** Whether a part of the claimed chord sounds before or after the span in the harmonies on its root that it belongs to. */
function soundsAround({ analysis, chord, segments }: AskedChord, part: number): boolean {
  const all = analysis.segments;
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

const withArticle = (of: Chord): string => `${of.quality.startsWith('I') ? 'an' : 'a'} ${of.quality}`;

/** Names the augmented sixth that sounds by the tones in which it differs from the claimed one; they share their frame. */
function otherAugmentedSixth({ question, chord, best, missing }: AskedChord): Answer | undefined {
  if (!isAugmentedSixth(chord) || !isAugmentedSixth(best) || sameChord(chord, best)) return undefined;
  const heard = list(best.tones.filter(tone => !question.tones.includes(tone)).map(printPitchClass));
  const lost = list(missing.map(part => printPitchClass(question.tones[part] as PitchClass)));
  const parts = [heard === '' ? '' : `with ${heard}`, lost === '' ? '' : `without ${lost}`];
  return contradicted(`${parts.filter(part => part !== '').join(' and ')} it is ${withArticle(best)}`);
}

/** A claimed seventh chord that is a whole triad, and no more, in all of the harmony that it is part of. */
function triadAlone(asked: AskedChord): Answer | undefined {
  const { question, price, behind } = asked;
  const isMoment = compare(question.start, question.end) === 0;
  const fitsAllTones = price.foreign < fewForeign || behind < verdictBorders.far;
  return !isMoment && fitsAllTones && isTriadWithoutSeventh(asked) && !soundsAround(asked, 3)
    ? contradicted(`${member(asked, 3)} never sounds, and the triad is whole without it`)
    : undefined;
}

/** A missing root is understood from third, fifth and seventh, and from no less. */
const definingOf = ({ missing }: AskedChord): readonly number[] =>
  missing.filter(part => part === 1 || part === 3 || (part === 0 && missing.length > 1));

/** What decides is named first: tones of another chord and members that never sound weigh more than the bass. */
function factsAgainst(asked: AskedChord): readonly string[] {
  const { question, hearing, best, behind, missing, name } = asked;
  const wrong = [
    ...new Set(
      [...hearing.foreign.keys()]
        .filter(tone => !question.tones.includes(tone) && best.tones.includes(tone))
        .map(printPitchClass),
    ),
  ];
  const lost = behind >= verdictBorders.far ? missing : definingOf(asked);
  return [
    ...(wrong.length === 0 || behind <= verdictBorders.near
      ? []
      : [`${list(wrong)} ${wrong.length > 1 ? 'do' : 'does'} not belong to ${name}`]),
    ...(lost.length === 0 ? [] : [isLacking(asked, lost)]),
  ];
}

/** Another bass than the claimed one. */
function otherBass(asked: AskedChord): Answer | undefined {
  const { question, bass, behind } = asked;
  const isRefused = bass.fits === 'no' || (bass.fits === 'foreign' && behind > verdictBorders.near);
  if (!isRefused || bass.lowest === undefined) return undefined;
  const part = question.tones.indexOf(bass.lowest.pitchClass);
  const role = part < 0 ? 'which is foreign to the chord' : `the ${partName(part)}`;
  const low = `the lowest tone is ${printPitchClass(bass.lowest.pitchClass)}, ${role}, not ${printPitchClass(question.bass as PitchClass)}`;
  const facts = factsAgainst(asked);
  const reasons = [
    ...(facts.length === 0 ? [] : [facts.join(', and ')]),
    ...(part < 0 && facts.length > 0 ? [] : [low]),
  ];
  return { ...contradicted(reasons.join('; ')), refusedBy: bass.lowest };
}

/** Another chord that explains the notes much better. */
function farBehind(asked: AskedChord): Answer | undefined {
  const { question, hearing, price, best, behind, missing, name } = asked;
  if (behind < verdictBorders.far) return undefined;
  // Only absences speak against it: the notes are compatible, they do not say enough.
  const isCompatible =
    price.foreign < fewForeign && price.foreign - priceOf(best, hearing).foreign < fewForeign;
  if (missing.length > 0 && isCompatible && alteredIn(asked) === undefined)
    return {
      outcome: 'open',
      reason: `${lacking(asked)} of ${name} ${unheard(question, missing.length > 1)}; what sounds also makes ${printChord(best)}`,
    };
  const facts = factsAgainst(asked);
  return contradicted(
    facts.length > 0 ? facts.join(', and ') : `${printChord(best)} explains the notes much better`,
  );
}

/** Share of the span from which on a tone belongs to its harmony, unless a suspension delays another by it. */
const ofHarmony = 0.5;

/**
 * Another chord that sounds whole, and that the analysis hears alone, where the claimed one has neither its root nor anything that its root is delayed
 * by: what lasts, or comes back in a figure, is no ornament (common practice: an ornament is shorter than what it decorates, and moves
 * on by step).
 */
function rootlessBesideWhole(asked: AskedChord): Answer | undefined {
  const { hearing, price, best, behind, missing, segments, chord } = asked;
  if (behind <= verdictBorders.near || !missing.includes(0) || price.delayed.length > 0) return undefined;
  const others = best.tones.filter(tone => !chord.tones.includes(tone));
  const isWhole = best.tones.every(tone => hearing.present.has(tone));
  const comesBack = (of: PitchClass): boolean =>
    hearing.tones.filter(({ pitchClass }) => pitchClass === of).length > 1;
  const lasts = others.every(
    tone => (hearing.present.get(tone) ?? 0) >= ofHarmony * hearing.beats || comesBack(tone),
  );
  const isHeard = segments.every(segment => segment.chord.root === best.root);
  return isWhole && lasts && isHeard && others.length > 0
    ? contradicted(`${isLacking(asked)}, and ${printChord(best)} sounds whole`)
    : undefined;
}

/** A claimed bass that never lies lowest, though no other does. */
function unheardBass({ question, bass, behind }: AskedChord): Answer | undefined {
  return bass.fits !== 'unheard'
    ? undefined
    : {
        outcome: behind > verdictBorders.near ? 'contradicted' : 'rivalled',
        reason: `${printPitchClass(question.bass as PitchClass)} never sounds in the bass`,
      };
}

/**
 * A chord whose defining members do not sound: the notes do not settle it. What makes a chromatic chord is its root: N6 without the lowered
 * second degree is iv.
 */
function undefinedBy(asked: AskedChord): Answer | undefined {
  const { question, chord, key, best, behind, missing, name } = asked;
  const defining = definingOf(asked);
  const lacksItsMark = missing.includes(0) && !nativeTones(key).includes(chord.root);
  if (lacksItsMark && (defining.length > 0 || behind > verdictBorders.near))
    return contradicted(`${isLacking(asked)}, and ${printChord(best)} fits the notes as well`);
  return defining.length === 0
    ? undefined
    : {
        outcome: 'open',
        reason: `${lacking(asked, defining)} of ${name} ${unheard(question, defining.length > 1)}, so the notes do not settle what chord it is`,
      };
}

/** What speaks against a chord, or leaves it open: the first of these that is so. `undefined` where the chord can be heard. */
export function refusalOf(asked: AskedChord): Answer | undefined {
  const { hearing, fuller } = asked;
  if (hearing.beats === 0 || hearing.tones.length === 0)
    return { outcome: 'open', reason: 'nothing sounds there' };
  const altered = alteredIn(asked);
  return (
    otherAugmentedSixth(asked) ??
    triadAlone(asked) ??
    (fuller?.isRooted === true
      ? contradicted(
          `${printPitchClass(fuller.added)} lies in the bass, and with it the notes make ${printChord(fuller.chord)}`,
        )
      : undefined) ??
    otherBass(asked) ??
    farBehind(asked) ??
    rootlessBesideWhole(asked) ??
    unheardBass(asked) ??
    (altered === undefined ? undefined : contradicted(altered)) ??
    undefinedBy(asked)
  );
}
