import { key, printKey, signatureOf } from '../harmony/index.js';
import type { Key } from '../harmony/index.js';
import { isBefore, pitchClass } from '../score/index.js';
import type { Claim } from './claim.js';
import { conjunction } from './conjunction.js';
import type { ClaimContext, Verdict } from './model.js';
import { endOf } from './place/beats.js';
import { placesIn } from './place/place-in.js';
import { isResolved, resolvePlace } from './place/resolve.js';
import { segmentsIn } from './segments.js';

/** Families whose words count from a tonic: numerals, degrees and names such as `dominant`. How keys stand to the home key is not among them. */
const counted: ReadonlySet<unknown> = new Set([
  'numeral',
  'named chord',
  'chord within a place',
  'chord relation',
  'one of several chords',
  'progression',
  'prolongation',
  'what follows a chord',
  'resolution of a dominant',
  'linear chord',
  'function',
  'six-four',
  'applied chord',
  'mixture',
  'chromatic notes',
  'scale degree',
  'melodic motion',
  'first and last note',
  'resolution',
  'member of the chord',
  'pedal',
]);

const isCounted = (content: unknown): boolean =>
  typeof content === 'object' && content !== null && 'says' in content && counted.has(content.says);

/** The key of the signature that is printed anew where all of a claim lies, in the mode that is heard there; `undefined` where it is that of the home key. */
function printedKey(content: unknown, context: ClaimContext): Key | undefined {
  const { analysis, home } = context;
  const { bars } = analysis.score;
  const opening = bars[0]?.key.fifths;
  if (bars.every(bar => bar.key.fifths === opening)) return undefined;
  const ranges = placesIn(content).flatMap(place => {
    const resolved = resolvePlace(place, context);
    return isResolved(resolved) ? [resolved.range] : [];
  });
  const signatures = ranges.flatMap(range =>
    bars
      .filter(bar => isBefore(bar.start, range.end) && isBefore(range.start, endOf(bar)))
      .map(bar => bar.key.fifths),
  );
  const [printed] = signatures;
  if (
    printed === undefined ||
    printed === opening ||
    printed === signatureOf(home) ||
    signatures.some(each => each !== printed)
  )
    return undefined;
  const under = bars.filter(bar => bar.key.fifths === printed);
  const heard = under
    .flatMap(bar => segmentsIn(analysis, { start: bar.start, end: endOf(bar) }))
    .map(segment => segment.key)
    .filter(each => signatureOf(each) === printed);
  const minor = heard.filter(({ mode }) => mode === 'minor');
  return 2 * minor.length > heard.length
    ? key(pitchClass(printed + 3), 'minor')
    : key(pitchClass(printed), 'major');
}

/** Reads a sentence as a claim. */
type ReadAgain = (text: string) => Claim | undefined;

/** What is true in one of the two keys only: the printed one is meant where nothing else is said. */
function inPrintedKey(claim: Claim, there: Key, context: ClaimContext, read: ReadAgain): Verdict {
  const { nearest, ...alone } = claim.check({ ...context, home: there });
  // A neighbouring bar may lie under another signature, where the words mean another chord.
  const isTrue =
    nearest !== undefined && read(nearest)?.check({ ...context, probing: true }).verdict === 'holds';
  const own: Verdict = isTrue ? { ...alone, nearest } : alone;
  if (context.probing === true) return own;
  const home = claim.check(context);
  if (home.verdict === own.verdict) return own.verdict === 'fails' ? own : home;
  if (own.verdict === 'holds')
    return { ...own, reason: `in ${printKey(there)}, whose signature is printed there: ${own.reason}` };
  return home.verdict === 'holds'
    ? {
        ...home,
        verdict: 'arguable',
        code: 'C0011',
        reason: `true in ${printKey(context.home)}, the home key; in ${printKey(there)}, whose signature is printed there, ${own.reason}`,
        ...(own.nearest === undefined ? {} : { nearest: own.nearest }),
      }
    : own;
}

/** A claim that counts from a tonic, where a key signature other than the first one is printed, is meant in its key. `read` is asked of what is proposed instead. */
export function withPrintedKey(claim: Claim, read: ReadAgain): Claim {
  if (claim.parts !== undefined) return conjunction(claim.parts.map(each => withPrintedKey(each, read)));
  return {
    ...claim,
    check: context => {
      const there = isCounted(claim.content) ? printedKey(claim.content, context) : undefined;
      return there === undefined ? claim.check(context) : inPrintedKey(claim, there, context, read);
    },
  };
}
