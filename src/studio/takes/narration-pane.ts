import { html } from '../../player/index.js';
import type { Answers, Bridge, Cut, Payload, Problem, SpokenPart } from '../../bridge/index.js';
import { afterPause } from '../after-pause.js';
import { problemWords } from '../problem-words.js';
import { ableButton, setAble } from './able.js';
import { recordingMaker } from './make-recording.js';
import type { MadeRecording } from './make-recording.js';
import { microphoneBar } from './microphone-bar.js';
import { isRecorded, isWhole, nextToRecord, partAt } from './part-state.js';
import { recordBar } from './record-bar.js';
import { recordingList } from './recording-list.js';
import { scriptView } from './script-view.js';
import { clock } from './seconds.js';
import { staleNote } from './stale-note.js';
import { strayNote } from './stray-note.js';
import { takeView } from './take-view.js';
import { textList } from './text-list.js';

/** A pause in typing after which the texts are read anew, in milliseconds. */
const pause = 400;

export interface NarrationHandlers {
  /** The lesson's absolute path and its text; `undefined` where none is open. */
  readonly lesson: () => { readonly path: string; readonly text: string } | undefined;
  /** The place of the cursor in the text. */
  readonly cursor: () => number;
  readonly goTo: (from: number, to: number) => void;
  /** Another sound speaks a text now. */
  readonly changed: () => void;
}

export interface NarrationPane {
  readonly element: HTMLElement;
  readonly isOpen: () => boolean;
  /** Opens at the text in which the cursor stands. */
  readonly open: () => void;
  /** Closes the microphone as well; a recording that runs is ended and kept. */
  readonly close: () => void;
  /** The text was edited, or another lesson stands there. */
  readonly edited: () => void;
  /** Whether there is a recording that is on no disk yet. */
  readonly isUnsaved: () => boolean;
  /** Whether the window may be left: nothing is recorded that would be lost, or the user does not want it. */
  readonly mayLeave: () => Promise<boolean>;
}

/**
 * Where the educator records her narration, text by text: the script, the microphone and its level, what she has recorded, and which of it
 * speaks. The host writes every recording down as soon as it is made.
 */
