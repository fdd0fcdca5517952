import type { Diagnostic, Result } from '../diagnostics/index.js';
import type { Lesson, LessonSound, PlayAction } from '../lesson/index.js';
import { add } from '../score/index.js';
import type { Score, VoiceId } from '../score/index.js';
import { barsToPlay, writtenBars } from './bar-range.js';
import { demonstrate, distinctChords } from './demonstration.js';
import type { ChordsIn, HeardChord } from './demonstration.js';
import { passageClock } from './passage-clock.js';
import type { Silences } from './silence.js';
import { pedalChanges } from './pedal.js';
import { speedsOf } from './tempo.js';
import { voiceInWords, voiceNamed, voicesInWords } from './voice-named.js';
import { writtenPassage } from './written-notes.js';
import type { PassageBar, PassageNote } from './written-notes.js';

/** What a `play` sounds like, in seconds from its own start. */
export interface Playing {
  readonly seconds: number;
  readonly bars: { readonly first: string; readonly last: string };
  readonly voice?: VoiceId;
  readonly voiceName?: string;
  /** How many chords a demonstration shows in each round. */
  readonly chords?: number;
  /** How often the bars go round within each passage. */
  readonly rounds: number;
  /** One for each of its `times`. */
  readonly passages: readonly {
    readonly start: number;
    readonly seconds: number;
    readonly bars: readonly PassageBar[];
    readonly notes: readonly PassageNote[];
  }[];
}

interface Passage {
  readonly seconds: number;
  readonly bars: readonly PassageBar[];
  readonly notes: readonly PassageNote[];
}

export interface PlayInput {
  readonly lesson: Pick<Lesson, 'tempo' | 'beat'> & { readonly sound?: Pick<LessonSound, 'pedal'> };
  readonly score: Score;
  readonly versions?: ReadonlyMap<string, Score>;
  readonly chordsIn: ChordsIn;
}

const silent = (bars: Playing['bars']): Playing => ({ seconds: 0, bars, rounds: 1, passages: [] });

/**
 * Performs one `play` action. `atLeast` is how many seconds the music must last because words are spoken over it; only a block chord,
 * which can be held, stretches to it. Findings T0001 to T0004; then no passage is returned.
 */
export function performPlay(
  input: PlayInput,
  action: PlayAction,
  silences: Silences,
  atLeast: number,
): Result<Playing> {
  const score = action.score === undefined ? input.score : input.versions?.get(action.score.value);
  if (score === undefined) return { value: silent(action.bars), diagnostics: [unknownVersion(action)] };
  const inOrder = barsToPlay(score, action.bars);
  if (inOrder === undefined) return { value: silent(action.bars), diagnostics: [unknownBars(action, score)] };
  const voice = action.voice === undefined ? undefined : voiceNamed(score, action.voice.value);
  if (action.voice !== undefined && voice === undefined)
    return { value: silent(action.bars), diagnostics: [unknownVoice(action, score)] };

  const rounds = Math.max(1, Math.trunc(action.loop ?? 1));
  const order = Array.from({ length: rounds }).flatMap(() => inOrder);
  const pedal = input.lesson.sound?.pedal === true;
  const once =
    action.as === 'written'
      ? writtenPassage(
          score,
          order,
          passageClock(score, order, speedsOf(score, input.lesson), action.tempo),
          voice,
          pedal ? pedalChanges(score, order, input.chordsIn) : undefined,
        )
      : demonstrated(score, action, action.as, input.chordsIn, rounds, atLeast);
  if (once === undefined) return { value: silent(action.bars), diagnostics: [nothingToDemonstrate(action)] };
  // As written, since after a da capo the last bar that sounds is an earlier one.
  const heard = once.bars.map(({ bar }) => bar);
  const bars = {
    first: score.bars[Math.min(...heard)]?.label ?? action.bars.first,
    last: score.bars[Math.max(...heard)]?.label ?? action.bars.last,
  };
  const times = Math.max(1, Math.trunc(action.times));
  const passages = Array.from({ length: times }, (_, time) => ({
    ...once,
    bars: once.bars.map(bar => ({ ...bar, pass: bar.pass + time * passesIn(once.bars, bar.bar) })),
    start: time * (once.seconds + silences.betweenExamples),
  }));
  const seconds = times * once.seconds + (times - 1) * silences.betweenExamples;
  const alone = voice === undefined ? {} : { voice, voiceName: voiceInWords(score, voice) };
  const chords = action.as === 'written' ? {} : { chords: once.bars.length / rounds };
  return { value: { seconds, bars, rounds, passages, ...alone, ...chords }, diagnostics: [] };
}

