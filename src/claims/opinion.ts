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
] as const;
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

/** Any text with such a word. It comes last: a sentence that can be checked is checked. */
export const opinionSentence: Parser<Claim> = {
  shape: {
    kind: 'rule',
    name: 'Opinion',
    body: () => ({
      kind: 'sequence',
      parts: [
        shapes.maybe({ kind: 'token', name: 'AnyText', body: shapes.oneOrMore(shapes.character('^.')) }),
        shapes.oneOf(...opinionWords),
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
    return vocabulary.test(text) || year.test(text)
      ? readAs(opinion(text), reading.text.length)
      : failed(reading, start);
  },
};
