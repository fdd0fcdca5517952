import { group, mention, note, spaced } from './prose-mention.js';
import type { Mention } from './prose-mention.js';

/*
 * What a line is said to sing in passing. A motion to a note says that the line has it there: `in bar 2 the bass steps down to A` is said of
 * the bar in which the A is reached, so the note that it comes from stands in another one.
 */

const voices = String.raw`(sopranos?|altos?|tenors?|bass(?:es)?|melody|tune|singers?|voice|right hand|left hand|top line|top voice)`;
const line = String.raw`[Tt]he\s+${voices}`;
/** Between a line and what it does. */
const manner = String.raw`(?:,\s+(?:meanwhile|however|though|too|of\s+course),)?\s+(?:(?:now|then|still|also|again|simply|only|do|does|duly|already)\s+)*`;
const an = String.raw`(?:(?:an?|the|its|their|his|her)\s+)?`;
const up = String.raw`(?:\s+(?:up|down|on))?(?:\s+by\s+(?:a\s+)?(?:half[ -]|whole[ -])?(?:step|leap|tone|semitone))?`;
const going = String.raw`(?:steps?|moves?|goes|go|rises?|climbs?|falls?|drops?|sinks?|slips?|slides?|leaps?|jumps?|descends?|walks?|returns?|settles?)`;
const keeping = String.raw`(?:sings?|has|have|plays?|holds?|keeps?|takes?|touches|touch|reaches|reach|brings?|gets?|lands?\s+on|settles?\s+on|arrives?\s+(?:on|at))`;

/** A line by the name that the grammar has for it. */
function lineOf(words = ''): string {
  const name = spaced(words);
  if (/^(?:singers?|voice)$/u.test(name)) return 'the melody';
  return `the ${name.replace(/^(soprano|alto|tenor)s$/u, '$1').replace(/^basses$/u, 'bass')}`;
}
const hasNote =
  (lineAt: number, noteAt: number): Mention['says'] =>
  (match, place) =>
    `${lineOf(match[lineAt])} of ${place} has ${group(noteAt)(match)}`;

const notesIn = (words = ''): readonly string[] =>
  spaced(words)
    .replace(/[ -]natural/gu, '')
    .split(/,?\s+and\s+|,\s+/u);
const severalNotes = String.raw`(${note}(?:,\s+${note})*(?:,?\s+and|,)\s+${note})`;
const singing = String.raw`${line}${manner}(?:${keeping}|goes|go)\s+${an}${severalNotes}`;

export const lineMentions: readonly Mention[] = [
  // One after the other, or at least among others.
  mention(singing, (match, place) => `${lineOf(match[1])} of ${place} goes ${notesIn(match[2]).join(' ')}`),
  mention(
    singing,
    (match, place) => `${lineOf(match[1])} of ${place} has ${notesIn(match[2]).join(' and has ')}`,
  ),
  mention(String.raw`${line}${manner}${keeping}\s+${an}(${note})`, hasNote(1, 2)),
  mention(String.raw`${line}${manner}${going}${up}\s+to\s+${an}(${note})`, hasNote(1, 2)),
  mention(
    String.raw`${line}${manner}(?:begins?|starts?|enters?|sets?\s+(?:off|out)|comes?\s+in)\s+(?:on|with)\s+${an}(${note})`,
    (match, place) => `${lineOf(match[1])} of ${place} begins on ${group(2)(match)}`,
  ),
  mention(
    String.raw`${line}${manner}${going}${up}\s+from\s+(${note})\s+(?:up\s+|down\s+)?to\s+(${note})`,
    (match, place) => `${lineOf(match[1])} of ${place} has ${group(2)(match)} and has ${group(3)(match)}`,
  ),
  mention(
    String.raw`(${note}),?\s+(?:(?:is|lies|comes|appears|turns\s+up)\s+)?in\s+the\s+${voices}`,
    hasNote(2, 1),
  ),
];
