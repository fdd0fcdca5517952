import type { Claim } from './claim.js';
import { conjunction } from './conjunction.js';
import { endOfSpelling, failed, readAs, shapes, skipSpace, startReading, wordAt } from './grammar/index.js';
import type { Parser } from './grammar/index.js';
import {
  attributes,
  fillers,
  instructions,
  mattersWithoutRule,
  openVerbs,
  portrayals,
  statements,
} from './opinion-words.js';
import type { OpinionMatter } from './opinion-words.js';
import { hasSymbol, hasTradeWord, slipOfThePen, startsWithSymbol } from './trade-words.js';
import type { Slip } from './trade-words.js';

/*
 * When a sentence that no rule reads is one of taste or history (claim P1 of the trade) and when it is a claim with a slip in it. A claim
 * that is silently `undecided` is worse than an error, so:
 * 1. Only words of a list make an opinion, never a word that is merely unknown.
 * 2. A misspelt word of the trade anywhere (`a charming sequense`) makes it an error.
 * 3. What is left without the words of taste is checked where it is a claim: `a beautiful half cadence` fails where there is none.
 * 4. Taste in the subject does not excuse what is said of it: `the sad chord of bar 5 is V7/W` is an error.
 * 5. `sounds`, `means`, `brings` and their like make an opinion only where nothing of the trade follows.
 */

const isBroken = (text: string): string => text.replace(/[ -]/gu, '[\\s-]+');
const anyOf = (words: readonly string[]): string =>
  `(?<!\\p{L})(?:${[...words]
    .sort((a, b) => b.length - a.length)
    .map(isBroken)
    .join('|')})(?!\\p{L})`;
const wordsOf = (of: Readonly<Partial<Record<OpinionMatter, readonly string[]>>>): readonly string[] =>
  Object.values(of).flat();

/** What decides where a sentence speaks of several matters: the first of these. */
const matters: readonly OpinionMatter[] = [
  'history',
  'intention',
  'manner of performance',
  'what listeners expect',
  'an instruction',
  'feeling',
  'taste',
];
const marks = matters.map(
  matter =>
    [matter, new RegExp(anyOf([...statements[matter], ...(attributes[matter] ?? [])]), 'iu')] as const,
);
const attribute = new RegExp(anyOf(wordsOf(attributes)), 'giu');
/** What can be left out so that a claim remains. */
const leftOut = new RegExp(anyOf([...wordsOf(attributes), ...fillers]), 'giu');
const statement = new RegExp(anyOf(wordsOf(statements)), 'iu');
const instruction = new RegExp(`^(?:${instructions.map(isBroken).join('|')})(?!\\p{L})`, 'iu');
const openVerb = new RegExp(anyOf([...openVerbs, ...portrayals]), 'iu');
const withoutRule = new RegExp(anyOf(mattersWithoutRule), 'iu');
const year = /\b(?:1[1-9]|20)\d\d\b/u;
const declared = /^(?:opinion|history|taste)\s*:\s*/iu;
const asAnOpinion = /^(?:in my (?:opinion|view|ears)|i think(?: that)?|i believe(?: that)?)\s*,?\s*/iu;
const verb =
  /(?<!\p{L})(?:is|are|was|were|isn['’]t|aren['’]t|has|have|had|contains?|resolves?|moves?|ends?|begins?|starts?|modulates?|leads?|rises?|falls?|goes|go)(?!\p{L})/iu;
const places =
  /(?:(?:in|of|at|from|during|until|before|after)\s+)?(?<!\p{L})(?:bars?|measures?|mm?\.|bb?\.|beats?)\s*\d+[a-z]?(?:\s*(?:[-–,]|to|and|until|&)\s*\d+[a-z]?)*/giu;

/** Spellings by the letters that each begins with, longer ones first. */
function byFirstLetters(spellings: readonly string[]): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, string[]>();
  for (const spelling of spellings
    .map(each => each.toLowerCase())
    .sort((one, other) => other.length - one.length)) {
    const first = wordAt(spelling, 0);
    const others = found.get(first);
    if (others === undefined) found.set(first, [spelling]);
    else others.push(spelling);
  }
  return found;
}

/**
 * Words of prose that are opinion by themselves, wherever they stand: looked up word by word, because an expression of all of them takes
 * longer to compile than a narration to read.
 */
const inProse = byFirstLetters([
  ...wordsOf(attributes).filter(
    word => !/^(?:too \w+|better|best|wrong|rich|perhaps|maybe|probably)$/u.test(word),
  ),
  ...portrayals,
  ...(['taste', 'feeling', 'history', 'intention'] as const).flatMap(matter =>
    statements[matter].filter(
      word => !/^(?:(?:wants|tries|aims) to|rather|heart|like .*|pupils?|goes back to)$/u.test(word),
    ),
  ),
]);

