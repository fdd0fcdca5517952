import { printKey } from '../../harmony/index.js';
import type { Key } from '../../harmony/index.js';
import { pitchClassOf, printPitch, printPitchClass, staffStepOf, transposed } from '../../score/index.js';
import type { Note, PitchClass } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { map, optional, quiet, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { segmentsIn } from '../segments.js';
import type { Line } from '../subjects/line.js';
import { article, withArticle } from '../terms/chord-name.js';
import { printBe } from '../terms/verb.js';
import type { VerbForm } from '../terms/verb.js';

type LamentColour = 'diatonic' | 'chromatic';

/** Down the tetrachord from the tonic to the dominant of a minor key. */
export interface LamentSays {
  readonly kind: 'lament';
  readonly colour?: LamentColour;
}

/** `a lament bass`. */
export const aLament: Parser<LamentSays> = map(
  sequence(
    quiet(optional(article)),
    optional(
      wordsFor<LamentColour>([
        ['diatonic', 'diatonic'],
        ['chromatic', 'chromatic'],
      ]),
    ),
    word('lament bass', 'lament'),
  ),
  ([, colour]) => (colour === undefined ? { kind: 'lament' } : { kind: 'lament', colour }),
);

export const describeLament = ({ colour }: LamentSays, form: VerbForm): string =>
  `${printBe(form)} ${withArticle(`${colour === undefined ? '' : `${colour} `}lament bass`)}`;

/** Fifths from the tonic to the degrees of the tetrachord: 1 b7 b6 5, and 1 7 b7 6 b6 5 (common practice). */
const degrees: Readonly<Record<LamentColour, readonly number[]>> = {
  diatonic: [0, -2, -4, 1],
  chromatic: [0, 5, -2, 3, -4, 1],
};
const tonesOf = (tonic: PitchClass, colour: LamentColour): readonly PitchClass[] =>
  degrees[colour].map(fifths => transposed(tonic, fifths));

/** The notes of a line without those that repeat the one before. */
const moving = ({ notes }: Line): readonly Note[] =>
  notes
    .map(({ note }) => note)
    .filter((note, at, all) => {
      const before = all[at - 1];
      return before === undefined || printPitch(before.pitch) !== printPitch(note.pitch);
    });

/** Down all the way: a note of the tetrachord an octave higher begins it anew. */
const isAt = (notes: readonly Note[], from: number, tones: readonly PitchClass[]): boolean =>
  tones.every((tone, at) => {
    const [note, before] = [notes[from + at], notes[from + at - 1]];
    if (note === undefined || pitchClassOf(note.pitch) !== tone) return false;
    if (at === 0 || before === undefined) return true;
    const steps = staffStepOf(before.pitch) - staffStepOf(note.pitch);
    return steps === 0 || steps === 1;
  });

/** Down the tetrachord of a minor key with some of the semitones between: all notes of the plain one, and none that the chromatic one lacks. */
function isMixed(notes: readonly Note[], { tonic, mode }: Key): boolean {
  const tones = notes.map(({ pitch }) => pitchClassOf(pitch));
  const all = tonesOf(tonic, 'chromatic');
  return (
    mode === 'minor' &&
    tonesOf(tonic, 'diatonic').every(tone => tones.includes(tone)) &&
    isAt(
      notes,
      0,
      all.filter(tone => tones.includes(tone)),
    ) &&
    tones.length === all.filter(tone => tones.includes(tone)).length
  );
}

/**
 * A lament bass: the bass goes down from the tonic of a minor key to its dominant, by the notes of the key or by semitones. It holds
 * where the line is nothing else, once or several times; a line in which it is only a part is arguable.
 */
export function checkLament(line: Line, { colour }: LamentSays, context: ClaimContext): Finding<Line> {
  const notes = moving(line);
  const local = segmentsIn(context.analysis, line.span.range)[0]?.key;
  const keys: readonly Key[] = [...(local === undefined ? [] : [local]), context.home];
  const colours: readonly LamentColour[] = colour === undefined ? ['diatonic', 'chromatic'] : [colour];
  const found = keys.flatMap(key =>
    colours.flatMap(each => {
      const tones = tonesOf(key.tonic, each);
      const from = notes.findIndex((_, at) => isAt(notes, at, tones));
      return from < 0 ? [] : [{ key, colour: each, tones, from }];
    }),
  );
  const sounding = notes
    .slice(0, 12)
    .map(note => printPitch(note.pitch))
    .join(' ');
  const [best] = found;
  const mixed = colour === undefined ? keys.find(key => isMixed(notes, key)) : undefined;
  if (best === undefined && mixed !== undefined)
    return {
      verdict: 'arguable',
      code: 'C1105',
      reason: `${sounding} goes down from the tonic of ${printKey(mixed)} to its dominant, neither by its notes alone nor by all semitones`,
      evidence: notes.map(note => noteEvidence('supports', note, 'a note of the tetrachord', context)),
    };
  if (best === undefined)
    return {
      verdict: 'fails',
      code: 'C1102',
      reason: `${line.name} goes ${sounding}, not ${colours
        .map(each =>
          tonesOf((local ?? context.home).tonic, each)
            .map(printPitchClass)
            .join(' '),
        )
        .join(' or ')}`,
      evidence: notes
        .slice(0, 8)
        .map(note => noteEvidence('contradicts', note, 'a note of the line', context)),
    };
  const { key, tones, from } = best;
  const whole =
    notes.length % tones.length === 0 &&
    notes.every((_, at) => at % tones.length > 0 || isAt(notes, at, tones));
  const part = notes.slice(from, from + tones.length);
  const says = part.map(note => printPitch(note.pitch)).join(' ');
  const minor = key.mode === 'minor';
  return {
    verdict: whole && minor ? 'holds' : 'arguable',
    code: whole && minor ? 'C1101' : 'C1105',
    reason: `${says} goes down from the tonic of ${printKey(key)} to its dominant${
      minor ? '' : ', and a lament stands in minor'
    }${whole ? '' : `; ${line.name} has more notes: ${sounding}`}`,
    evidence: part.map(note => noteEvidence('supports', note, 'a note of the tetrachord', context)),
  };
}
