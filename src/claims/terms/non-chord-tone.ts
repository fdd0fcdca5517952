import type { NonChordToneKind } from '../../harmony/index.js';
import { map, optional, rule, sequence, shapes, token, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { article, withArticle } from './chord-name.js';

/** A kind of non-chord tone with what the trade says of it. */
export interface NonChordToneSays {
  readonly kind: NonChordToneKind | 'chord tone' | 'non-chord tone';
  /** `4-3`: intervals above the bass of the dissonance and of its resolution. */
  readonly figure?: string;
  readonly accented?: boolean;
  readonly chromatic?: boolean;
  readonly side?: 'upper' | 'lower';
}

export const suspensionFigure = token({
  name: 'SuspensionFigure',
  label: 'a figure such as `4-3`',
  shape: shapes.inOrder(shapes.character('2-9'), shapes.oneOf('-', '–'), shapes.character('1-9')),
  value: matched => matched.replace('–', '-'),
});

const kinds = wordsFor<NonChordToneSays['kind']>([
  ['passing tone', 'passing tone', 'passing note', 'passing tones', 'passing notes'],
  [
    'neighbour tone',
    'neighbour tone',
    'neighbor tone',
    'neighbour note',
    'neighbor note',
    'neighbour',
    'neighbor',
    'neighbour tones',
    'neighbor tones',
    'neighbouring tone',
    'neighboring tone',
    'neighbouring note',
    'auxiliary note',
  ],
  ['suspension', 'suspension', 'suspensions'],
  ['retardation', 'retardation'],
  ['appoggiatura', 'appoggiatura'],
  ['escape tone', 'escape tone', 'échappée'],
  ['anticipation', 'anticipation'],
  ['pedal', 'pedal tone', 'pedal note'],
  ['cambiata', 'cambiata'],
  ['double neighbour', 'double neighbour', 'double neighbor', 'changing tone'],
  ['ornament', 'ornament'],
  [
    'non-chord tone',
    'non-chord tone',
    'non-chord tones',
    'nonchord tone',
    'nonchord tones',
    'non-harmonic note',
    'nonharmonic tone',
    'embellishing tone',
    'dissonance',
  ],
  ['chord tone', 'chord tone', 'chord note', 'member of the chord'],
]);
const accent = wordsFor<boolean>([
  [true, 'accented'],
  [false, 'unaccented'],
]);
const colour = wordsFor<boolean>([
  [true, 'chromatic'],
  [false, 'diatonic'],
]);
const sides = wordsFor<'upper' | 'lower'>([
  ['upper', 'upper'],
  ['lower', 'lower'],
]);

/** `a passing tone`, `an accented chromatic passing tone`, `a 4-3 suspension`. */
export const nonChordTone: Parser<NonChordToneSays> = rule(
  'NonChordTone',
  () =>
    map(
      sequence(
        optional(article),
        optional(accent),
        optional(colour),
        optional(sides),
        optional(suspensionFigure),
        kinds,
      ),
      ([, accented, chromatic, side, of, kind]): NonChordToneSays => ({
        kind,
        ...(of === undefined ? {} : { figure: of }),
        ...(accented === undefined ? {} : { accented }),
        ...(chromatic === undefined ? {} : { chromatic }),
        ...(side === undefined ? {} : { side }),
      }),
    ),
  'a non-chord tone such as `a passing tone` or `a 4-3 suspension`',
);

/** `a 4-3`: a suspension by its figure alone, where nothing else can stand. */
export const suspensionByFigure: Parser<NonChordToneSays> = map(
  sequence(article, suspensionFigure),
  ([, of]) => ({
    kind: 'suspension',
    figure: of,
  }),
);

/** Its name without an article. */
export function nameOf({ kind, figure: of, accented, chromatic, side }: NonChordToneSays): string {
  const words = [
    accented === undefined ? undefined : accented ? 'accented' : 'unaccented',
    chromatic === undefined ? undefined : chromatic ? 'chromatic' : 'diatonic',
    side,
    of,
    kind === 'pedal' ? 'pedal tone' : kind,
  ];
  return words.filter(each => each !== undefined).join(' ');
}

/** Its name with an article. */
export const describe = (says: NonChordToneSays): string => withArticle(nameOf(says));
