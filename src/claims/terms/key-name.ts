import type { Key } from '../../harmony/index.js';
import { map, optional, sequence, shapes, token, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { noteShape, pitchClassOfName } from './note-name.js';

const { inOrder, oneOf } = shapes;

/** `G major`, `F# minor`, `B flat major`. The mode is always written, so that `D` alone stays a chord. */
export const keyName: Parser<Key> = token({
  name: 'Key',
  label: 'a key such as `D major`',
  shape: inOrder(noteShape, oneOf(' ', '-'), oneOf('major', 'minor')),
  value: matched => {
    const match = /^(.*)[ -](major|minor)$/u.exec(matched);
    const tonic = match?.[1] === undefined ? undefined : pitchClassOfName(match[1]);
    return tonic === undefined ? undefined : { tonic, mode: match?.[2] === 'minor' ? 'minor' : 'major' };
  },
});

/** `in D major`, where a sentence may leave it out. */
export const inKey: Parser<Key | undefined> = optional(map(sequence(word('in'), keyName), ([, key]) => key));
