import { printKey, sameKey } from '../../harmony/index.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import { map, nothing, sequence, word } from '../grammar/index.js';
import { be, have, haveNo, printVerb, verb } from '../terms/verb.js';
import { article } from '../terms/chord-name.js';
import type { Span } from '../subjects/span.js';
import { silence } from './judged.js';
import { keyFamily } from './key.js';
import { areasIn } from './key-question.js';

interface ModulatesSays {
  readonly modulates: true;
}
const modulates: ModulatesSays = { modulates: true };
const aModulation = map(
  sequence(article, word('modulation', 'change of key', 'key change')),
  () => modulates,
);

/** Whether a passage reaches a new key at all: claim D3 of the trade where no key is named. */
export const anyModulationFamily = family<Span, ModulatesSays>({
  name: 'modulation',
  examples: ['bars 9-16 modulate', 'bars 1-8 do not modulate'],
  phrases: [
    [verb('modulates', 'modulate'), nothing(modulates)],
    [verb('changes key', 'change key'), nothing(modulates)],
    [have, aModulation],
    [haveNo, map(word('modulation', 'modulations', 'change of key'), () => modulates)],
    [be, aModulation],
  ],
  print: (_says, form) => printVerb('modulates', 'modulate', form),
  check: (span, _says, context): Finding<Span> => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const keys = areasIn(span.range, context).map(area => area.key);
    const others = keys.filter((key, at) => keys.findIndex(each => sameKey(each, key)) === at);
    const found = others.map(key => ({
      predicate: keyFamily.make({ what: 'modulates to', key }),
      finding: keyFamily.make({ what: 'modulates to', key }).check(span, context),
    }));
    const best = (['holds', 'arguable'] as const)
      .map(word_ => found.find(({ finding }) => finding.verdict === word_))
      .find(each => each !== undefined);
    if (best !== undefined) return best.finding;
    return {
      verdict: 'fails',
      code: 'C0404',
      reason: `no new key is confirmed in ${span.name}: ${others.map(printKey).join(', ')}`,
      evidence: [],
      instead: () => others.slice(0, 1).map(key => keyFamily.make({ what: 'stays in', key })),
    };
  },
});
