import { dirname, join } from 'node:path';
import type { Worker } from 'node:worker_threads';
import { isRequestName, readPayload } from '../bridge/index.js';
import type { Answer, Answers, HostEvent, Payload, RequestName } from '../bridge/index.js';
import { granted, refused, refusedBySystem } from './answer.js';
import type { Refusal } from './answer.js';
import { lane } from './bench/lane.js';
import { builds } from './build-lesson.js';
import { draftLessonOver } from './draft-lesson.js';
import { backupsIn } from './files/backups.js';
import { browse } from './files/browse.js';
import type { Desk } from './files/desk.js';
import { journalIn } from './files/journal.js';
import { lessonTitle } from './files/lesson-title.js';
import { openLesson } from './files/open-lesson.js';
import { outOfReach, reachOf } from './files/reach.js';
import { readScoreBeside } from './files/read-score.js';
import { recentIn } from './files/recent.js';
import { saveLesson } from './files/save-lesson.js';
import { turns } from './files/turns.js';
import { watchFiles } from './files/watch-files.js';
import { previews } from './preview.js';
import { tapesIn } from './takes/tapes.js';

/** Lets the user choose a file or a folder in a dialog of the system; `undefined` where it was closed. */
export type ChooseFile = (what: Payload<'choose'>['what'], near: string) => Promise<string | undefined>;

export interface WorkshopOptions {
  /** Where browsing begins. Without dialogs it is the part of the disk that the window may name files in. */
  readonly folder: string;
  /** The lesson that the window opens first. */
  readonly lesson?: string;
  /** Where there are dialogs, the window may name only what was chosen in one, now or earlier, and what lies beside it. */
  readonly choose?: ChooseFile;
  /** Folder for unsaved work, former states and the list of recent lessons. */
  readonly state: string;
  /** Folder that keeps what was spoken. */
  readonly speech: string;
  readonly version: string;
  /** Starts the program of `bench/lesson-worker.ts`. */
  readonly newWorker: () => Worker;
}

/** The host of the window, however the two are connected. */
export interface Workshop {
  /** Answers a request. Whatever is sent is checked against the table first. */
  readonly answer: (name: string, payload: unknown) => Promise<Answer<unknown>>;
  /** @returns a function that stops listening */
  readonly listen: (heard: (event: HostEvent) => void) => () => void;
  /** Tells every window something. */
  readonly tell: (event: HostEvent) => void;
  /** A page that `preview` has answered with. */
  readonly page: (address: string) => Uint8Array | undefined;
  /** Ends the threads and the watching. */
  readonly close: () => Promise<void>;
}

type Handlers = {
  readonly [N in RequestName]: (payload: Payload<N>) => Promise<Answer<Answers[N]>>;
};

