import type { Analysis } from '../../harmony/index.js';
import { compare, greatest, isBefore, least, midiOf } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { Range } from '../model.js';
import { figuresOf, groupsOf, isAccompaniment } from './figures.js';
import type { Figure } from './figures.js';
import { edgeOf } from './line-notes.js';
import type { LineNote } from './line-notes.js';
import { soundingIn } from './sounding.js';
import { isChordal } from './texture.js';
import { voiceTitle } from './voice-title.js';

/** A line that is heard, with the name that a message gives it. */
export interface ImpliedLine {
  readonly name: string;
  readonly notes: readonly LineNote[];
}

type Edge = 'top' | 'bottom';

const overlaps = (a: Range, b: Range): boolean => isBefore(a.start, b.end) && isBefore(b.start, a.end);

const extremeOf = (notes: readonly [Note, ...Note[]], edge: Edge): Note =>
  notes.reduce((best, each) => (midiOf(each.pitch) > midiOf(best.pitch) === (edge === 'top') ? each : best));

/** What a figure is as a line: one note as long as it lasts, of after-beats the bass or the tops of the chords, each until the next. */
function lineOf(figure: Figure, next: Figure | undefined, edge: Edge): readonly LineNote[] {
  const { kind, notes, start, end } = figure;
  if (kind !== 'after-beats' || edge === 'bottom') return [{ note: extremeOf(notes, edge), start, end }];
  const chords = groupsOf(notes.slice(1));
  // The bass that comes between is another line.
  const resumes = next?.kind === 'after-beats' && compare(next.start, end) === 0 ? next.notes[1] : undefined;
  return chords.map((chord, at) => ({
    note: extremeOf(chord, 'top'),
    start: chord[0].onset,
    end: chords[at + 1]?.[0].onset ?? resumes?.onset ?? end,
  }));
}

/**
 * The lines that voice leading is heard in: every voice of the score, and of a voice that plays chords its highest and its lowest notes. A figure of an
 * accompaniment goes to the next figure, bass to bass and top to top (common practice: compound melody): its tones make no lines among themselves. From
 * the top of the score down.
 */
export function impliedLines(analysis: Analysis, range: Range): readonly ImpliedLine[] {
  const { score } = analysis;
  const sounding = soundingIn(score, range);
  return score.voices.flatMap(voice => {
    const own = sounding
      .filter(note => note.voice === voice.id && !note.grace)
      .sort((a, b) => compare(a.onset, b.onset));
    const name = voiceTitle(voice, score);
    const all = isAccompaniment(voice.id, score) ? figuresOf(voice.id, analysis) : [];
    const figures = all.filter(figure => overlaps(figure, range));
    if (own.length === 0) return [];
    if (!isChordal(own) && figures.length === 0) return [{ name, notes: edgeOf(own, range, 'top') }];
    const outside = own.filter(note => !figures.some(({ notes }) => notes.includes(note)));
    const line = (edge: Edge): readonly LineNote[] =>
      [
        ...edgeOf(outside, range, edge),
        ...figures
          .flatMap(figure => lineOf(figure, all[all.indexOf(figure) + 1], edge))
          .filter(each => overlaps(each, range))
          .map(({ note, start, end }) => ({
            note,
            start: greatest(start, range.start),
            end: least(end, range.end),
          })),
      ].sort((a, b) => compare(a.start, b.start));
    return [
      { name: `the top of ${name}`, notes: line('top') },
      { name: `the bottom of ${name}`, notes: line('bottom') },
    ];
  });
}
