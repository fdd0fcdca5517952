import { instrumentOf, pianoAlone, programs } from '../sound/index.js';
import { chaptersOf, passageText } from '../timeline/index.js';
import type { Instrumentation, NoteEvent, Timeline } from '../timeline/index.js';

/** Ticks of a quarter note, and its length at 120 a minute: so a tick is just over half a millisecond. */
const ticksPerQuarter = 960;
const microsecondsPerQuarter = 500_000;
const ticksPerSecond = (ticksPerQuarter * 1e6) / microsecondsPerQuarter;
const percussionChannel = 9;

/** Numbers of the meta events (Standard MIDI Files 1.0; from memory). */
const meta = { trackName: 0x03, marker: 0x06, cuePoint: 0x07, endOfTrack: 0x2f, tempo: 0x51 } as const;

interface MidiEvent {
  readonly tick: number;
  /** Events of the same moment: ends of notes come before starts. */
  readonly order: number;
  readonly bytes: readonly number[];
}

function variableLength(value: number): readonly number[] {
  const bytes = [value & 0x7f];
  for (let rest = value >>> 7; rest > 0; rest >>>= 7) bytes.unshift((rest & 0x7f) | 0x80);
  return bytes;
}

const bigEndian = (value: number, length: number): readonly number[] =>
  Array.from({ length }, (_, index) => (value >>> (8 * (length - 1 - index))) & 0xff);

const ascii = (text: string): readonly number[] => [...text].map(character => character.charCodeAt(0));

function metaEvent(kind: number, data: readonly number[]): readonly number[] {
  return [0xff, kind, ...variableLength(data.length), ...data];
}

const textEvent = (kind: number, text: string): readonly number[] =>
  metaEvent(kind, [...new TextEncoder().encode(text)]);

/** Programs that show the texts of a MIDI file often know no other signs than those of ASCII. */
const cueText = (passage: Parameters<typeof passageText>[0]): string =>
  passageText(passage).replaceAll('–', '-');

function track(events: readonly MidiEvent[]): readonly number[] {
  const bytes: number[] = [];
  let now = 0;
  for (const event of events.toSorted((a, b) => a.tick - b.tick || a.order - b.order)) {
    bytes.push(...variableLength(event.tick - now), ...event.bytes);
    now = event.tick;
  }
  bytes.push(0, ...metaEvent(meta.endOfTrack, []));
  return [...ascii('MTrk'), ...bigEndian(bytes.length, 4), ...bytes];
}

const tickOf = (seconds: number): number => Math.round(seconds * ticksPerSecond);

function noteEvents(note: NoteEvent, channel: number): readonly MidiEvent[] {
  const start = tickOf(note.start);
  const end = Math.max(start + 1, tickOf(note.end));
  return [
    { tick: start, order: 2, bytes: [0x90 | channel, note.midi, note.velocity] },
    { tick: end, order: 1, bytes: [0x80 | channel, note.midi, 64] },
  ];
}

/**
 * The performance as a Standard MIDI File of format 1: a track of markers (one for each step) and cue points (one for each passage),
 * then a track for each voice. Times are those of the lesson, at a constant 120 quarters a minute.
 */
export function performanceMidi(
  timeline: Timeline,
  title: string,
  instrumentation: Instrumentation = pianoAlone,
): Uint8Array {
  const notes = timeline.events.filter(event => event.kind === 'note');
  const voices = [...new Set(notes.map(note => note.voice))].sort();
  const channels = Array.from({ length: 16 }, (_, channel) => channel).filter(
    channel => channel !== percussionChannel,
  );
  const signs: readonly MidiEvent[] = [
    { tick: 0, order: 0, bytes: textEvent(meta.trackName, title) },
    { tick: 0, order: 0, bytes: metaEvent(meta.tempo, bigEndian(microsecondsPerQuarter, 3)) },
    ...chaptersOf(timeline).map(chapter => ({
      tick: tickOf(chapter.start),
      order: 1,
      bytes: textEvent(meta.marker, chapter.title),
    })),
    ...timeline.events.flatMap(event =>
      event.kind === 'passage'
        ? [{ tick: tickOf(event.start), order: 2, bytes: textEvent(meta.cuePoint, cueText(event)) }]
        : [],
    ),
  ];
  const tracks = voices.map((voice, index) => {
    const channel = channels[index % channels.length] ?? 0;
    const head: readonly MidiEvent[] = [
      { tick: 0, order: 0, bytes: textEvent(meta.trackName, voice) },
      { tick: 0, order: 0, bytes: [0xc0 | channel, programs[instrumentOf(instrumentation, voice)]] },
    ];
    return track([
      ...head,
      ...notes.filter(note => note.voice === voice).flatMap(note => noteEvents(note, channel)),
    ]);
  });
  const header = [
    ...ascii('MThd'),
    ...bigEndian(6, 4),
    ...bigEndian(1, 2),
    ...bigEndian(tracks.length + 1, 2),
    ...bigEndian(ticksPerQuarter, 2),
  ];
  return Uint8Array.from([...header, ...track(signs), ...tracks.flat()]);
}
