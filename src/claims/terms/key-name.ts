import type { Key } from '../../harmony/index.js';
import { choice, map, optional, quiet, sequence, shapes, token, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { noteShape, pitchClassName, pitchClassOfName, smallNoteShape } from './note-name.js';

const { inAnyCase, inOrder, oneOf } = shapes;

/** `G major`, `F# minor`, `B flat major`. The mode is always written, so that `D` alone stays a chord. */
export const keyName: Parser<Key> = token({
  name: 'Key',
  label: 'a key such as `D major`',
  // A small letter for a minor key (common practice), but not the article: `in a minor key`.
  shape: oneOf(
    inOrder(noteShape, oneOf(' ', '-'), inAnyCase('major', 'minor')),
    inOrder(smallNoteShape, oneOf(' ', '-'), inAnyCase('minor')),
  ),
  value: matched => {
    const match = /^(.*)[ -](major|minor)$/iu.exec(matched);
    const name = match?.[1];
    const tonic =
      name === undefined ? undefined : pitchClassOfName(name.charAt(0).toUpperCase() + name.slice(1));
    return tonic === undefined
      ? undefined
      : { tonic, mode: match?.[2]?.toLowerCase() === 'minor' ? 'minor' : 'major' };
  },
});

/** `in E-flat`: without its mode a key is major (common practice). Only where nothing else than a key can stand. */
export const keyWithoutMode: Parser<Key> = map(pitchClassName, (tonic): Key => ({ tonic, mode: 'major' }));

/** `D major`, `E-flat`: where nothing else than a key can stand. */
export const keyByName: Parser<Key> = choice(keyName, quiet(keyWithoutMode));

/** `in D major`, where a sentence may leave it out. */
export const inKey: Parser<Key | undefined> = optional(map(sequence(word('in'), keyName), ([, key]) => key));
