import { readClaim, withoutPlace, type Verdict, type VerdictWord } from '../claims/index.js';
import { readKey, type Analysis } from '../harmony/index.js';
import type { PageAction, PageClaim, PageData } from '../timeline/index.js';
import { hearingOf } from './reading.js';

export type Judgement =
  /** The entry is no chord and no numeral; `help` says what could be written. */
  | { readonly kind: 'unread'; readonly help: string }
  /** What the notes say about it; right where it holds or can be argued. */
  | { readonly kind: 'judged'; readonly right: boolean; readonly claim: PageClaim };

/** Where a student's chord or numeral is read: a place in the claim language, and keys that numerals may be meant in. */
export interface Question {
  /** `bar 5 beat 3`. */
  readonly place: string;
  /** Name of the key that numerals are read in first. */
  readonly home: string;
  /** Another key whose numerals are right as well: the one that the passage is heard in. */
  readonly localKey?: string;
}

const rank: Readonly<Record<VerdictWord, number>> = { holds: 3, arguable: 2, undecided: 1, fails: 0 };

/** Claims of a chord or a numeral; anything else that can be said of a place is no answer to "which harmony". */
function saysHarmony(content: unknown): boolean {
  return (
    typeof content === 'object' &&
    content !== null &&
    'says' in content &&
    (content.says === 'chord' || content.says === 'numeral')
  );
}

/** The entry as it may have been meant: as it stands, and with the root as a capital letter (`bm7`). */
const readings = (entry: string): readonly string[] => [
  entry,
  entry.charAt(0).toUpperCase() + entry.slice(1),
  `a ${entry} chord`,
];

const pageClaim = (text: string, { verdict, reason, evidence }: Verdict): PageClaim => ({
  path: '',
  text,
  verdict,
  reason,
  // The nearest true statement would give the answer away, and so would the chord that a note against this one belongs to.
  evidence: evidence.map(each => withoutPlace(each.role === 'contradicts' ? { ...each, why: '' } : each)),
});

const unreadHelp = (entry: string): string =>
  `${entry === '' ? '' : `“${entry}” cannot be read. `}Write a chord, such as A7/C#, or a numeral, such as V6/5.`;

/**
 * Judges what a student writes exactly as a claim of the lesson is judged: enharmonic spellings and other ways of writing the same
 * chord are told apart by the engine, not here.
 */
export function judge(data: PageData, analysis: Analysis, question: Question, written: string): Judgement {
  const entry = written.trim().replace(/\s+/g, ' ');
  const home = readKey(question.home);
  const judged: PageClaim[] = [];
  // “not V” is true of nearly every bar.
  const isDenial = /^not\b/i.test(entry);
  for (const reading of readings(entry)) {
    const inKey =
      / in /.test(reading) || question.localKey === undefined ? [''] : ['', ` in ${question.localKey}`];
    for (const suffix of inKey) {
      const text = `${question.place} is ${reading}${suffix}`;
      const read = readClaim(text);
      if ('problem' in read || isDenial || !saysHarmony(read.claim.content) || home === undefined) continue;
      const verdict = read.claim.check({
        analysis,
        home,
        conventions: data.conventions,
        // No nearest statement is looked for: it is not shown.
        probing: true,
        ...(data.beat === undefined ? {} : { beatUnit: data.beat }),
      });
      judged.push(pageClaim(text, verdict));
    }
    if (judged.length > 0) break;
  }
  const best = judged.reduce<PageClaim | undefined>(
    (found, one) => (found === undefined || rank[one.verdict] > rank[found.verdict] ? one : found),
    undefined,
  );
  if (best === undefined) return { kind: 'unread', help: unreadHelp(entry) };
  return { kind: 'judged', right: rank[best.verdict] >= rank.arguable, claim: best };
}

/**
 * What a lesson's question asks for, where the statement that proves its answer names a chord or a numeral: `bar 3 is V7/V` asks
 * about bar 3. `undefined` where it proves something else.
 */
export function questionOf(because: string | undefined, home: string): Question | undefined {
  const match = /^(.+?) is (.+?)(?: in ([A-G][#b♯♭]* (?:major|minor)))?$/.exec(because ?? '');
  const read = readClaim(because ?? '');
  if (match === null || 'problem' in read || !saysHarmony(read.claim.content)) return undefined;
  const [, place = '', , localKey] = match;
  return { place, home, ...(localKey === undefined ? {} : { localKey }) };
}

/**
 * How an answer in writing to a question of the lesson is judged; `undefined` where it has choices or asks for no harmony. The score is heard
 * when the first answer comes.
 */
export function judgeFor(
  data: PageData,
  step: number,
  ask: Extract<PageAction, { kind: 'ask' }>,
): ((entry: string) => Judgement) | undefined {
  const because = ask.because === undefined ? undefined : data.claims[ask.because]?.text;
  const question =
    ask.choices.length > 0 ? undefined : questionOf(because, data.steps[step]?.home ?? data.home);
  return question === undefined ? undefined : entry => judgeByScore(data, question, entry);
}

/** Judges by the lesson's own score. */
export function judgeByScore(data: PageData, question: Question, entry: string): Judgement {
  const hearing = hearingOf(data);
  return hearing === undefined
    ? { kind: 'unread', help: 'The score could not be read.' }
    : judge(data, hearing, question, entry);
}

/** Answers in words are the same whatever their case and however their accidentals are written: `C♯`, `c#`, `C sharp`. */
export const sameWords = (one: string, other: string): boolean => plainWords(one) === plainWords(other);

const plainWords = (text: string): string =>
  text
    .replace(/\b([A-Ga-g])\s*[#♯]/g, '$1 sharp ')
    .replace(/\b([A-Ga-g])(?:\s*♭|b(?![a-z]))/g, '$1 flat ')
    .toLowerCase()
    .replace(/[\s.-]+/g, ' ')
    .trim();
