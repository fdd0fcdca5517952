import type { Diagnostic, Result } from '../diagnostics/index.js';
import type { Action, AskAction, Lesson, PlayAction } from '../lesson/index.js';
import type { Score } from '../score/index.js';
import type { ChordsIn } from './demonstration.js';
import { estimateSpeech } from './estimate-speech.js';
import type { PauseReason, Speech, Timeline, TimelineEvent, TimelineStep } from './model.js';
import { performPlay } from './perform-play.js';
import type { Playing } from './perform-play.js';
import { silencesOf } from './silence.js';
import type { Silences } from './silence.js';
import { answerId, questionText } from './spoken-texts.js';

export interface TimelineInput {
  readonly lesson: Lesson;
  readonly score: Score;
  /** Other versions of the piece by the path that `play.score` names. */
  readonly versions?: ReadonlyMap<string, Score>;
  /** Harmonies for stacked, block and arpeggiated chords. */
  readonly chordsIn: ChordsIn;
  /** Measured speech by the ids of `spokenTexts`; what is missing is estimated at the narrator's pace. */
  readonly speech?: ReadonlyMap<string, Speech>;
  /** Those of the lesson where absent. */
  readonly silences?: Silences;
}

/** What has been scheduled so far. */
interface Schedule {
  now: number;
  /** When the last example fell silent and the last word was spoken. */
  exampleEnd: number;
  wordsEnd: number;
  readonly events: TimelineEvent[];
}

interface Place {
  readonly step: number;
  readonly action: number;
}

const kindOrder: readonly TimelineEvent['kind'][] = ['passage', 'bar', 'note', 'speech', 'pause', 'question'];

/** Microseconds: the last step from exact time to the numbers that every output prints. */
const rounded = (seconds: number): number => Math.round(seconds * 1e6) / 1e6;

/**
 * Schedules a lesson over its score. Nothing overlaps but what the lesson asks for with `under`; every stretch without sound is a
 * pause with a reason, so that events follow one another without a gap. Same input, same timeline.
 *
 * Findings: T0001 bars that are not in the piece, T0002 a voice that is not, T0003 a version of the score that was not given,
 * T0004 no chord to demonstrate, T0005 `under` with nothing spoken over it. The action concerned is left out.
 */
export function buildTimeline(input: TimelineInput): Result<Timeline> {
  const { lesson } = input;
  const silences = input.silences ?? silencesOf(lesson);
  const diagnostics: Diagnostic[] = [];
  const schedule: Schedule = { now: 0, exampleEnd: -Infinity, wordsEnd: -Infinity, events: [] };
  const starts: (number | undefined)[] = [];

  pause(schedule, { step: 0, action: 0 }, 'lead-in', silences.leadIn);
  let previous: Place = { step: 0, action: 0 };
  lesson.steps.forEach((step, stepIndex) => {
    let stepStart: number | undefined;
    const begin = (place: Place, reason: 'example' | 'words') => {
      silence(schedule, stepStart === undefined ? previous : place, reason, silences);
      stepStart ??= schedule.now;
    };
    for (let index = 0; index < step.script.length; index += 1) {
      const action = step.script[index];
      if (action === undefined) continue;
      const place = { step: stepIndex, action: index };
      switch (action.kind) {
        case 'play': {
          const next = step.script[index + 1];
          const over = action.under ? spokenOver(input, next) : undefined;
          if (action.under && over === undefined) diagnostics.push(nothingSpokenOver(action));
          const atLeast = over === undefined ? 0 : silences.aloneUnder + over.speech.seconds;
          const playing = performPlay(input, action, silences, atLeast);
          diagnostics.push(...playing.diagnostics);
          if (playing.value.passages.length > 0) {
            begin(place, 'example');
            const start = schedule.now;
            playAt(schedule, place, action, playing.value, over !== undefined, start);
            if (over !== undefined) {
              speakAt(
                schedule,
                { step: stepIndex, action: index + 1 },
                over,
                start + silences.aloneUnder,
                true,
              );
              index += 1;
            }
            schedule.now = Math.max(start + playing.value.seconds, schedule.now);
          }
          break;
        }
        case 'say':
          begin(place, 'words');
          speakAt(schedule, place, speechOf(input, action.id, action.text), schedule.now, false);
          break;
        case 'wait':
          stepStart ??= schedule.now;
          pause(schedule, place, 'wait', action.seconds);
          forgetSilences(schedule);
          break;
        case 'ask':
          begin(place, 'words');
          ask(schedule, place, action, input, silences);
          break;
      }
      previous = { step: stepIndex, action: index };
    }
    starts.push(stepStart);
  });
  pause(schedule, previous, 'ring-out', silences.ringOut);

  const seconds = rounded(schedule.now);
  // A step without any action has no time of its own: it stands where the next one starts.
  const startOf = (index: number): number =>
    starts.slice(index).find(start => start !== undefined) ?? schedule.now;
  const steps = lesson.steps.map((step, index): TimelineStep => ({
    index,
    title: step.title,
    start: index === 0 ? 0 : rounded(startOf(index)),
    end: index === lesson.steps.length - 1 ? seconds : rounded(startOf(index + 1)),
  }));
  const events = schedule.events
    .map(event => ({ ...event, start: rounded(event.start), end: rounded(event.end) }))
    .sort((a, b) => a.start - b.start || kindOrder.indexOf(a.kind) - kindOrder.indexOf(b.kind));
  return { value: { seconds, steps, events }, diagnostics };
}