export async function workshop(options: WorkshopOptions): Promise<Workshop> {
  const { choose, state, speech, version } = options;
  const listeners = new Set<(event: HostEvent) => void>();
  const tell = (event: HostEvent): void => {
    for (const heard of listeners) heard(event);
  };
  const inTurn = turns();
  const recent = recentIn(state);
  const named = options.lesson === undefined ? [] : [dirname(options.lesson)];
  const earlier = choose === undefined ? [] : (await recent.list()).map(({ path }) => dirname(path));
  const reach = await reachOf([...(choose === undefined ? [options.folder] : earlier), ...named]);
  const desk: Desk = {
    reach,
    recent,
    inTurn,
    journal: journalIn(join(state, 'journal')),
    backups: backupsIn(join(state, 'former-states')),
    watcher: watchFiles(inTurn, tell),
  };
  // A page is wanted while an export runs, and a list of takes while a page is made.
  const lanes = {
    pages: lane(options.newWorker),
    exports: lane(options.newWorker),
    rest: lane(options.newWorker),
  };
  const pages = previews(lanes.pages, speech);
  const exports = builds(lanes.exports, speech, tell);
  const tapes = tapesIn(join(state, 'tapes'));
  let folder = options.folder;

  /** Does something with a lesson that the window may name. */
  const withLesson = async <T>(
    path: string,
    act: (real: string) => Promise<Answer<T> | undefined>,
  ): Promise<Answer<T>> => {
    const real = await reach.within(path);
    if (real === undefined) return outOfReach(path);
    return (await act(real)) ?? refused('the work was stopped');
  };
  const kept = async <T>(act: Promise<T>, failure: string, help?: string): Promise<Answer<T>> => {
    try {
      return granted(await act);
    } catch (error) {
      return refusedBySystem(error, failure, help);
    }
  };
  const unsavedKept = (act: Promise<void>): Promise<Answer<Readonly<Record<string, never>>>> =>
    kept(
      act.then(() => ({})),
      'unsaved work cannot be kept',
      'save the lesson soon',
    );
  const saveTake = async (payload: Payload<'saveTake'>): Promise<Answer<Answers['saveTake']> | undefined> => {
    const saved = await lanes.rest.run('save-take', payload);
    const { tape } = payload;
    if (saved?.ok === true && tape !== undefined)
      await inTurn(tape, () => tapes.drop(tape)).catch(() => undefined);
    return saved;
  };

  const handlers: Handlers = {
    begin: async () => {
      const unsaved = [];
      for (const { path, text } of await desk.journal.list())
        if ((await reach.within(path)) !== undefined) unsaved.push({ path, title: lessonTitle(text, path) });
      const known = [];
      for (const lesson of await recent.list())
        if ((await reach.within(lesson.path)) !== undefined) known.push(lesson);
      for (const path of await tapes.lessons())
        if ((await reach.within(path)) !== undefined && unsaved.every(other => other.path !== path))
          unsaved.push({ path, title: known.find(other => other.path === path)?.title ?? '' });
      return granted({
        dialogs: choose !== undefined,
        folder,
        recent: known,
        unsaved,
        version,
        ...(options.lesson === undefined ? {} : { lesson: options.lesson }),
      });
    },
    choose: async ({ what, near }) => {
      if (choose === undefined) return refused('this host has no dialogs');
      const path = await choose(what, near ?? folder);
      if (path === undefined) return granted({});
      const chosen = what === 'folder' ? path : dirname(path);
      await reach.extend(chosen);
      folder = chosen;
      return granted({ path });
    },
    browse: ({ folder: asked }) => browse(asked === '' ? folder : asked, reach),
    open: ({ path }) => openLesson(path, desk),
    draft: ({ score }) => draftLessonOver(score, desk, lanes.rest),
    readScore: ({ lesson, score }) => readScoreBeside(lesson, score, desk),
    save: payload => saveLesson(payload, desk),
    journal: ({ path, text, base }) =>
      withLesson(path, real =>
        inTurn(real, () =>
          unsavedKept(desk.journal.keep({ path: real, text, ...(base === undefined ? {} : { base }) })),
        ),
      ),
    forget: ({ path }) =>
      withLesson(path, real => inTurn(real, () => unsavedKept(desk.journal.forget(real)))),
    leave: () => Promise.resolve(granted({})),
    preview: ({ path, text }) => withLesson(path, real => pages.make(real, text)),
    build: payload =>
      withLesson(payload.path, async path => {
        const into = await reach.within(payload.folder);
        return into === undefined ? outOfReach(payload.folder) : exports.run({ ...payload, path }, into);
      }),
    cancel: ({ job }) => {
      exports.cancel(job);
      return Promise.resolve(granted({}));
    },
    takes: ({ path, text }) => withLesson(path, real => lanes.rest.run('takes', { path: real, text })),
    tape: payload =>
      withLesson(payload.path, path =>
        inTurn(payload.tape, () =>
          kept(
            tapes.add({ ...payload, path }).then(samples => ({ samples })),
            'the recording cannot be written down while it is made',
            'keep this window open until it has ended',
          ),
        ),
      ),
    cutOff: ({ path }) =>
      withLesson(path, async real =>
        granted({
          tapes: (await tapes.cutOff(real)).map(({ tape, id, words, sampleRate, pcm }) => ({
            tape,
            id,
            words,
            seconds: pcm.length / 2 / sampleRate,
          })),
        }),
      ),
    keepTape: ({ path, tape }) =>
      withLesson(path, async real => {
        const found = await tapes.find(tape);
        if (found?.path !== real) return refused('there is no such recording any more');
        const { id, words, pcm, sampleRate } = found;
        return saveTake({ path: real, id, words, pcm, sampleRate, tape });
      }),
    dropTape: ({ path, tape }) =>
      withLesson(path, () =>
        inTurn(tape, () =>
          kept(
            tapes.drop(tape).then(() => ({})),
            'the recording was not dropped',
          ),
        ),
      ),
    readTake: payload => withLesson(payload.path, path => lanes.rest.run('read-take', { ...payload, path })),
    saveTake: payload => withLesson(payload.path, path => saveTake({ ...payload, path })),
    useTake: payload => withLesson(payload.path, path => lanes.rest.run('use-take', { ...payload, path })),
    moveTakes: ({ path, text }) =>
      withLesson(path, real => lanes.rest.run('move-takes', { path: real, text })),
    undoTake: payload => withLesson(payload.path, path => lanes.rest.run('undo-take', { ...payload, path })),
  };

  const handle = async <N extends RequestName>(
    name: N,
    sent: unknown,
  ): Promise<Answer<Answers[N]> | Refusal> => {
    const read = readPayload(name, sent);
    return read.ok ? handlers[name](read.payload) : refused(`\`${name}\` was asked in a wrong way`, read.why);
  };

  return {
    tell,
    page: pages.page,
    listen: heard => {
      listeners.add(heard);
      return () => listeners.delete(heard);
    },
    answer: async (name, payload) =>
      isRequestName(name) ? handle(name, payload) : refused(`nothing is called \`${name}\``),
    close: async () => {
      desk.watcher.close();
      await Promise.all(Object.values(lanes).map(one => one.close()));
    },
  };
}
