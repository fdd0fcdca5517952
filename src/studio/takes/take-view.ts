import { html } from '../../player/index.js';
import type { Bridge, Cut, Problem, SpokenPart } from '../../bridge/index.js';
import { ableButton, setAble } from './able.js';
import { judgeRecording } from './judge-recording.js';
import { listenTo } from './listen.js';
import type { Listening } from './listen.js';
import { isProblem, soundsOf } from './sounds.js';
import type { Sound } from './sounds.js';
import { waveformView } from './waveform-view.js';

export interface TakeView {
  readonly element: HTMLElement;
  /** Shows the take of a text of a lesson, or nothing. */
  readonly show: (path: string, part: SpokenPart | undefined) => Promise<void>;
  /** Plays a recording of a text from where its speech begins to where it ends; where something is heard already, that is stopped instead. */
  readonly listen: (path: string, id: string, recording: number) => Promise<void>;
  readonly stop: () => void;
  /** Recordings have other ids now. */
  readonly forget: () => void;
  /** What the microphone heard just before a recording, by which its noise is judged. */
  readonly keepRoom: (id: string, recording: number, room: Float32Array) => void;
}

export interface TakeViewHandlers {
  /** The take is to be kept between other ends; without them between those that are found. */
  readonly cut: (cut: Cut | undefined) => void;
  readonly trouble: (problem: Problem) => void;
}

const hearLabels = { listen: 'Listen', stop: 'Stop listening' } as const;

/** The take of a text: its shape and its ends, what is to be said of it, and how it sounds. */
export function takeView(bridge: Bridge, handlers: TakeViewHandlers): TakeView {
  const sounds = soundsOf(bridge);
  const rooms = new Map<string, Float32Array>();
  let player: AudioContext | undefined;
  let listening: Listening | undefined;
  /** The take that is shown. */
  let shown: { readonly cut: Cut; readonly sound: Sound } | undefined;
  let turn = 0;

  const wave = waveformView(handlers.cut);
  const remarks = html('ul', { class: 'remarks' });
  const hear = html('button', { type: 'button' }, hearLabels.listen);
  const found = ableButton('Ends as found', () => {
    handlers.cut(undefined);
  });
  const element = html(
    'section',
    { class: 'take', 'aria-label': 'Take' },
    wave.element,
    html('div', { class: 'row' }, hear, found),
    html('div', { role: 'status' }, remarks),
  );
  element.hidden = true;
  hear.addEventListener('click', () => {
    if (listening !== undefined) listening.stop();
    else if (shown !== undefined) void play(shown.sound, shown.cut, true);
  });

  const play = async (sound: Sound, stretch: Cut, isShown: boolean): Promise<void> => {
    player ??= new AudioContext();
    await player.resume();
    const own = listenTo(player, sound.buffer, stretch, () => {
      if (listening !== own) return;
      listening = undefined;
      hear.textContent = hearLabels.listen;
      wave.mark(undefined);
    });
    listening = own;
    hear.textContent = hearLabels.stop;
    const follow = (): void => {
      if (listening !== own || !isShown) return;
      wave.mark(own.at());
      requestAnimationFrame(follow);
    };
    follow();
  };

  return {
    element,
    show: async (path, part) => {
      const own = ++turn;
      const take = part?.take;
      if (part === undefined || take === undefined || take.trouble !== undefined) {
        listening?.stop();
        shown = undefined;
        element.hidden = true;
        remarks.replaceChildren();
        return;
      }
      const sound = await sounds.fetch(path, part.id, take.recording);
      if (own !== turn) return;
      element.hidden = isProblem(sound);
      if (isProblem(sound)) {
        handlers.trouble(sound);
        return;
      }
      shown = { cut: take.cut ?? sound.ends, sound };
      const room = rooms.get(`${part.id}/${String(take.recording)}`) ?? new Float32Array();
      const judged = judgeRecording(sound.samples, room, sound.buffer.sampleRate);
      wave.show(sound.samples, sound.buffer.duration, shown.cut, judged.overs);
      setAble(found, take.cut !== undefined);
      remarks.replaceChildren(
        ...judged.remarks.map(({ kind, words }) => html('li', { class: `is-${kind}` }, words)),
      );
    },
    listen: async (path, id, recording) => {
      if (listening !== undefined) {
        listening.stop();
        return;
      }
      const sound = await sounds.fetch(path, id, recording);
      if (isProblem(sound)) handlers.trouble(sound);
      else await play(sound, sound.ends, false);
    },
    stop: () => {
      listening?.stop();
    },
    forget: () => {
      sounds.forget();
      rooms.clear();
    },
    keepRoom: (id, recording, room) => {
      rooms.set(`${id}/${String(recording)}`, room);
    },
  };
}