interface Utterance {
  readonly id: string;
  readonly text: string;
  readonly speech: Speech;
  readonly measured: boolean;
}

function speechOf(input: TimelineInput, id: string, text: string): Utterance {
  const measured = input.speech?.get(id);
  return {
    id,
    text,
    speech: measured ?? estimateSpeech(text, input.lesson.narrator.pace),
    measured: measured !== undefined,
  };
}

const spokenOver = (input: TimelineInput, next: Action | undefined): Utterance | undefined =>
  next?.kind === 'say' ? speechOf(input, next.id, next.text) : undefined;

function pause(schedule: Schedule, place: Place, reason: PauseReason, seconds: number): void {
  if (rounded(seconds) <= 0) return;
  schedule.events.push({ kind: 'pause', reason, ...place, start: schedule.now, end: schedule.now + seconds });
  schedule.now += seconds;
}

/** The silence that the next sound needs after what was heard last. */
function silence(schedule: Schedule, place: Place, next: 'example' | 'words', silences: Silences): void {
  const afterExample =
    schedule.exampleEnd + (next === 'words' ? silences.afterExample : silences.betweenExamples);
  const afterWords = schedule.wordsEnd + (next === 'words' ? silences.betweenWords : silences.beforeExample);
  const reasons: Readonly<Record<typeof next, readonly [PauseReason, PauseReason]>> = {
    words: ['after an example', 'between words'],
    example: ['between examples', 'before an example'],
  };
  const [example, words] = reasons[next];
  const until = Math.max(afterExample, afterWords);
  if (until > schedule.now)
    pause(schedule, place, afterExample >= afterWords ? example : words, until - schedule.now);
}

/** After a silence of the author's own nothing more is added. */
function forgetSilences(schedule: Schedule): void {
  schedule.exampleEnd = -Infinity;
  schedule.wordsEnd = -Infinity;
}

function playAt(
  schedule: Schedule,
  place: Place,
  action: PlayAction,
  playing: Playing,
  under: boolean,
  start: number,
): void {
  const score = action.score === undefined ? {} : { score: action.score.value };
  const { voice, voiceName, chords, rounds } = playing;
  const what = {
    ...(voice === undefined ? {} : { voice }),
    ...(voiceName === undefined ? {} : { voiceName }),
    ...(chords === undefined ? {} : { chords }),
    ...(rounds === 1 ? {} : { rounds }),
  };
  playing.passages.forEach((passage, time) => {
    const at = start + passage.start;
    const end = at + passage.seconds;
    schedule.events.push({
      kind: 'passage', ...place, start: at, end, bars: playing.bars, as: action.as, tempo: action.tempo, ...what, ...score, under,
    }); // prettier-ignore
    for (const bar of passage.bars) {
      schedule.events.push({
        ...bar,
        kind: 'bar',
        ...place,
        pass: bar.pass,
        ...score,
        start: at + bar.start,
        end: at + bar.end,
      });
    }
    for (const note of passage.notes) {
      const demonstration = action.as !== 'written';
      schedule.events.push({
        ...note,
        kind: 'note',
        ...place,
        demonstration,
        ...score,
        start: at + note.start,
        end: at + note.end,
      });
    }
    const before = playing.passages[time - 1];
    if (before !== undefined) {
      const from = start + before.start + before.seconds;
      if (at > from)
        schedule.events.push({ kind: 'pause', reason: 'between examples', ...place, start: from, end: at });
    }
  });
  schedule.now = start + playing.seconds;
  schedule.exampleEnd = schedule.now;
}

function speakAt(schedule: Schedule, place: Place, utterance: Utterance, start: number, over: boolean): void {
  const { id, text, speech, measured } = utterance;
  const end = start + speech.seconds;
  const words = speech.words.map(word => ({
    text: text.slice(word.from, word.to),
    from: word.from,
    to: word.to,
    start: rounded(start + word.start),
    end: rounded(start + word.end),
  }));
  schedule.events.push({ kind: 'speech', ...place, start, end, say: id, text, words, over, measured });
  schedule.now = Math.max(schedule.now, end);
  schedule.wordsEnd = end;
}

function ask(
  schedule: Schedule,
  place: Place,
  action: AskAction,
  input: TimelineInput,
  silences: Silences,
): void {
  speakAt(schedule, place, speechOf(input, action.id, questionText(action)), schedule.now, false);
  schedule.events.push({
    kind: 'question',
    ...place,
    ask: action.id,
    start: schedule.now,
    end: schedule.now + silences.thinking,
  });
  schedule.now += silences.thinking;
  forgetSilences(schedule);
  if (action.answer.trim() !== '')
    speakAt(schedule, place, speechOf(input, answerId(action), action.answer), schedule.now, false);
}

function nothingSpokenOver(action: PlayAction): Diagnostic {
  return {
    code: 'T0005',
    severity: 'warning',
    message: '`under` has no effect here: no `say` follows',
    span: action.span,
    help: 'put the words that are spoken over it in a `say` right after this `play`, or remove `under`',
  };
}
