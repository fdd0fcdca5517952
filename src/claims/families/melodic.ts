import type { Finding } from '../claim.js';
import { family } from '../family.js';
import { choice } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { Line } from '../subjects/line.js';
import { stepsOf } from '../subjects/line-steps.js';
import { be, have, haveNo, printVerb, verb } from '../terms/verb.js';
import type { VerbForm } from '../terms/verb.js';
import {
  byStep,
  checkConjunct,
  conjunct,
  describeConjunct,
  disjunct,
  mostlyByStepOrLeap,
  mostlyConjunct,
} from './conjunct.js';
import type { ConjunctSays } from './conjunct.js';
import { checkGapFill, itsLeap } from './gap-fill.js';
import type { GapFillSays } from './gap-fill.js';
import { aLament, checkLament, describeLament } from './lament.js';
import type { LamentSays } from './lament.js';
import {
  bySemitones,
  checkDirection,
  checkSemitones,
  chromaticWay,
  describeDirection,
  describeSemitones,
  inIntervals,
  inManner,
  upOrDownFrom,
} from './line-direction.js';
import type { DirectionSays, SemitonesSays } from './line-direction.js';
import {
  aLeap,
  atEdge,
  byLeap,
  bySize,
  checkEdge,
  checkMove,
  describeEdge,
  describeMove,
  leap,
  move,
} from './line-moves.js';
import type { EdgeSays, MoveSays } from './line-moves.js';
import { sayLine } from './line-movement.js';
import {
  checkRow,
  degrees,
  describeRow,
  notes,
  rowOfNotes,
  severalFrom,
  severalNotes,
} from './row-of-notes.js';
import type { RowSays } from './row-of-notes.js';
import { nothingSounds } from './judged.js';
import { risingAndFalling } from './line-way.js';

/** How a line moves: a file for each sort of answer, and here the verbs. */
export type MelodicSays =
  DirectionSays | SemitonesSays | ConjunctSays | GapFillSays | MoveSays | EdgeSays | LamentSays | RowSays;

/** After a verb that says which way. */
const direction = (up: boolean): Parser<MelodicSays> =>
  choice<MelodicSays>(inManner(up), inIntervals(up), bySize(up), byLeap(up));

function describe(says: MelodicSays, form: VerbForm): string {
  switch (says.kind) {
    case 'direction':
      return describeDirection(says, form);
    case 'semitones':
      return describeSemitones(says, form);
    case 'steps':
    case 'mostly':
      return describeConjunct(says, form);
    case 'gap fill':
      return `${printVerb('fills', 'fill', form)} its leap`;
    case 'edge':
      return describeEdge(says, form);
    case 'lament':
      return describeLament(says, form);
    case 'move':
    case 'leap':
      return describeMove(says, form);
    case 'notes':
    case 'degrees':
      return describeRow(says, form);
  }
}

/** Steps, leaps and direction of a line: claims H2, I1, I2 and I9 of the trade. */
export const melodicFamily = family<Line, MelodicSays>({
  name: 'melodic motion',
  examples: [
    'the bass of bars 1-3 rises by step',
    'the bass of bars 1-5 goes B C# D D# E',
    'the soprano of bar 17 leaps up a diminished fifth',
    'the bass of bars 3-4 rises chromatically',
    'the soprano of bar 17 fills its leap',
  ],
  phrases: [
    [verb('rises', 'rise'), direction(true)],
    [verb('ascends', 'ascend'), direction(true)],
    [verb('falls', 'fall'), direction(false)],
    [verb('descends', 'descend'), direction(false)],
    [verb('drops', 'drop'), direction(false)],
    [verb('moves', 'move'), byStep],
    [verb('climbs', 'climb'), direction(true)],
    [be, conjunct],
    [be, disjunct],
    [verb('moves', 'move'), mostlyByStepOrLeap],
    [be, mostlyConjunct],
    [verb('moves', 'move'), bySemitones],
    [be, severalNotes()],
    [verb('leaps', 'leap'), leap],
    [verb('jumps', 'jump'), leap],
    [verb('skips', 'skip'), leap],
    [have, aLeap],
    [verb('makes', 'make'), aLeap],
    [haveNo, aLeap],
    ...(
      [
        ['begins', 'begin', 'begins'],
        ['starts', 'start', 'begins'],
        ['ends', 'end', 'ends'],
        ['closes', 'close', 'ends'],
      ] as const
    ).map(([singular, plural, how]) => [verb(`${singular} with`, `${plural} with`), atEdge(how)] as const),
    [be, aLament],
    [have, aLament],
    [verb('moves', 'move'), move],
    [verb('moves', 'move'), chromaticWay],
    [verb('moves', 'move'), severalFrom],
    [verb('goes', 'go'), severalFrom],
    [verb('moves', 'move'), severalNotes()],
    [have, rowOfNotes],
    [verb('goes', 'go'), move],
    [verb('runs', 'run'), upOrDownFrom],
    [verb('moves', 'move'), upOrDownFrom],
    ...risingAndFalling.map(([singular, plural, up]) => [verb(singular, plural), severalNotes(up)] as const),
    [verb('goes', 'go'), notes],
    [verb('goes', 'go'), degrees],
    [verb('moves', 'move'), degrees],
    [verb('sings', 'sing'), degrees],
    [be, degrees],
    [verb('fills', 'fill'), itsLeap],
  ],
  print: describe,
  check: (line, says, context, make): Finding<Line> => {
    if (line.notes.length === 0) return nothingSounds(line.name);
    if (says.kind === 'notes' || says.kind === 'degrees') return checkRow(line, says, context, make);
    if (says.kind === 'lament') return checkLament(line, says, context);
    const steps = stepsOf(line);
    if (steps.length === 0)
      return {
        verdict: 'fails',
        code: 'C1103',
        reason: `${line.name} does not move: ${sayLine(line)}`,
        evidence: [],
      };
    switch (says.kind) {
      case 'direction':
        return checkDirection(line, steps, says, context, make);
      case 'semitones':
        return checkSemitones(line, steps, says, context, make);
      case 'steps':
      case 'mostly':
        return checkConjunct(line, steps, says, context, make);
      case 'gap fill':
        return checkGapFill(line, steps, context);
      case 'edge':
        return checkEdge(line, steps, says, context, make);
      case 'move':
      case 'leap':
        return checkMove(line, steps, says, context, make);
    }
  },
});