const matterOf = (sentence: string): OpinionMatter | undefined =>
  year.test(sentence.replace(places, ' '))
    ? 'history'
    : (marks.find(([, expression]) => expression.test(sentence))?.[0] ??
      (instruction.test(sentence) ? 'an instruction' : undefined));

const reasonOf = (matter: OpinionMatter | undefined): string =>
  matter === 'an instruction'
    ? 'an instruction is not in the notes: leave it in the narration, without a claim'
    : `${matter ?? 'history, intention, feeling or taste'} is not in the notes: name a source, or mark it as an opinion`;

/** A sentence that is recognised and cannot be checked: claim P1 of the trade. */
const opinion = (sentence: string): Claim => ({
  content: { opinion: sentence },
  print: () => sentence,
  check: () => ({ verdict: 'undecided', code: 'C0008', reason: reasonOf(matterOf(sentence)), evidence: [] }),
});

/** A sentence of taste that makes a claim besides: what can be checked is checked, and where it holds the taste is left open. */
const opinionOn = (sentence: string, claim: Claim): Claim => ({
  content: { opinion: sentence, besides: claim.content },
  print: () => sentence,
  check: context => {
    const verdict = claim.check(context);
    const said = `\`${claim.print()}\``;
    return verdict.verdict === 'holds'
      ? {
          ...verdict,
          verdict: 'undecided',
          code: 'C0008',
          reason: `${said} holds, but ${reasonOf(matterOf(sentence))}`,
          nearest: claim.print(),
        }
      : { ...verdict, reason: `${said}: ${verdict.reason}` };
  },
});

/** A sentence about something that is there and has no rule: said plainly instead of an error at some word of it. */
const unruled = (sentence: string, matter: string): Claim => ({
  content: { unruled: sentence },
  print: () => sentence,
  check: () => ({
    verdict: 'undecided',
    code: 'C0009',
    reason: `no rule here finds \`${matter}\` in the notes: say what stands in which bars, or mark it as an opinion`,
    evidence: [],
  }),
});

type Plain = (text: string) => Claim | undefined;

/** The claim that is left of a sentence without its words of taste, where one is. */
function claimLeft(sentence: string, plain: Plain): Claim | undefined {
  const bare = sentence.replace(declared, '').replace(asAnOpinion, '');
  const commanded = bare.replace(instruction, '');
  return [bare, commanded, commanded.replace(/^\s*(?:that|how|the)\s+/iu, '')]
    .flatMap(each => [each, each.replace(leftOut, ' ')])
    .map(each => each.replace(/\s+/gu, ' ').trim())
    .filter(each => each !== sentence && each !== '')
    .map(each => {
      const claim = plain(each);
      // `notice how the bass climbs` is not said of the whole piece.
      const isOfPiece = claim?.print().includes('the piece') === true && !/\b(?:piece|music)\b/iu.test(each);
      return isOfPiece ? undefined : claim;
    })
    .find(claim => claim !== undefined);
}

const isKnown = (word: string): boolean =>
  [attribute, statement, withoutRule, openVerb].some(expression => {
    expression.lastIndex = 0;
    return expression.exec(word)?.[0] === word;
  });
const hasAttribute = (text: string): boolean => text.search(attribute) >= 0;

/** Whether what is said of the subject is something of the trade, and nothing of taste. */
function saysSomethingElse(sentence: string): boolean {
  const found = verb.exec(sentence);
  if (found === null) return false;
  const [subject, said] = [sentence.slice(0, found.index), sentence.slice(found.index)];
  const follows = said.replace(verb, '').replace(places, ' ');
  return hasAttribute(subject) && !hasAttribute(said) && (hasTradeWord(follows) || hasSymbol(follows));
}
/** `an expressive viiio7/V`: a symbol that belongs to the word of taste and was not read. */
const decoratesSymbol = (sentence: string): boolean =>
  [...sentence.matchAll(attribute)].some(({ index, 0: word }) =>
    startsWithSymbol(sentence.slice(index + word.length)),
  );
