import { describe, expect, it } from 'vitest';
import { lessonJsonSchema } from '../../src/lesson/index.js';
import type { Action, Pacing } from '../../src/lesson/index.js';
import {
  buildTimeline,
  defaultPacingLimits,
  mixedVocabulary,
  pacingFindings,
  pacingLimitsOf,
  silencesOf,
} from '../../src/timeline/index.js';
import type { PacingLimits, Speech } from '../../src/timeline/index.js';
import { ask, cMajor, lessonOf, play, say, scoreOf, wait } from './lessons.js';

const score = scoreOf('C4 | D4 |');
const twenty = Array.from({ length: 20 }, (_, n) => `word${String(n)}`).join(' ');

/** Codes of the findings of a script whose texts last as many seconds as given. */
function findings(
  script: readonly Action[],
  lengths: readonly (readonly [Action, number])[] = [],
  limits?: PacingLimits,
): readonly string[] {
  const speech = new Map<string, Speech>(
    lengths.flatMap(([action, seconds]) => {
      if (action.kind !== 'say') return [];
      const words = action.text.split(' ');
      let at = 0;
      return [[action.id, { seconds, words: words.map((word, n) => ({ from: (at += n === 0 ? 0 : (words[n - 1]?.length ?? 0) + 1), to: at + word.length, start: (n / words.length) * seconds, end: ((n + 1) / words.length) * seconds })) }]];
    }),
  ); // prettier-ignore
  const lesson = lessonOf([script]);
  const { value } = buildTimeline({ lesson, score, chordsIn: cMajor, speech });
  return pacingFindings(lesson, value, limits).map(({ code }) => code);
}

describe('the pace of a lesson', () => {
  it('is not remarked on where it is calm', () => {
    const words = say(twenty);
    expect(findings([play('1-2'), words, play('1')], [[words, 8]])).toEqual([]);
  });

  it('T0020: words outlast the music under them by more than half a second', () => {
    const words = say(twenty);
    // One bar lasts 2 s; the words begin 0.8 s after it.
    expect(findings([play('1', { under: true }), words], [[words, 8]])).toEqual(['T0020']);
    expect(findings([play('1', { under: true, times: 4 }), words], [[words, 8]])).toEqual([]);
    expect(findings([play('1', { as: 'block', under: true }), words], [[words, 8]])).toEqual([]);
    const short = say('One two.');
    expect(findings([play('1', { under: true }), short], [[short, 1.6]])).toEqual([]);
    expect(findings([play('1', { under: true }), short], [[short, 1.8]])).toEqual(['T0020']);
  });

  it('T0021: measured speech of more than 180 words a minute', () => {
    const words = say(twenty);
    // 130 characters are 21.7 words of six; 180 of them last a minute.
    expect(findings([words], [[words, 7.3]])).toEqual([]);
    expect(findings([words], [[words, 7.1]])).toEqual(['T0021']);
    const short = say('I do as I am to do if it is so to me as it is to us.');
    expect(findings([short], [[short, 5]])).toEqual([]);
    // An estimate follows the pace and says nothing about a voice.
    expect(findings([say(twenty)])).toEqual([]);
  });

  it('T0022: a caption that stands shorter than 0.3 s a word, and so is spoken too fast as well', () => {
    const words = say(twenty);
    const next = say('And at once the next words follow, as they do in a hurry.');
    expect(findings([words, wait(0), next], [[words, 4], [next, 6]])).toEqual(['T0021', 'T0022']); // prettier-ignore
    expect(findings([words, wait(0), next], [[words, 4], [next, 6]], { ...defaultPacingLimits, secondsPerCaptionWord: 0.1, fastestSpeech: 400 })).toEqual([]); // prettier-ignore
  });

  it('T0023: more than 25 s of talk, also in several pieces, unless music comes between', () => {
    const [one, two] = [say(twenty), say(twenty)];
    expect(findings([one, two], [[one, 13], [two, 13]])).toEqual(['T0023']); // prettier-ignore
    expect(findings([one, play('1'), two], [[one, 13], [two, 13]])).toEqual([]); // prettier-ignore
    expect(findings([one, two], [[one, 12], [two, 12]])).toEqual([]); // prettier-ignore
    // A question hands over to the student.
    expect(findings([one, ask('Which one?', [], 'C'), two], [[one, 13], [two, 13]])).toEqual([]); // prettier-ignore
  });

  it('T0024: a wait that is shorter than the silence an example needs', () => {
    const words = say(twenty);
    expect(findings([play('1'), wait(0.2), words], [[words, 8]])).toEqual(['T0024']);
    expect(findings([words, wait(0.1), play('1')], [[words, 8]])).toEqual(['T0024']);
    expect(findings([words, wait(0.5), play('1'), wait(1), words], [[words, 8]])).toEqual([]);
  });
});