export function narrationPane(bridge: Bridge, handlers: NarrationHandlers): NarrationPane {
  let takes: Answers['takes'] | undefined;
  let chosen: string | undefined;
  let asked = 0;
  /** The lesson that `takes` are of. */
  let shownPath: string | undefined;

  const part = (): SpokenPart | undefined => takes?.parts.find(({ id }) => id === chosen);
  const summary = html('p', { class: 'quiet' });
  const status = html('p', { role: 'status', class: 'status' });
  const trouble = html('p', { role: 'alert', class: 'trouble' });
  const note = html('div', { class: 'stale-note' });
  const tell = (words: string): void => {
    status.textContent = words;
  };
  const tellProblem = (problem: Problem): void => {
    trouble.textContent = problemWords(problem);
  };

  const microphone = microphoneBar(() => {
    drawRecorder();
  });
  const { recorder } = microphone;
  const maker = recordingMaker(bridge, recorder, {
    changed: () => {
      drawRecorder();
    },
    trouble: words => {
      trouble.textContent = words;
    },
  });
  const list = textList(id => {
    choose(id);
  });
  const script = scriptView(() => {
    const { from, to } = part() ?? { from: 0, to: 0 };
    handlers.goTo(from, to);
  });
  const record = recordBar({
    record: withCountIn => void makeRecording(withCountIn),
    stop: recorder.stop,
    next: () => {
      const waiting = nextToRecord(takes?.parts ?? [], chosen);
      if (waiting !== undefined) choose(waiting.id);
      record.focus();
    },
  });
  const view = takeView(bridge, {
    cut: cut => {
      const recording = part()?.take?.recording;
      const said = cut === undefined ? 'The silence at both ends is left out again.' : 'The ends are set.';
      if (recording !== undefined) void use({ recording, ...(cut === undefined ? {} : { cut }) }, said);
    },
    trouble: tellProblem,
  });
  const recordings = recordingList({
    listen: recording => {
      const path = handlers.lesson()?.path;
      if (path !== undefined && chosen !== undefined) void view.listen(path, chosen, recording);
    },
    keep: recording => void use({ recording }, `Recording ${String(recording)} speaks this text now.`),
  });
  const undo = ableButton('Undo', () => void change('undoTake', {}, 'Undone.'));
  const voice = ableButton(
    'Let the voice speak',
    () => void use({}, 'The voice speaks this text; the recordings are kept.'),
  );
  const strays = strayNote(() => void follow());
  const stage = html(
    'div',
    { class: 'stage' },
    script.element,
    microphone.element,
    record.element,
    maker.element,
    trouble,
    status,
    note,
    view.element,
    recordings.element,
    html('div', { class: 'row' }, undo, voice),
  );
  const element = html(
    'section',
    { class: 'pane narration-pane', 'aria-label': 'Narration' },
    html('header', { class: 'row' }, html('h2', {}, 'Narration'), summary, strays.element),
    list.element,
    stage,
  );
  element.hidden = true;

  function drawRecorder(): void {
    const state = recorder.state();
    const [now, parts] = [part(), takes?.parts ?? []];
    const isRunning = state.kind === 'counting' || state.kind === 'recording';
    record.show(state, now !== undefined && !maker.hasUnkept(), nextToRecord(parts, chosen) !== undefined);
    for (const other of [list.element, recordings.element, view.element]) other.inert = isRunning;
    setAble(undo, !isRunning && now?.canUndo === true);
    setAble(voice, !isRunning && now?.take !== undefined);
  }
  drawRecorder();
  const drawSummary = ({ parts, seconds }: Answers['takes']): void => {
    const whole = parts.filter(isWhole);
    const stale = parts.filter(({ take }) => take?.stale === true).length;
    summary.textContent = [
      ...(seconds === undefined ? [] : [`the walkthrough lasts ${clock(seconds)}`]),
      `${String(whole.filter(one => isRecorded(one, parts)).length)} of ${String(whole.length)} texts recorded`,
      ...(stale === 0 ? [] : [`${String(stale)} stale`]),
    ].join(' · ');
  };
  const draw = (): void => {
    const path = handlers.lesson()?.path;
    if (takes === undefined || path === undefined) return;
    const now = part();
    drawSummary(takes);
    strays.show(takes.strays);
    list.show(takes, chosen);
    script.show(now, takes.steps[now?.step ?? 0] ?? '');
    note.replaceChildren(...(now === undefined ? [] : staleNote(now)));
    recordings.show(now);
    drawRecorder();
    void view.show(path, now);
  };
  const choose = (id: string): void => {
    view.stop();
    chosen = id;
    trouble.textContent = '';
    tell('');
    draw();
  };

  const refresh = async (): Promise<void> => {
    const lesson = handlers.lesson();
    if (lesson === undefined || element.hidden) return;
    const turn = ++asked;
    const answer = await bridge.ask('takes', lesson);
    if (turn !== asked) return;
    if (!answer.ok) {
      if (shownPath !== lesson.path) summary.textContent = '';
      tellProblem(answer.problem);
      return;
    }
    trouble.textContent = '';
    takes = answer.value;
    const isOther = shownPath !== lesson.path;
    shownPath = lesson.path;
    if (isOther || part() === undefined) chosen = partAt(takes.parts, handlers.cursor())?.id;
    draw();
  };

  /** Changes who speaks the chosen text, and says so. */
  async function change<N extends 'useTake' | 'undoTake'>(
    name: N,
    how: Omit<Payload<N>, 'path' | 'id'>,
    said: string,
  ): Promise<void> {
    const lesson = handlers.lesson();
    if (lesson === undefined || chosen === undefined) return;
    view.stop();
    // The compiler does not join the parts of a payload that is known by its name only.
    const answer = await bridge.ask(name, { path: lesson.path, id: chosen, ...how } as Payload<N>);
    await refresh();
    if (answer.ok) {
      tell(said);
      handlers.changed();
    } else tellProblem(answer.problem);
  }
  const use = (how: { readonly recording?: number; readonly cut?: Cut }, said: string): Promise<void> =>
    change('useTake', how, said);

  /** Takes follow their words. */
  async function follow(): Promise<void> {
    const lesson = handlers.lesson();
    if (lesson === undefined) return;
    const answer = await bridge.ask('moveTakes', lesson);
    view.forget();
    await refresh();
    if (answer.ok) {
      const { moved } = answer.value;
      tell(
        moved === 1
          ? 'One take is with its words again.'
          : `${String(moved)} takes are with their words again.`,
      );
      record.focus();
      handlers.changed();
    } else tellProblem(answer.problem);
  }

  async function makeRecording(withCountIn: boolean): Promise<void> {
    const [lesson, now] = [handlers.lesson(), part()];
    if (lesson === undefined || now === undefined) return;
    view.stop();
    trouble.textContent = '';
    tell('');
    if (!(await microphone.ready())) return;
    const made = await maker.make(lesson.path, now, withCountIn);
    if (made !== undefined) await show(now.id, made);
  }
  /** Shows a recording that has been made. */
  async function show(id: string, { number, room, endedBy }: MadeRecording): Promise<void> {
    view.keepRoom(id, number, room);
    await refresh();
    tell(
      [
        ...(endedBy === 'microphone' ? ['The microphone has gone; what it heard until then is kept.'] : []),
        ...(endedBy === 'length' ? ['This is as long as a recording may be.'] : []),
        `Recording ${String(number)} is kept and speaks ${id} now.`,
      ].join(' '),
    );
    handlers.changed();
  }

  return {
    element,
    isOpen: () => !element.hidden,
    open: () => {
      element.hidden = false;
      const path = handlers.lesson()?.path;
      if (path === undefined) tell('Open a lesson first.');
      // The thread that lists them may be making a page first.
      if (path !== undefined && path !== shownPath) summary.textContent = 'the texts are being read …';
      if (path === shownPath) chosen = partAt(takes?.parts ?? [], handlers.cursor())?.id ?? chosen;
      void refresh();
    },
    close: () => {
      recorder.close();
      view.stop();
      element.hidden = true;
    },
    edited: afterPause(pause, () => void refresh()),
    isUnsaved: maker.isUnsaved,
    mayLeave: maker.mayLeave,
  };
}
