import type { Analysis } from '../../harmony/index.js';
import { add, compare, greatest, midiOf, pitchClassOf, staffStepOf } from '../../score/index.js';
import type { Fraction, Note } from '../../score/index.js';
import type { ClaimContext } from '../model.js';
import { barAt } from '../place/beats.js';
import { liesIn, segmentsIn } from '../segments.js';
import { figureOf, groupsOf } from './figures.js';
import type { Figure, Group } from './figures.js';
import { inversionsOf } from './harmonies.js';
import type { Harmony } from './harmonies.js';
import { soundEnd, struckHead } from './sounding.js';

const isRepeated = (note: Note, group: Group): boolean =>
  group.some(each => midiOf(each.pitch) === midiOf(note.pitch));
const semitonesTo = (note: Note, other: Note): number => Math.abs(midiOf(other.pitch) - midiOf(note.pitch));
/** The notes of a group a step or a chromatic step away, the nearest of them: of F# and A after G it is F#. An augmented second is no step. */
function near(note: Note, group: readonly Note[]): readonly Note[] {
  const steps = group.filter(
    each => Math.abs(staffStepOf(each.pitch) - staffStepOf(note.pitch)) <= 1 && semitonesTo(note, each) <= 2,
  );
  const nearest = Math.min(...steps.map(each => semitonesTo(note, each)));
  return steps.filter(each => semitonesTo(note, each) === nearest);
}

/** The note that lies nearest. */
export const nearestTo = (note: Note, candidates: readonly Note[]): Note | undefined =>
  candidates.reduce<Note | undefined>(
    (best, each) =>
      best === undefined ||
      Math.abs(midiOf(each.pitch) - midiOf(note.pitch)) < Math.abs(midiOf(best.pitch) - midiOf(note.pitch))
        ? each
        : best,
    undefined,
  );

/** What the voice of a note strikes with it. */
const struckWith = (note: Note, { analysis }: ClaimContext): readonly Note[] =>
  analysis.score.notes.filter(each => each.voice === note.voice && compare(each.onset, note.onset) === 0);

/** The chord in which a note is struck, with a seventh that is added to it. */
const harmonyOf = (note: Note, { analysis }: ClaimContext): Harmony | undefined =>
  inversionsOf(analysis.segments).find(each => liesIn(note.onset, each));

/** Whether a note is the bass under after-beats, whose line goes on in the next bass note. */
const isBassOf = (figure: Figure | undefined, note: Note): boolean =>
  figure?.kind === 'after-beats' && figure.notes[0] === note;

/** The notes of a group that can carry on a line: under after-beats bass goes to bass, and chord to chord. */
function sameRole(
  group: readonly Note[],
  figure: Figure | undefined,
  note: Note,
  analysis: Analysis,
): readonly Note[] {
  if (figure?.kind !== 'after-beats') return group;
  return group.filter(each => {
    const other = figureOf(each, analysis);
    return other?.kind !== 'after-beats' || isBassOf(other, each) === isBassOf(figure, note);
  });
}

/** The chords of a voice, each figure as one. */
const chordsOf = (notes: readonly Note[], analysis: Analysis): readonly Group[] =>
  groupsOf(notes).reduce<readonly Group[]>((found, group) => {
    const figure = figureOf(group[0], analysis);
    const last = found.at(-1);
    return last !== undefined && figure?.kind === 'broken chord' && figure.notes.includes(last[0])
      ? [...found.slice(0, -1), [...last, ...group]]
      : [...found, group];
  }, []);

/**
 * What a note goes to in its own voice. The same note struck again does not count. A voice that plays chords or figures is several
 * lines: there the line is taken up again by a note a step away, within a bar.
 */
