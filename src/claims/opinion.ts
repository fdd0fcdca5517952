import type { Claim } from './claim.js';
import { failed, readAs, skipSpace } from './grammar/index.js';
import type { Parser } from './grammar/index.js';
import { shapes } from './grammar/index.js';

/** Words of history, intention, feeling and taste: what a sentence with one of them says cannot be read from the notes alone. */
const opinionWords = [
  'beautiful',
  'ugly',
  'sad',
  'happy',
  'joyful',
  'gloomy',
  'melancholy',
  'tender',
  'shocking',
  'surprising',
  'dramatic',
  'exciting',
  'boring',
  'lovely',
  'wonderful',
  'magical',
  'mysterious',
  'warm',
  'cold',
  'dark',
  'bright',
  'noble',
  'heroic',
  'tragic',
  'comic',
  'expressive',
  'expresses',
  'emotional',
  'mood',
  'feels',
  'feel',
  'feeling',
  'reminds',
  'symbolizes',
  'symbolises',
  'evokes',
  'famous',
  'genius',
  'masterpiece',
  'exotic',
  'striking',
  'tension',
  'unfinished',
  'sings',
  'sounds final',
  'loved',
  'calm',
  'restless',
  'original',
  'innovative',
  'typical',
  'unusual',
  'style',
  'influenced',
  'influence',
  'inspired',
  'composer',
  'composed',
  'wrote',
  'written',
  'published',
  'premiered',
  'dedicated',
  'century',
  'intended',
  'intends',
  'wanted',
  'meant',
  'means',
  'history',
  'tradition',
  'surprise',
  'surprises',
  'ominous',
  'saddest',
  'sadness',
  'happiest',
  'romantic',
  'magic',
  'poignant',
  'sweet',
  'lyrical',
  'playful',
  'peaceful',
  'holy',
  'sacred',
  'solemn',
  'majestic',
  'haunting',
  'yearning',
  'longing',
  'hopeful',
  'triumphant',
  'nostalgic',
  'elegant',
  'delicate',
  'intimate',
  'strange',
  'suggests',
  'conveys',
  'depicts',
  'portrays',
  'colourful',
  'colorful',
  'colour',
  'color',
] as const;
/** What can be heard or seen in a score and yet has no rule here: form beyond the phrase, genre, manner of playing, motives. */
const mattersWithoutRule = [
  'waltz',
  'oom-pah',
  'march',
  'minuet',
  'lullaby',
  'dance',
  'ostinato',
  'walking bass',
  'canon',
  'fugue',
  'fugal',
  'imitation',
  'imitates',
  'imitative',
  'stretto',
  'rondo',
  'sonata form',
  'binary form',
  'ternary form',
  'coda',
  'codetta',
  'introduction',
  'transition',
  'motif',
  'motive',
  'theme',
  'climax',
  'legato',
  'staccato',
  'articulation',
  'rubato',
  'tessitura',
  'timbre',
  'orchestration',
  'hypermeter',
  'hypermetre',
  'polyrhythm',
  'call and response',
  'phrase lengths',
  'phrases',
  'first phrase',
  'second phrase',
  'third phrase',
  'last phrase',
  'largest leap',
  'smallest leap',
  'is confirmed by',
  'longest note',
  'shortest note',
  'speeds up',
  'slows down',
  'accelerates',
  'unexpected',
  'new key is established',
  'climactic',
  'each phrase',
  'every phrase',
  'almost the same',
  'nearly the same',
] as const;
const withoutRule = new RegExp(
  `(?<!\\p{L})(?:${mattersWithoutRule.map(each => each.replace(/[ -]/gu, '[\\s-]+')).join('|')})(?!\\p{L})`,
  'iu',
);
const year = /\b(?:1[1-9]|20)\d\d\b/u;
const vocabulary = new RegExp(`(?<!\\p{L})(?:${opinionWords.join('|')})(?!\\p{L})`, 'iu');

/** The first word of opinion or history in a text, as offsets; `undefined` where there is none. */
export function opinionIn(text: string): { readonly from: number; readonly to: number } | undefined {
  const found = vocabulary.exec(text);
  return found === null ? undefined : { from: found.index, to: found.index + found[0].length };
}

/** A sentence that is recognised and cannot be checked: claim P1 of the trade. */
const opinion = (sentence: string): Claim => ({
  content: { opinion: sentence },
  print: () => sentence,
  check: () => ({
    verdict: 'undecided',
    code: 'C0008',
    reason: `${year.test(sentence) && !vocabulary.test(sentence) ? 'history' : 'history, intention, feeling or taste'} is not in the notes: name a source, or mark it as an opinion`,
    evidence: [],
  }),
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

/** Any text with such a word. It comes last: a sentence that can be checked is checked. */
export const opinionSentence: Parser<Claim> = {
  shape: {
    kind: 'rule',
    name: 'Opinion',
    body: () => ({
      kind: 'sequence',
      parts: [
        shapes.maybe({ kind: 'token', name: 'AnyText', body: shapes.oneOrMore(shapes.character('^.')) }),
        shapes.oneOf(...opinionWords, ...mattersWithoutRule),
        shapes.maybe({ kind: 'token', name: 'AnyText', body: shapes.oneOrMore(shapes.character('^.')) }),
      ],
    }),
  },
  read: (reading, at) => {
    const start = skipSpace(reading.text, at);
    const text = reading.text
      .slice(start)
      .replace(/\s+/gu, ' ')
      .replace(/[ .“”"„«»‘’']+$/u, '');
    if (vocabulary.test(text) || year.test(text)) return readAs(opinion(text), reading.text.length);
    const [matter] = withoutRule.exec(text) ?? [];
    return matter === undefined ? failed(reading, start) : readAs(unruled(text, matter), reading.text.length);
  },
};