/** What is borrowed from a key is mixture, not history. */
const borrowedFromKey =
  /(?<!\p{L})borrowed from (?:the )?(?:parallel|relative|tonic|[a-h](?:[#b♯♭]|[ -](?:flat|sharp))? (?:major|minor))(?!\p{L})/iu;
/** The first word of opinion or history in a text, as offsets; `undefined` where there is none. */
export function opinionIn(text: string): { readonly from: number; readonly to: number } | undefined {
  const plain = text.replace(borrowedFromKey, words => ' '.repeat(words.length));
  for (const { index, 0: word } of plain.matchAll(/\p{L}+/gu))
    for (const spelling of inProse.get(word.toLowerCase()) ?? []) {
      const to = endOfSpelling(plain, index, spelling);
      if (to !== undefined) return { from: index, to };
    }
  return undefined;
}

/** `iv appears three times`. */
const counted = /(?<!\p{L})(?:once|twice|times)(?!\p{L})/iu;
/** Whether nothing that can be checked follows a verb such as `sounds`. */
function isOpenEnded(sentence: string): boolean {
  const found = openVerb.exec(sentence);
  if (found === null) return false;
  const follows = sentence.slice(found.index + found[0].length).replace(places, ' ');
  return !hasTradeWord(follows) && !hasSymbol(follows.trim()) && !counted.test(follows);
}

function opinionOf(sentence: string, plain: Plain): Claim | undefined {
  if (declared.test(sentence)) {
    const left = claimLeft(sentence, plain);
    return left === undefined ? opinion(sentence) : opinionOn(sentence, left);
  }
  if (borrowedFromKey.test(sentence)) return undefined;
  const isMarked = hasAttribute(sentence) || matterOf(sentence) !== undefined || asAnOpinion.test(sentence);
  const [matter] = withoutRule.exec(sentence) ?? [];
  if (!isMarked && matter === undefined && !isOpenEnded(sentence)) return undefined;
  if (slipOfThePen(sentence, isKnown) !== undefined) return undefined;
  if (isMarked) {
    const left = claimLeft(sentence, plain);
    if (left !== undefined) return opinionOn(sentence, left);
    const isStated = statement.test(sentence) || instruction.test(sentence) || year.test(sentence);
    if (isStated || !(saysSomethingElse(sentence) || decoratesSymbol(sentence))) return opinion(sentence);
    return undefined;
  }
  return matter === undefined ? opinion(sentence) : unruled(sentence, matter);
}

/** `bar 8 is V and bar 29 is beautiful`: one side is checked, the other left open. */
function besideAClaim(sentence: string, plain: Plain): Claim | undefined {
  for (const { index, 0: joint } of sentence.matchAll(/\s*(?:,|;|\band\b|\bbut\b)\s+(?!and\b|but\b)/gu)) {
    const [one, other] = [sentence.slice(0, index), sentence.slice(index + joint.length)];
    const [first, second] = [plain(one), plain(other)];
    if (first !== undefined && second === undefined) {
      const said = opinionOf(other, plain);
      if (said !== undefined) return conjunction([first, said]);
    } else if (first === undefined && second !== undefined) {
      const said = opinionOf(one, plain);
      if (said !== undefined) return conjunction([said, second]);
    }
  }
  return undefined;
}

/** Whether a claim is one of taste or history, or of what no rule finds, in all or in part. */
export const isOpinion = ({ content, parts }: Claim): boolean =>
  parts?.some(isOpinion) ??
  (typeof content === 'object' && content !== null && ('opinion' in content || 'unruled' in content));

/** A sentence without its words of taste, every other letter where it was. */
export const withoutTaste = (text: string): string =>
  text
    .replace(instruction, word => ' '.repeat(word.length))
    .replace(leftOut, word => ' '.repeat(word.length));

/** The word for which a sentence of taste or of a matter without a rule is none. */
export const slipIn = (text: string): Slip | undefined =>
  hasAttribute(text) || matterOf(text) !== undefined || withoutRule.test(text)
    ? slipOfThePen(text, isKnown)
    : undefined;

/** Adjectives of taste and feeling, for a misspelt one. */
export const tasteWords: readonly string[] = wordsOf(attributes);

/**
 * Any text with such a word. It comes last: a sentence that can be checked is checked.
 * @param sentences what can be checked, asked of the rest of the sentence
 */
export const opinionSentence = (sentences: () => Parser<Claim>): Parser<Claim> => {
  const plain: Plain = text =>
    sentences()
      .read(startReading(text, false), 0)
      .steps.find(({ end }) => skipSpace(text, end) === text.length)?.value;
  const anyText = shapes.maybe({
    kind: 'token',
    name: 'AnyText',
    body: shapes.oneOrMore(shapes.character('^.')),
  });
  return {
    shape: {
      kind: 'rule',
      name: 'Opinion',
      body: () => ({
        kind: 'sequence',
        parts: [
          anyText,
          shapes.oneOf(
            ...wordsOf(statements),
            ...wordsOf(attributes),
            ...mattersWithoutRule,
            ...openVerbs,
            ...portrayals,
          ),
          anyText,
        ],
      }),
    },
    read: (reading, at) => {
      const start = skipSpace(reading.text, at);
      const text = reading.text
        .slice(start)
        .replace(/\s+/gu, ' ')
        .replace(/[ .“”"„«»‘’']+$/u, '');
      const claim = besideAClaim(text, plain) ?? opinionOf(text, plain);
      return claim === undefined ? failed(reading, start) : readAs(claim, reading.text.length);
    },
  };
};
