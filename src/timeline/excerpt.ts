import type { BarRange, PlayStyle } from '../lesson/index.js';
import { midiOf, subtract } from '../score/index.js';
import type { Fraction, Note, Score, VoiceId } from '../score/index.js';
import { barsToPlay } from './bar-range.js';
import type { NoteEvent, Timeline, TimelineEvent } from './model.js';
import { passageClock } from './passage-clock.js';
import { performPlay } from './perform-play.js';
import type { PlayInput, Playing } from './perform-play.js';
import { defaultSilences } from './silence.js';
import { speedsOf } from './tempo.js';

export type ExcerptInput = Omit<PlayInput, 'versions'>;

export interface Part {
  readonly start: Fraction;
  readonly end: Fraction;
}

/** What a listener picks out of a score: bars by their labels, and how they are played. */
export interface Excerpt {
  readonly first: string;
  readonly last: string;
  readonly as: PlayStyle;
  /** What is heard of bars that are played as written, in whole notes from the start of the score; all of them where absent. */
  readonly part?: Part;
  /** Seconds through which it goes round and round without a gap; once where absent. */
  readonly roundFor?: number;
}

const place = { step: 0, action: 0 };

function eventsOf(playing: Playing, { as }: Excerpt, at: number): readonly TimelineEvent[] {
  return playing.passages.flatMap(({ seconds, bars, notes }): readonly TimelineEvent[] => [
    {
      kind: 'passage',
      ...place,
      start: at,
      end: at + seconds,
      bars: playing.bars,
      as,
      tempo: 100,
      under: false,
    },
    ...bars.map(bar => ({
      ...bar,
      kind: 'bar' as const,
      ...place,
      start: at + bar.start,
      end: at + bar.end,
    })),
    ...notes.map(note => ({
      ...note,
      kind: 'note' as const,
      ...place,
      demonstration: as !== 'written',
      start: at + note.start,
      end: at + note.end,
    })),
  ]);
}

const timelineOf = (seconds: number, events: readonly TimelineEvent[]): Timeline => ({
  seconds,
  steps: [{ index: 0, title: '', start: 0, end: seconds }],
  events: [...events].sort((a, b) => a.start - b.start),
});

/** What is shorter, in seconds, is left by rounding alone. */
const shortest = 1e-6;

/** A part of what is played as if cut from the page: a note that sounds into it is struck at its start, one that sounds out of it ends with it. */
function cutOut(input: ExcerptInput, playing: Playing, bars: BarRange, part: Part | undefined): Playing {
  const { score } = input;
  const order = barsToPlay(score, bars);
  const bar = score.bars[order?.[0]?.bar ?? -1];
  if (part === undefined || order === undefined || bar === undefined) return playing;
  const clock = passageClock(score, order, speedsOf(score, input.lesson), 100);
  const passages = playing.passages.map(passage => {
    // Grace notes before the first bar make everything later.
    const zero = passage.bars[0]?.start ?? 0;
    const at = (moment: Fraction): number => zero + clock(subtract(moment, bar.start));
    const [from, to] = [at(part.start), at(part.end)];
    const cut = <T extends { readonly start: number; readonly end: number }>(spans: readonly T[]) =>
      spans
        .map(span => ({
          ...span,
          start: Math.max(span.start, from) - from,
          end: Math.min(span.end, to) - from,
        }))
        .filter(({ start, end }) => end - start > shortest);
    return { ...passage, seconds: to - from, bars: cut(passage.bars), notes: cut(passage.notes) };
  });
  return { ...playing, passages, seconds: passages[0]?.seconds ?? 0 };
}

/** A timeline of an excerpt alone, from 0; `undefined` where its bars are not in the piece or have no chord to show. */
export function excerptTimeline(input: ExcerptInput, excerpt: Excerpt): Timeline | undefined {
  const span = { source: input.score.source, start: 0, end: 0 };
  const { first, last, as, part } = excerpt;
  const bars = { first, last, span };
  const whole = performPlay(
    input,
    { kind: 'play', bars, as, tempo: 100, times: 1, under: false, span },
    defaultSilences,
    0,
  ).value;
  const playing = cutOut(input, whole, bars, part);
  if (playing.seconds <= 0) return undefined;
  const rounds = Math.max(1, Math.ceil((excerpt.roundFor ?? 0) / playing.seconds));
  const events = Array.from({ length: rounds }, (_, round) =>
    eventsOf(playing, excerpt, round * playing.seconds),
  );
  return timelineOf(rounds * playing.seconds, events.flat());
}

const demonstrations = ['stack', 'block', 'arpeggio'] as const satisfies readonly PlayStyle[];

/**
 * Every note that an excerpt of a score can strike, whatever a listener picks: the sounds that a page needs besides those of its timeline.
 * Their times mean nothing.
 */
export function excerptNotes(input: ExcerptInput): readonly NoteEvent[] {
  const { score } = input;
  const [first = '', last = ''] = [score.bars[0]?.label, score.bars.at(-1)?.label];
  const whole = (['written', ...demonstrations] as const).map(as =>
    excerptTimeline(input, { first, last, as }),
  );
  const single = noteTimeline(score, score.notes);
  return [...whole, single].flatMap(
    timeline => timeline?.events.filter(event => event.kind === 'note') ?? [],
  );
}

/** How long a single note is held, in seconds, and how hard it is struck; common practice. */
const noteSeconds = 1.2;
const noteVelocity = 80;

/** A timeline of one written note, or of the notes that are struck together, whatever their written length. */
export function noteTimeline(score: Score, notes: readonly Note[]): Timeline {
  const at = { ...place, start: 0, end: noteSeconds };
  const bar = notes[0]?.bar ?? 0;
  const label = score.bars[bar]?.label ?? '';
  const voices: ReadonlySet<VoiceId> = new Set(notes.map(({ voice }) => voice));
  return timelineOf(noteSeconds, [
    {
      kind: 'passage',
      ...at,
      bars: { first: label, last: label },
      as: 'written',
      tempo: 100,
      under: false,
      ...(voices.size === 1 && notes[0] !== undefined ? { voice: notes[0].voice } : {}),
    },
    { kind: 'bar', ...at, bar, pass: 0 },
    ...notes.map(({ id, pitch, voice }) => ({
      kind: 'note' as const,
      ...at,
      midi: midiOf(pitch),
      velocity: noteVelocity,
      voice,
      notes: [id],
      demonstration: false,
    })),
  ]);
}