const passesIn = (bars: readonly PassageBar[], index: number): number =>
  bars.filter(bar => bar.bar === index).length;

/** One demonstration after another for each harmony of the range; `undefined` where there is none. */
function demonstrated(
  score: Score,
  action: PlayAction,
  as: 'stack' | 'block' | 'arpeggio',
  chordsIn: ChordsIn,
  rounds: number,
  atLeast: number,
): Passage | undefined {
  const written = writtenBars(score, action.bars);
  const first = score.bars[written?.first ?? 0];
  const last = score.bars[written?.last ?? 0];
  if (written === undefined || first === undefined || last === undefined) return undefined;
  const once = distinctChords(chordsIn(score, first.start, add(last.start, last.length)));
  const chords = Array.from({ length: rounds }).flatMap(() => once);
  const notes: PassageNote[] = [];
  const bars: PassageBar[] = [];
  const heard = new Map<number, number>();
  let at = 0;
  for (const chord of chords) {
    const { seconds, notes: tones } = demonstrate(chord, as, action.tempo, atLeast / chords.length);
    const bar = barOf(score, chord);
    const pass = heard.get(bar) ?? 0;
    heard.set(bar, pass + 1);
    bars.push({ start: at, end: at + seconds, bar, pass });
    notes.push(...tones.map(tone => ({ ...tone, start: at + tone.start, end: at + tone.end })));
    at += seconds;
  }
  return chords.length === 0 ? undefined : { seconds: at, bars, notes };
}

function barOf(score: Score, chord: HeardChord): number {
  return score.bars.findLast(bar => bar.start.n * chord.start.d <= chord.start.n * bar.start.d)?.index ?? 0;
}

function unknownBars(action: PlayAction, score: Score): Diagnostic {
  const { first, last } = action.bars;
  const range = first === last ? `bar \`${first}\` is` : `bars \`${first}-${last}\` are`;
  const from = score.bars[0]?.label ?? '';
  const to = score.bars.at(-1)?.label ?? '';
  return {
    code: 'T0001',
    severity: 'error',
    message: `${range} not in the piece`,
    span: action.bars.span,
    notes: [score.bars.length === 0 ? 'the piece has no bars' : `the piece has the bars ${from} to ${to}`],
  };
}

function unknownVoice(action: PlayAction, score: Score): Diagnostic {
  return {
    code: 'T0002',
    severity: 'error',
    message: `there is no voice \`${action.voice?.value ?? ''}\` in the score`,
    span: action.voice?.span ?? action.span,
    help: voicesInWords(score),
  };
}

function unknownVersion(action: PlayAction): Diagnostic {
  return {
    code: 'T0003',
    severity: 'error',
    message: `the version \`${action.score?.value ?? ''}\` of the piece could not be read`,
    span: action.score?.span ?? action.span,
  };
}

function nothingToDemonstrate(action: PlayAction): Diagnostic {
  return {
    code: 'T0004',
    severity: 'warning',
    message: `there is no chord in these bars to play as \`${action.as}\``,
    span: action.span,
    notes: ['a chord is gathered from the notes of the bar; these bars are silent or have no reading'],
    help: 'use `as: written`, or name bars that have a harmony',
  };
}
