import { nativeTones, parallelOf, printKey, sameKey } from '../../harmony/index.js';
import type { Key } from '../../harmony/index.js';
import { pitchClassOf, printPitch } from '../../score/index.js';
import { noteEvidence } from '../evidence.js';
import { choice, map, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { noteFamily } from '../note-family.js';
import { segmentsIn } from '../segments.js';
import { keyName } from '../terms/key-name.js';
import { be, printBe, verb } from '../terms/verb.js';

/** A note of the parallel mode, and the key or the relation that it is said to come from. */
export interface NoteMixtureSays {
  readonly from?: Key | 'relative';
}

const source: Parser<NoteMixtureSays> = map(
  sequence(
    word('from'),
    choice<NoteMixtureSays>(
      map(
        word(
          'the parallel minor',
          'the parallel major',
          'the parallel key',
          'the parallel mode',
          'the tonic minor',
          'the tonic major',
          'the minor mode',
          'the major mode',
          'the minor',
          'the opposite mode',
        ),
        () => ({}),
      ),
      map(word('the relative minor', 'the relative major', 'the relative key'), () => ({
        from: 'relative' as const,
      })),
      map(keyName, from => ({ from })),
    ),
  ),
  ([, says]) => says,
);
const borrowed: Parser<NoteMixtureSays> = map(
  sequence(
    quiet(optional(word('a', 'an example of', 'an instance of'))),
    word('borrowed', 'borrowed note', 'borrowed tone', 'modal mixture', 'mode mixture', 'mixture'),
    optional(source),
  ),
  ([, , says]) => says ?? {},
);

const families = noteFamily<NoteMixtureSays>({
  name: 'borrowed note',
  examples: ['the D# of bar 4 is borrowed from B major'],
  phrases: [
    [be, borrowed],
    [verb('comes', 'come'), source],
  ],
  print: ({ from }, form) =>
    `${printBe(form)} borrowed${from === undefined ? '' : ` from ${from === 'relative' ? 'the relative key' : printKey(from)}`}`,
  checkNote: (note, { from }, _span, context) => {
    const local = segmentsIn(context.analysis, { start: note.onset, end: note.onset })[0]?.key;
    const keys = [...(local === undefined ? [] : [local]), context.home];
    const tone = pitchClassOf(note.pitch);
    const foreign = keys.filter(key => !nativeTones(key).includes(tone));
    const found = foreign.find(key => nativeTones(parallelOf(key)).includes(tone));
    const [key] = foreign;
    const evidence = (holds: boolean) => [
      noteEvidence(
        holds ? 'supports' : 'contradicts',
        note,
        key === undefined ? `native to ${printKey(keys[0] ?? context.home)}` : `foreign to ${printKey(key)}`,
        context,
      ),
    ];
    if (found === undefined)
      return {
        verdict: 'fails',
        code: 'C0223',
        reason:
          key === undefined
            ? `${printPitch(note.pitch)} is native to ${printKey(keys[0] ?? context.home)}`
            : `${printPitch(note.pitch)} is not of ${printKey(parallelOf(key))} either`,
        evidence: evidence(false),
      };
    const parallel = parallelOf(found);
    if (from !== undefined && (from === 'relative' || !sameKey(from, parallel)))
      return {
        verdict: 'fails',
        code: 'C0223',
        reason: `${printPitch(note.pitch)} is taken from ${printKey(parallel)}, the parallel key`,
        evidence: evidence(false),
        instead: [{ from: parallel }],
      };
    return {
      verdict: 'holds',
      code: 'C0221',
      reason: `${printPitch(note.pitch)} is foreign to ${printKey(found)} and native to ${printKey(parallel)}`,
      evidence: evidence(true),
    };
  },
});

/** Mixture, asked of a single note: claim C4 of the trade. */
export const noteMixtureFamily = families.ofNotes;
