import { printChord, printKey } from '../../harmony/index.js';
import type { Analysis, Segment } from '../../harmony/index.js';
import { add, compare, printPitchClass, zero } from '../../score/index.js';
import type { Score } from '../../score/index.js';
import { printedNote, printedPlace } from '../analysis-place.js';
import { labelsUnder } from './labels.js';
import { element, numeralHtml, text } from './markup.js';
import type { Markup } from './markup.js';
import { withAccidentals } from '../../timeline/index.js';
import type { PlacedSystem } from './placed-system.js';
import { labelTop, systemSvg } from './system-svg.js';

/** A line of the score with its labels, and a table of the harmonies that begin in it; the whole piece where nothing could be drawn. */
export function analysisLine(
  analysis: Analysis,
  system: PlacedSystem | undefined,
  share: (markup: Markup) => Markup,
  widest: number,
): Markup {
  const { score } = analysis;
  const music =
    system === undefined
      ? element('p', { class: 'soft' }, 'The score cannot be drawn.')
      : systemSvg(score, system, share(system.markup), widest, {
          labels: labelsUnder(system, analysis, labelTop(system)),
        });
  const segments = analysis.segments.filter(({ start }) => isIn(score, system, start));
  return element(
    'section',
    { class: 'line' },
    element('div', { class: 'music' }, music),
    table(score, segments),
  );
}

function isIn({ bars, length }: Score, system: PlacedSystem | undefined, start: Segment['start']): boolean {
  const [first, last] = [bars[system?.firstBar ?? 0], bars[system?.lastBar ?? bars.length - 1]];
  const end = last === undefined ? length : add(last.start, last.length);
  return compare(first?.start ?? zero, start) <= 0 && compare(start, end) < 0;
}

const heading = [
  ['bar', 'bar'],
  ['chord', 'chord'],
  ['tones', 'tones'],
  ['reading', 'numeral'],
  ['key', 'in'],
  ['aside', 'set aside, and why'],
] as const;

function table(score: Score, segments: readonly Segment[]): Markup {
  return element(
    'table',
    { class: 'harmonies' },
    element(
      'thead',
      {},
      element(
        'tr',
        {},
        ...heading.map(([name, words]) => element('th', { scope: 'col', class: name }, words)),
      ),
    ),
    element('tbody', {}, ...segments.map((segment, index) => row(score, segment, segments[index - 1]))),
  );
}

/** The key is named where it begins. */
function row(score: Score, segment: Segment, before: Segment | undefined): Markup {
  const { bar, beat } = printedPlace(score, segment.start);
  const cells: readonly (readonly [string, Markup])[] = [
    [
      'bar',
      text(bar) + (beat === 1 ? '' : `<br>${element('span', { class: 'soft' }, `beat ${printed(beat)}`)}`),
    ],
    ['chord', text(withAccidentals(printChord(segment.chord)))],
    ['tones', stack(segment)],
    ['reading', `${numeralHtml(segment.roman)}<br>${element('span', { class: 'soft' }, segment.function)}`],
    [
      'key',
      before !== undefined && printKey(before.key) === printKey(segment.key)
        ? ''
        : text(withAccidentals(printKey(segment.key))),
    ],
    ['aside', setAside(score, segment)],
  ];
  return element('tr', {}, ...cells.map(([name, content]) => element('td', { class: name }, content)));
}

const printed = (beat: number): string => String(Math.round(beat * 100) / 100);

/** The tones of a chord stacked in thirds from its root, the one in the bass underlined. */
function stack({ chord }: Segment): Markup {
  const tones = chord.tones.map((tone, index) =>
    element(
      'span',
      { class: index === chord.inversion ? 'bass' : undefined },
      text(withAccidentals(printPitchClass(tone))),
    ),
  );
  return element('span', { class: 'stack' }, ...tones);
}

/** Notes that do not belong to the chord with their kind, those that nothing explains, and the nearest other reading. */
function setAside(score: Score, { nonChordTones, unexplained, rivals }: Segment): Markup {
  const named = nonChordTones.flatMap(({ note: id, kind, figure }) => {
    const note = score.notes[id];
    return note === undefined ? [] : [{ why: `${kind}${figure === undefined ? '' : ` ${figure}`}`, note }];
  });
  const left = unexplained.flatMap(id => {
    const note = score.notes[id];
    return note === undefined ? [] : [{ why: 'unexplained', note }];
  });
  const byReason = new Map<string, string[]>();
  for (const { why, note } of [...named, ...left])
    byReason.set(why, [...(byReason.get(why) ?? []), withAccidentals(printedNote(score, note).pitch)]);
  const lines = [...byReason].map(([why, pitches]) => text(`${[...new Set(pitches)].join(' ')}: ${why}`));
  const [rival] = rivals;
  const other =
    rival === undefined
      ? []
      : [element('span', { class: 'soft' }, 'or ', numeralHtml(rival.roman), text(`: ${rival.reason}`))];
  return [...lines, ...other].join('<br>');
}
