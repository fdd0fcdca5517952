import { describe, expect, it } from 'vitest';
import { located, play, scoreOf, strikes, barsHeard, timelineOf, lessonOf } from './lessons.js';

// Expected times are worked out by hand from the notation: 120 quarters a minute, one quarter = 0.5 s.
describe('music as written', () => {
  it('lays notes and rests end to end', () => {
    const score = scoreOf('C D z E | F4 |');
    expect(strikes(timelineOf(score, [play('1-2')]))).toEqual(['60 0-0.5', '62 0.5-1', '64 1.5-2', '65 2-4']);
  });

  it('strikes a tie chain once', () => {
    const score = scoreOf('C2 D2- | D4- | D2 E2 |');
    expect(strikes(timelineOf(score, [play('1-3')]))).toEqual(['60 0-1', '62 1-5', '64 5-6']);
  });

  it('ends a note with the passage when it is tied out of it, and strikes one that is tied into it', () => {
    const score = scoreOf('C2 D2- | D4- | D2 E2 |');
    expect(strikes(timelineOf(score, [play('1')]))).toEqual(['60 0-1', '62 1-2']);
    expect(strikes(timelineOf(score, [play('2')]))).toEqual(['62 0-2']);
    expect(strikes(timelineOf(score, [play('3')]))).toEqual(['62 0-1', '64 1-2']);
  });

  it('names every written note of a tie chain', () => {
    const score = scoreOf('C4- | C4 |');
    const notes = timelineOf(score, [play('1-2')]).events.flatMap(event =>
      event.kind === 'note' ? [event.notes] : [],
    );
    expect(notes).toEqual([[0, 1]]);
  });

  it('plays triplets exactly', () => {
    const score = scoreOf('(3CDE C2 |');
    const starts = timelineOf(score, [play('1')]).events.flatMap(event =>
      event.kind === 'note' ? [event.start - 0.5] : [],
    );
    expect(starts.map(start => Number(start.toFixed(6)))).toEqual([0, 0.333333, 0.666667, 1]);
  });

  it('puts a pickup before bar 1 in its own time', () => {
    const score = scoreOf('G | C2 E2 |');
    expect(strikes(timelineOf(score, [play('1')]))).toEqual(['67 0-0.5', '60 0.5-1.5', '64 1.5-2.5']);
    expect(barsHeard(score, timelineOf(score, [play('1')]))).toBe('0 1');
    expect(barsHeard(score, timelineOf(score, [play('0')]))).toBe('0');
  });

  it('puts grace notes before their main note, also at the start', () => {
    const score = scoreOf('C2 {DE}F2 |');
    expect(strikes(timelineOf(score, [play('1')]))).toEqual([
      '60 0-1',
      '62 0.82-0.91',
      '64 0.91-1',
      '65 1-2',
    ]);
    const leading = scoreOf('{D}C4 |');
    expect(strikes(timelineOf(leading, [play('1')]))).toEqual(['62 0-0.09', '60 0.09-2.09']);
  });

  it('lets a key up before it is struck again', () => {
    expect(strikes(timelineOf(scoreOf('C2 {C}D2 |'), [play('1')]))).toEqual([
      '60 0-0.91',
      '60 0.91-1',
      '62 1-2',
    ]);
    // An overlay is a voice of its own, so its C leaves the long C of the first layer alone.
    expect(strikes(timelineOf(scoreOf('C4 & z C2 z |'), [play('1')]))).toEqual(['60 0-2', '60 0.5-1.5']);
  });

  it('plays one voice with its overlays, named by id or by printed name', () => {
    const score = scoreOf('[V:RH] e4 & c4 |\n[V:LH] C,4 |', [
      'V:RH name="Right hand"',
      'V:LH name="Left hand"',
    ]);
    expect(strikes(timelineOf(score, [play('1', { voice: located('lh') })]))).toEqual(['48 0-2']);
    expect(strikes(timelineOf(score, [play('1', { voice: located('right hand') })]))).toEqual([
      '72 0-2',
      '76 0-2',
    ]);
  });

  it('plays another version of the piece in its place', () => {
    const score = scoreOf('C4 |');
    const versions = new Map([['other.abc', scoreOf('^C4 |')]]);
    const timeline = timelineOf(score, [play('1', { score: located('other.abc') })], { versions });
    expect(strikes(timeline)).toEqual(['61 0-2']);
    expect(
      timeline.events
        .filter(event => event.kind === 'note' || event.kind === 'bar')
        .map(event => event.score),
    ).toEqual(['other.abc', 'other.abc']);
  });

  it('scales with the percentage and repeats with a gap', () => {
    const score = scoreOf('C2 D2 |');
    expect(strikes(timelineOf(score, [play('1', { tempo: 50 })]))).toEqual(['60 0-2', '62 2-4']);
    expect(strikes(timelineOf(score, [play('1', { times: 2 })]))).toEqual([
      '60 0-1',
      '62 1-2',
      '60 2.7-3.7',
      '62 3.7-4.7',
    ]);
    expect(barsHeard(score, timelineOf(score, [play('1', { times: 3 })]))).toBe('1 1(1) 1(2)');
  });

  it('counts the tempo in dotted quarters in 6/8, or in the beat of the lesson', () => {
    const score = scoreOf('c3 c3 |', ['M:6/8', 'L:1/8']);
    expect(strikes(timelineOf(score, [play('1')]))).toEqual(['72 0-0.5', '72 0.5-1']);
    const byEighths = lessonOf([[play('1')]], { beat: { n: 1, d: 8 } });
    expect(strikes(timelineOf(score, [], { lesson: byEighths }))).toEqual(['72 0-1.5', '72 1.5-3']);
  });

  it('holds a fermata', () => {
    const score = scoreOf('C2 !fermata!D E |');
    expect(strikes(timelineOf(score, [play('1')]))).toEqual(['60 0-1', '62 1-1.875', '64 1.875-2.375']);
  });
});
