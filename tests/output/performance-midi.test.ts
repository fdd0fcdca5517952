import { BasicMIDI } from 'spessasynth_core';
import { describe, expect, it } from 'vitest';
import { performanceMidi } from '../../src/output/index.js';
import { buildTimeline } from '../../src/timeline/index.js';
import { cMajor, lessonOf, play, say, scoreOf } from '../timeline/lessons.js';

const score = scoreOf('[V:RH] c2 e2 | c4 |\n[V:LH] C,4- | C,4 |', ['V:RH', 'V:LH']);
const lesson = lessonOf([[play('1-2'), say('Once more, broken.')], [play('1', { as: 'arpeggio' })]]);
const { value: timeline } = buildTimeline({ lesson, score, chordsIn: cMajor });

/** Read back by the MIDI reader of the synthesizer library, which shares nothing with the writer. */
const midi = BasicMIDI.fromArrayBuffer(
  performanceMidi(timeline, 'Two hands', { all: 'piano', voices: { LH: 'cello' } }).slice().buffer,
);
const decode = (data: Uint8Array) => new TextDecoder().decode(data);
const textsOf = (kind: number) =>
  midi.tracks.flatMap(track =>
    track.events
      .filter(event => event.statusByte === kind)
      .map(event => `${midi.midiTicksToSeconds(event.ticks).toFixed(3)} ${decode(event.data)}`),
  );

describe('the performance as MIDI', () => {
  it('is format 1 with a track for the signs and one for each voice', () => {
    expect(midi.format).toBe(1);
    expect(textsOf(0x03)).toEqual(['0.000 Two hands', '0.000 LH', '0.000 RH', '0.000 demonstration']);
  });

  it('strikes every note of the timeline at its time, with its velocity, for its length', () => {
    const heard = midi.tracks.flatMap(track => {
      const on = track.events.filter(event => (event.statusByte & 0xf0) === 0x90);
      const off = track.events.filter(event => (event.statusByte & 0xf0) === 0x80);
      return on.map(event => {
        const end = off.find(other => other.ticks > event.ticks && other.data[0] === event.data[0]);
        return {
          midi: event.data[0],
          velocity: event.data[1],
          start: midi.midiTicksToSeconds(event.ticks),
          end: midi.midiTicksToSeconds(end?.ticks ?? 0),
        };
      });
    });
    const key = (note: {
      readonly midi?: number;
      readonly velocity?: number;
      readonly start: number;
      readonly end: number;
    }) => `${note.start.toFixed(2)} ${note.end.toFixed(2)} ${String(note.midi)} ${String(note.velocity)}`;
    const wanted = timeline.events.flatMap(event => (event.kind === 'note' ? [key(event)] : []));
    expect(
      heard.map(note => key({ ...note, midi: note.midi ?? -1, velocity: note.velocity ?? -1 })).sort(),
    ).toEqual(wanted.sort());
    expect(wanted).toHaveLength(7);
  });

  it('marks the steps and names the passages', () => {
    const [first, second] = timeline.steps.map(step => step.start.toFixed(3));
    expect(textsOf(0x06)).toEqual([`${first ?? ''} Step 1`, `${second ?? ''} Step 2`]);
    expect(textsOf(0x07).map(text => text.replace(/^\S+ /u, ''))).toEqual([
      'bars 1-2',
      'bar 1, the chord broken upward',
    ]);
  });

  it('gives each voice its instrument (General MIDI: cello 42, piano 0)', () => {
    const changes = midi.tracks.flatMap(track =>
      track.events.filter(event => (event.statusByte & 0xf0) === 0xc0).map(event => event.data[0]),
    );
    expect(changes).toEqual([42, 0, 0]);
  });
});
