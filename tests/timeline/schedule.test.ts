import { describe, expect, it } from 'vitest';
import type { Speech, TimelineEvent } from '../../src/timeline/index.js';
import { buildTimeline } from '../../src/timeline/index.js';
import { pitchClass } from '../../src/score/index.js';
import { ask, cMajor, lessonOf, located, play, say, scoreOf, timelineOf, wait } from './lessons.js';

const score = scoreOf('C4 | D4 |');

/** Everything but bars and notes, as `kind start-end`. */
const outline = (events: readonly TimelineEvent[]): readonly string[] =>
  events.flatMap(event => {
    if (event.kind === 'note' || event.kind === 'bar') return [];
    const what = event.kind === 'pause' ? event.reason : event.kind;
    return [`${what} ${String(event.start)}-${String(event.end)}`];
  });

const speechOf = (...entries: readonly (readonly [string, number])[]): ReadonlyMap<string, Speech> =>
  new Map(entries.map(([id, seconds]) => [id, { seconds, words: [] }]));

const idOf = (action: ReturnType<typeof say>): string =>
  action.kind === 'say' || action.kind === 'ask' ? action.id : '';

describe('the schedule of a step', () => {
  it('leaves silence before and after an example', () => {
    const [before, after] = [say('Listen.'), say('That was C.')];
    const speech = speechOf([idOf(before), 1], [idOf(after), 2]);
    expect(outline(timelineOf(score, [before, play('1'), after], { speech }).events)).toEqual([
      'lead-in 0-0.5', 'speech 0.5-1.5', 'before an example 1.5-1.9', 'passage 1.9-3.9', 'after an example 3.9-4.9', 'speech 4.9-6.9', 'ring-out 6.9-8.4',
    ]); // prettier-ignore
  });

  it('takes a silence of the author as it is', () => {
    const words = say('Now.');
    const timeline = timelineOf(score, [play('1'), wait(0.1), words], { speech: speechOf([idOf(words), 1]) });
    expect(outline(timeline.events)).toEqual([
      'lead-in 0-0.5',
      'passage 0.5-2.5',
      'wait 2.5-2.6',
      'speech 2.6-3.6',
      'ring-out 3.6-5.1',
    ]);
  });

  it('speaks over the playing that is under it, and lets the longer one end', () => {
    const words = say('Hear the bass.');
    const short = timelineOf(score, [play('1', { under: true }), words, play('2')], {
      speech: speechOf([idOf(words), 0.5]),
    });
    expect(outline(short.events)).toEqual([
      'lead-in 0-0.5', 'passage 0.5-2.5', 'speech 1.3-1.8', 'between examples 2.5-3.2', 'passage 3.2-5.2', 'ring-out 5.2-6.7',
    ]); // prettier-ignore
    const long = timelineOf(score, [play('1', { under: true }), words], {
      speech: speechOf([idOf(words), 6]),
    });
    expect(outline(long.events)).toEqual([
      'lead-in 0-0.5',
      'passage 0.5-2.5',
      'speech 1.3-7.3',
      'ring-out 7.3-8.8',
    ]);
  });

  it('holds a block chord as long as words are spoken over it, striking it again before it dies away', () => {
    const words = say('Hold this one.');
    const timeline = timelineOf(score, [play('1', { as: 'block', under: true }), words], {
      speech: speechOf([idOf(words), 9.2]),
    });
    expect(outline(timeline.events)).toEqual([
      'lead-in 0-0.5',
      'passage 0.5-10.5',
      'speech 1.3-10.5',
      'ring-out 10.5-12',
    ]);
    const strikes = timeline.events.flatMap(event =>
      event.kind === 'note' ? [`${String(event.midi)} ${String(event.start)}`] : [],
    );
    expect(strikes).toEqual(['48 0.5', '52 0.5', '55 0.5', '48 5.5', '52 5.5', '55 5.5']);
  });

  it('asks, leaves time to think, and answers', () => {
    const question = ask('Which chord is it?', ['C', 'G'], 'C');
    const timeline = timelineOf(score, [question], {
      speech: speechOf([idOf(question), 2], [`${idOf(question)}.answer`, 1]),
    });
    expect(outline(timeline.events)).toEqual([
      'lead-in 0-0.5',
      'speech 0.5-2.5',
      'question 2.5-7.5',
      'speech 7.5-8.5',
      'ring-out 8.5-10',
    ]);
    expect(timeline.events.flatMap(event => (event.kind === 'speech' ? [event.text] : []))).toEqual([
      'Which chord is it? C or G?',
      'C',
    ]);
  });

  it('begins a step with its first sound and ends it where the next one begins', () => {
    const [one, two] = [say('One.'), say('Two.')];
    const lesson = lessonOf([[one], [], [two]]);
    const { value } = buildTimeline({
      lesson,
      score,
      chordsIn: cMajor,
      speech: speechOf([idOf(one), 1], [idOf(two), 1]),
    });
    expect(value.steps.map(step => [step.start, step.end])).toEqual([[0, 2.1], [2.1, 2.1], [2.1, 4.6]]); // prettier-ignore
  });

  it('estimates what no voice has measured: 150 words a minute are 2.5 a second', () => {
    const timeline = timelineOf(score, [say('Five words make two seconds.')]);
    const speech = timeline.events.find(event => event.kind === 'speech');
    expect(speech?.end).toBe(2.5);
    expect(speech?.measured).toBe(false);
    expect(speech?.words.map(word => word.text)).toEqual(['Five', 'words', 'make', 'two', 'seconds.']);
  });
});