describe('a lesson with a pacing of its own', () => {
  const words = say(twenty);
  const codesOf = (pacing: Pacing, script: readonly Action[]) => {
    const lesson = lessonOf([script], { pacing });
    const { value } = buildTimeline({ lesson, score, chordsIn: cMajor });
    return pacingFindings(lesson, value).map(({ code }) => code);
  };

  it('moves the limits of the remarks', () => {
    // Twenty words at 150 a minute last 8 s.
    expect(codesOf({ 'longest-talk': 7 }, [words])).toEqual(['T0023']);
    expect(codesOf({ 'longest-talk': 9 }, [words])).toEqual([]);
    expect(codesOf({ overrun: 7 }, [play('1', { under: true }), words])).toEqual([]);
    expect(codesOf({ 'after-example': 0.1 }, [play('1'), wait(0.2), words])).toEqual([]);
  });

  it('moves the silences of the schedule', () => {
    const lengths = ({ pacing }: { readonly pacing?: Pacing }) =>
      buildTimeline({
        lesson: lessonOf(
          [[words, play('1'), words, ask('Which?', [], 'C')]],
          pacing === undefined ? {} : { pacing },
        ),
        score,
        chordsIn: cMajor,
      }).value.events.flatMap(event => {
        if (event.kind === 'question') return [`thinking ${String(event.end - event.start)}`];
        const kept = event.kind === 'pause' && event.reason.endsWith('example');
        return kept ? [`${event.reason} ${(event.end - event.start).toFixed(1)}`] : [];
      });
    expect(lengths({})).toEqual(['before an example 0.4', 'after an example 1.0', 'thinking 5']);
    expect(lengths({ pacing: { 'before-example': 2, 'after-example': 3, thinking: 8 } })).toEqual([
      'before an example 2.0', 'after an example 3.0', 'thinking 8',
    ]); // prettier-ignore
  });

  it('has in its schema the defaults that are used', () => {
    const [limits, silences] = [pacingLimitsOf({}), silencesOf({})];
    const used: Readonly<Record<keyof Pacing, number>> = {
      'fastest-speech': limits.fastestSpeech, 'caption-word': limits.secondsPerCaptionWord, 'longest-talk': limits.longestTalk, overrun: limits.overrun,
      'before-example': silences.beforeExample, 'after-example': silences.afterExample, thinking: silences.thinking,
    }; // prettier-ignore
    const { properties } = lessonJsonSchema() as { readonly properties: { readonly pacing: { readonly properties: Readonly<Record<string, { readonly default: number }>> } } }; // prettier-ignore
    expect(
      Object.fromEntries(
        Object.entries(properties.pacing.properties).map(([name, field]) => [name, field.default]),
      ),
    ).toEqual(used);
  });
});

describe('T0011: mixed vocabulary', () => {
  const codes = (...texts: readonly string[]) =>
    mixedVocabulary(lessonOf([texts.map(text => say(text))])).map(
      ({ code, message }) => `${code} ${message}`,
    );

  it('points at the rarer side', () => {
    expect(codes('A crotchet and a quaver.', 'Then a quarter note.')).toEqual([
      'T0011 `quarter note` is American, the rest of the lesson is British',
    ]);
    expect(codes('The leading tone rises in measure three.', 'A crotchet later.')).toEqual([
      'T0011 `crotchet` is British, the rest of the lesson is American',
    ]);
  });

  it('is silent where one side is kept, or where words belong to both', () => {
    expect(codes('A crotchet in bar three, a semitone higher.')).toEqual([]);
    expect(codes('A quarter note in bar three.', 'The staff below.')).toEqual([]);
  });
});
