import { printPitchClass, readPitchClass, spell } from '../../score/index.js';
import type { Note, Pitch, PitchClass } from '../../score/index.js';
import { pitchClassOf } from '../../score/index.js';
import { shapes, token } from '../grammar/index.js';
import type { Parser, Shape } from '../grammar/index.js';

const { character, inAnyCase, inOrder, maybe, oneOf } = shapes;

/** A spelled note, with its octave where the author gives one. Octave 4 starts at middle C (MusicXML 4.0, type octave). */
export interface NoteName {
  readonly pitchClass: PitchClass;
  readonly octave?: number;
}

export type PitchName = Required<NoteName>;

const letter = character('A-G');
const signs = oneOf('##', '#', 'bb', 'b', '♯♯', '♯', '♭♭', '♭', '♮', 'x', '𝄪', '𝄫');
const signWords = inOrder(
  oneOf(' ', '-'),
  inAnyCase('double sharp', 'double-sharp', 'double flat', 'double-flat', 'sharp', 'flat', 'natural'),
);
/** `F#`, `F♯`, `F sharp`, `F-sharp`. */
export const noteShape: Shape = {
  kind: 'token',
  name: 'NoteName',
  body: inOrder(letter, maybe(oneOf(signWords, signs))),
};
/** The tonic of a minor key in a small letter: `f# minor`. */
export const smallNoteShape: Shape = inOrder(character('b-g'), maybe(oneOf(signWords, signs)));
/** Octave -1 is the lowest of the MIDI range. */
const octaveShape = oneOf('-1', character('0-9'));
const pitchShape = inOrder(noteShape, maybe(inOrder(maybe(oneOf(' ')), octaveShape)));

const signOfWord = { 'double sharp': '##', 'double flat': 'bb', sharp: '#', flat: 'b', natural: '' } as const;

/** The pitch class of text that has the shape of a note name. */
export function pitchClassOfName(name: string): PitchClass | undefined {
  const match = /^([A-G])[ -](double[ -])?(sharp|flat|natural)$/u.exec(
    name.charAt(0) + name.slice(1).toLowerCase(),
  );
  if (match === null) return readPitchClass(name);
  const [, of = '', double, sign = ''] = match;
  const spelled = `${double === undefined ? '' : 'double '}${sign}`;
  return spelled in signOfWord
    ? readPitchClass(of + signOfWord[spelled as keyof typeof signOfWord])
    : undefined;
}

/** A note without an octave. */
export const pitchClassName: Parser<PitchClass> = token({
  name: 'NoteName',
  label: 'a note such as `F#` or `B flat`',
  shape: { kind: 'sequence', parts: [letter, maybe(oneOf(signWords, signs))] },
  value: pitchClassOfName,
});

function readNote(matched: string): NoteName | undefined {
  const match = /^(.*?) ?(-?\d)?$/u.exec(matched);
  const pitchClass = pitchClassOfName(match?.[1] ?? matched);
  if (pitchClass === undefined) return undefined;
  return match?.[2] === undefined ? { pitchClass } : { pitchClass, octave: Number(match[2]) };
}
/** A note with or without an octave: `F#`, `F#5`. */
export const noteName: Parser<NoteName> = token({
  name: 'Pitch',
  label: 'a note such as `F#` or `F#5`',
  shape: pitchShape,
  value: readNote,
});

/** A note with its octave: `F#5`. */
export const pitchName: Parser<PitchName> = token({
  name: 'PitchWithOctave',
  label: 'a note with its octave such as `F#5`',
  shape: inOrder(noteShape, maybe(oneOf(' ')), octaveShape),
  value: matched => {
    const { pitchClass, octave } = readNote(matched) ?? {};
    return pitchClass === undefined || octave === undefined ? undefined : { pitchClass, octave };
  },
});
export const pitchOf = ({ pitchClass, octave }: PitchName): Pitch => ({ ...spell(pitchClass), octave });

export const printNoteName = (of: NoteName): string => printPitchClass(of.pitchClass) + (of.octave ?? '');

/** Whether a sounding note is the one named; without an octave any octave is. */
export const isNamed = (note: Note, name: NoteName): boolean =>
  pitchClassOf(note.pitch) === name.pitchClass &&
  (name.octave === undefined || note.pitch.octave === name.octave);