describe('demonstrations', () => {
  const heard = (as: 'stack' | 'arpeggio' | 'block') =>
    timelineOf(score, [play('1', { as })], {
      // D7 over F sharp: on the line of fifths D 2, F# 6, A 3, C 0.
      chordsIn: (_, start, end) => [{ start, end, tones: [2, 6, 3, 0].map(pitchClass), bass: pitchClass(6) }],
    }).events.flatMap(event =>
      event.kind === 'note'
        ? [`${String(event.midi)} ${String(event.start - 0.5)}-${String(event.end - 0.5)}`]
        : [],
    );

  it('stacks the tones in thirds from the root, then strikes the chord', () => {
    expect(heard('stack')).toEqual([
      '50 0-2', '54 0.5-2', '57 1-2', '60 1.5-2', '50 2-4', '54 2-4', '57 2-4', '60 2-4',
    ]); // prettier-ignore
  });

  it('breaks the chord upward from its bass', () => {
    expect(heard('arpeggio')).toEqual(['54 0-3.5', '57 0.5-3.5', '60 1-3.5', '62 1.5-3.5']);
  });

  it('strikes the chord in close position over its bass', () => {
    expect(heard('block')).toEqual(['54 0-2', '57 0-2', '60 0-2', '62 0-2']);
  });

  it('marks its notes as not in the score', () => {
    const notes = timelineOf(score, [play('1', { as: 'block' })]).events.filter(
      event => event.kind === 'note',
    );
    expect(notes.map(note => [note.demonstration, note.notes])).toEqual([[true, []], [true, []], [true, []]]); // prettier-ignore
  });
});

describe('findings', () => {
  const codes = (action: ReturnType<typeof play>, chordsIn = cMajor) =>
    buildTimeline({ lesson: lessonOf([[action]]), score, chordsIn }).diagnostics.map(finding => finding.code);

  it('reports what cannot be played and goes on', () => {
    expect(codes(play('1-9'))).toEqual(['T0001']);
    expect(codes(play('2-1'))).toEqual(['T0001']);
    expect(codes(play('1', { voice: located('alto') }))).toEqual(['T0002']);
    expect(codes(play('1', { score: located('missing.abc') }))).toEqual(['T0003']);
    expect(codes(play('1', { as: 'stack' }), () => [])).toEqual(['T0004']);
    expect(codes(play('1', { under: true }))).toEqual(['T0005']);
    expect(codes(play('1'))).toEqual([]);
  });
});
