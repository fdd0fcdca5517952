import { degreeTone, printKey } from '../../harmony/index.js';
import { pitchClassOf, printPitch } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { map, optional, quiet, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { segmentsIn } from '../segments.js';
import { soundingIn } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { be, have, haveNo, printHave, printVerb, verb } from '../terms/verb.js';
import { silence, noChord } from './judged.js';

/** The mode of the last chord of a passage. */
export type EndingSays =
  { readonly kind: 'mode'; readonly mode: 'major' | 'minor' } | { readonly kind: 'Picardy' };

const picardy: Parser<EndingSays> = map(
  sequence(quiet(optional(article)), word('Picardy third', 'tierce de Picardie')),
  () => ({ kind: 'Picardy' }),
);
const modes = wordsFor<'major' | 'minor'>([
  ['major', 'major'],
  ['minor', 'minor'],
]);
const mode: Parser<EndingSays> = map(sequence(word('in'), modes), ([, of]) => ({ kind: 'mode', mode: of }));

/** `a major chord`. */
const modalChord: Parser<EndingSays> = map(sequence(word('a'), modes, word('chord', 'triad')), ([, of]) => ({
  kind: 'mode',
  mode: of,
}));

/** Mode of an ending, Picardy third: claim D6 of the trade. */
export const endingFamily = family<Span, EndingSays>({
  name: 'ending',
  examples: ['the piece ends in minor', 'bar 32 has a Picardy third'],
  phrases: [
    [verb('ends', 'end'), mode],
    [verb('ends with', 'end with'), picardy],
    [have, picardy],
    [haveNo, picardy],
    [be, picardy],
    [verb('ends on', 'end on'), picardy],
    [verb('ends on', 'end on'), modalChord],
    [verb('ends with', 'end with'), modalChord],
  ],
  print: (says, form) =>
    says.kind === 'Picardy'
      ? `${printHave(form)} a Picardy third`
      : `${printVerb('ends', 'end', form)} in ${says.mode}`,
  check: (span, says, context, make): Finding<Span> => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const segments = segmentsIn(context.analysis, span.range);
    const last = segments.at(-1);
    if (last === undefined) return noChord(span.name, 'C0103');
    const { segments: all } = context.analysis;
    const after = all[all.indexOf(last) + 1];
    const tonic = last.key.tonic;
    const thirds = soundingIn(context.analysis.score, last).filter(
      note =>
        pitchClassOf(note.pitch) === degreeTone({ tonic, mode: 'major' }, 3) ||
        pitchClassOf(note.pitch) === degreeTone({ tonic, mode: 'minor' }, 3),
    );
    const [third] = thirds;
    const isTonic = last.chord.root === tonic;
    if (isTonic && third === undefined && says.kind === 'Picardy')
      return {
        verdict: 'fails',
        code: 'C0432',
        reason: 'the last chord has no third, so that none is raised',
        evidence: [],
      };
    if (isTonic && third === undefined)
      return {
        verdict: 'undecided',
        code: 'C0433',
        reason: 'the last chord has no third: the notes do not settle the mode',
        evidence: [],
        pointless: true,
      };
    const found =
      third !== undefined && pitchClassOf(third.pitch) === degreeTone({ tonic, mode: 'major' }, 3)
        ? 'major'
        : 'minor';
    const reason = !isTonic
      ? `the last chord is ${last.roman} in ${printKey(last.key)}, not the tonic`
      : `the third of the last chord is ${third === undefined ? '' : printPitch(third.pitch)}: ${found}`;
    const minorBefore = segments
      .slice(0, -1)
      .concat(all.slice(Math.max(0, all.indexOf(last) - 6), all.indexOf(last)))
      .some(each => each.key.tonic === tonic && each.key.mode === 'minor');
    const goesOn = after !== undefined && after.chord.root === degreeTone(last.key, 4);
    const holds =
      says.kind === 'mode'
        ? isTonic && found === says.mode
        : isTonic && found === 'major' && minorBefore && !goesOn;
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C0431' : 'C0432',
      reason:
        says.kind === 'Picardy' && isTonic && found === 'major' && goesOn
          ? `${reason}, but it goes on to IV: it is V/iv, no ending`
          : reason,
      evidence: thirds
        .slice(0, 2)
        .map(note =>
          noteEvidence(holds ? 'supports' : 'contradicts', note, 'third of the last chord', context),
        ),
      instead: () => [make({ kind: 'mode', mode: found })],
    };
  },
});
