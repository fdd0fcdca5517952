import type { Claim } from '../claim.js';
import { noteSubject, toneFamily } from '../families/pitch-relation.js';
import { map, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { statement } from '../statement.js';
import { pitchClassName } from '../terms/note-name.js';
import { be } from '../terms/verb.js';
import { denied } from './links.js';

/** `E# and F natural are enharmonically equivalent`. */
export const enharmonicTones: Parser<Claim> = rule('EnharmonicTones', () =>
  map(
    sequence(
      noteSubject,
      word('and'),
      pitchClassName,
      be,
      word('enharmonically equivalent', 'enharmonic equivalents', 'enharmonic', 'enharmonically the same'),
    ),
    ([subject, , tone, { negated }]) =>
      statement(subject, denied(negated, toneFamily.make({ kind: 'twin', tone }))),
  ),
);