export function following(note: Note, context: ClaimContext): readonly Note[] {
  const { analysis } = context;
  const { score } = analysis;
  const end = soundEnd(note, score);
  const bar = barAt(score, end);
  const until = bar === undefined ? end : add(end, bar.meter.length);
  const own = score.notes.filter(
    each =>
      !each.grace &&
      each.tiedFrom === undefined &&
      each.voice === note.voice &&
      compare(each.onset, end) >= 0,
  );
  const figure = figureOf(note, analysis);
  // A figure is one chord: what stays in the next figure goes on from there.
  const groups = (figure === undefined ? groupsOf(own) : chordsOf(own, analysis)).filter(
    group => !isRepeated(note, group),
  );
  const [next] = groups;
  if (next === undefined) return [];
  const chordal = score.notes.some(
    each =>
      each.voice === note.voice &&
      each.id !== note.id &&
      each.bar >= note.bar &&
      each.bar <= note.bar + 1 &&
      score.notes[each.id + 1]?.voice === each.voice &&
      compare(score.notes[each.id + 1]?.onset ?? until, each.onset) === 0,
  );
  if (!chordal && figure === undefined) return next;
  // While the harmony lasts an accompaniment only goes through its tones: the line moves when the chord does.
  const chordEnds = figure?.lasts ?? harmonyOf(note, context)?.end ?? end;
  // What both chords share stays in its own line.
  const shared = new Set(
    (figure?.kind === 'broken chord' ? figure.notes : struckWith(note, context))
      .filter(each => midiOf(each.pitch) !== midiOf(note.pitch))
      .map(each => pitchClassOf(each.pitch)),
  );
  const later = groups
    .filter(([{ onset }]) => compare(chordEnds, onset) <= 0)
    .map(group => sameRole(group, figure, note, analysis))
    .filter(group => group.length > 0);
  const [nextChord] = later;
  const resumed = later
    .filter(
      group =>
        (figure !== undefined && group === nextChord) ||
        (group[0] !== undefined && compare(group[0].onset, until) <= 0),
    )
    .map(group =>
      near(
        note,
        group.filter(each => !shared.has(pitchClassOf(each.pitch))),
      ),
    )
    .find(found => found.length > 0);
  if (resumed !== undefined || figure === undefined) return resumed ?? next;
  const goal = nearestTo(note, later[0] ?? next);
  return goal === undefined ? [] : [goal];
}

/** When a note gives way: at its end, or with its figure. */
function leftAt(
  note: Note,
  context: ClaimContext,
): { readonly at: Fraction; readonly figure: Figure | undefined } {
  const figure = figureOf(note, context.analysis);
  const end = soundEnd(note, context.analysis.score);
  return { at: figure === undefined ? end : greatest(end, figure.lasts), figure };
}

/** What other voices strike first after a note. */
export function elsewhere(note: Note, context: ClaimContext): readonly Note[] {
  const { at } = leftAt(note, context);
  const later = context.analysis.score.notes.filter(
    each =>
      !each.grace && each.tiedFrom === undefined && each.voice !== note.voice && compare(each.onset, at) >= 0,
  );
  return groupsOf(later)[0] ?? [];
}

/** After a figure: the tones of the next chord of its voice, in the octave that is nearest to the note. */
export function inAnyOctave(
  note: Note,
  context: ClaimContext,
): readonly { readonly sounding: Note; readonly near: Note }[] {
  const { analysis } = context;
  const { at, figure } = leftAt(note, context);
  const [segment] = segmentsIn(analysis, { start: at, end: at });
  if (figure === undefined || segment === undefined) return [];
  return sameRole(
    analysis.score.notes.filter(
      each => each.voice === note.voice && !each.grace && liesIn(each.onset, segment),
    ),
    figure,
    note,
    analysis,
  ).flatMap(sounding => {
    const octaves = Math.round((staffStepOf(note.pitch) - staffStepOf(sounding.pitch)) / 7);
    if (octaves === 0) return [];
    const pitch = { ...sounding.pitch, octave: sounding.pitch.octave + octaves };
    return [{ sounding, near: { ...sounding, pitch } }];
  });
}

/** What a suspension resolves to, though another tone be touched before. */
export function suspensionGoesTo(note: Note, { analysis }: ClaimContext): readonly Note[] | undefined {
  const { notes } = analysis.score;
  const heads = [note.id, struckHead(note, notes).id];
  const goal = analysis.segments
    .flatMap(({ nonChordTones }) => nonChordTones)
    .find(
      ({ note: id, kind, figure }) => kind === 'suspension' && figure !== undefined && heads.includes(id),
    )?.resolution;
  const resolution = goal === undefined ? undefined : notes[goal];
  return resolution === undefined ? undefined : [resolution];
}
