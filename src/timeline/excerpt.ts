import type { PlayStyle } from '../lesson/index.js';
import { midiOf } from '../score/index.js';
import type { Note, Score, VoiceId } from '../score/index.js';
import type { NoteEvent, Timeline, TimelineEvent } from './model.js';
import { performPlay } from './perform-play.js';
import type { PlayInput, Playing } from './perform-play.js';
import { defaultSilences } from './silence.js';

export type ExcerptInput = Omit<PlayInput, 'versions'>;

/** What a listener picks out of a score: bars by their labels, and how they are played. */
export interface Excerpt {
  readonly first: string;
  readonly last: string;
  readonly as: PlayStyle;
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

/** A timeline of an excerpt alone, from 0; `undefined` where its bars are not in the piece or have no chord to show. */
export function excerptTimeline(input: ExcerptInput, excerpt: Excerpt): Timeline | undefined {
  const span = { source: input.score.source, start: 0, end: 0 };
  const { first, last, as } = excerpt;
  const playing = performPlay(
    input,
    { kind: 'play', bars: { first, last, span }, as, tempo: 100, times: 1, under: false, span },
    defaultSilences,
    0,
  ).value;
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
