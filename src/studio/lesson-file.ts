import { html } from '../player/index.js';
import type { Answers, Bridge, OpenedLesson } from '../bridge/index.js';
import { afterPause } from './after-pause.js';
import { askUser } from './ask-user.js';
import { chooseFile } from './choose-file.js';
import { problemWords } from './problem-words.js';

/** A pause in typing after which unsaved work is kept, in milliseconds. */
const journalPause = 1000;

/** The text of the lesson in the window. */
export interface EditedText {
  readonly text: () => string;
  /** Another lesson: nothing of the former one can be brought back. */
  readonly setText: (text: string) => void;
  /** Other words for the same lesson; one undo brings the former ones back. */
  readonly changeText: (text: string) => void;
}

export interface LessonFileHandlers {
  /** Another lesson stands in the window. */
  readonly opened: () => void;
  /** The same text has a file of another name now. */
  readonly renamed: () => void;
  /** Words came from the disk. */
  readonly changed: () => void;
  /** The file and the text may agree now, or no longer. */
  readonly settled: () => void;
  readonly tell: (message: string) => void;
}

/** The lesson in the window and its file on disk, in step. */
export interface LessonFile {
  /** Absolute path; `undefined` where no lesson is open. */
  readonly path: () => string | undefined;
  readonly isUnsaved: () => boolean;
  /** The text was edited: what is not saved is kept soon. */
  readonly edited: () => void;
  readonly openPath: (path: string) => Promise<void>;
  /** Lets the user choose a lesson. */
  readonly open: () => Promise<void>;
  /** A first lesson over a score of the user's choice. */
  readonly draft: () => Promise<void>;
  /** @returns whether the text is on disk now */
  readonly save: () => Promise<boolean>;
  /** Writes the text to a file of the user's choice and goes on with that file. */
  readonly saveAs: () => Promise<void>;
  /** Whether the present lesson may be left: it is saved, or the user does not want it. */
  readonly mayLeave: () => Promise<boolean>;
  /** Another program wrote the lesson's file. */
  readonly changedOnDisk: (stamp: string) => Promise<void>;
}

export const fileName = (path: string): string => path.split(/[/\\]/u).at(-1) ?? path;

export function lessonFile(
  bridge: Bridge,
  begun: Answers['begin'],
  text: EditedText,
  handlers: LessonFileHandlers,
): LessonFile {
  let lesson:
    { readonly path: string; readonly base: string | undefined; readonly saved: string } | undefined;
  let isAsking = false;
  const isUnsaved = (): boolean => lesson !== undefined && text.text() !== lesson.saved;

  const keepUnsaved = afterPause(journalPause, () => {
    if (lesson === undefined || !isUnsaved()) return;
    const { path, base } = lesson;
    void bridge
      .ask('journal', { path, text: text.text(), ...(base === undefined ? {} : { base }) })
      .then(kept => {
        if (!kept.ok) handlers.tell(`Unsaved work cannot be kept: ${kept.problem.message}`);
      });
  });

  const show = async (opened: OpenedLesson): Promise<void> => {
    let shown = opened.text;
    let base = opened.stamp;
    if (opened.unsaved !== undefined && opened.unsaved.text !== opened.text) {
      const answer = await askUser(
        'There is unsaved work on this lesson',
        ['It was kept when the window closed unexpectedly. The file on disk has other words.'],
        [
          ['unsaved', 'Go on with the unsaved work'],
          ['file', 'Take the file on disk'],
        ],
      );
      if (answer === 'unsaved') {
        shown = opened.unsaved.text;
        base = opened.unsaved.base ?? base;
      } else await bridge.ask('forget', { path: opened.path });
    }
    lesson = { path: opened.path, base, saved: opened.stamp === undefined ? '' : opened.text };
    text.setText(shown);
    handlers.tell('');
    handlers.opened();
  };
  const mayLeave = async (): Promise<boolean> => {
    if (!isUnsaved()) return true;
    const answer = await askUser(
      'This lesson has unsaved changes',
      [],
      [
        ['save', 'Save them'],
        ['drop', 'Drop them'],
        ['stay', 'Stay here'],
      ],
    );
    if (answer === 'save') return save();
    if (answer === 'drop' && lesson !== undefined) await bridge.ask('forget', { path: lesson.path });
    return answer === 'drop';
  };
  const openPath = async (path: string): Promise<void> => {
    const answer = await bridge.ask('open', { path });
    if (answer.ok) await show(answer.value);
    else handlers.tell(problemWords(answer.problem));
  };

  async function save(): Promise<boolean> {
    if (lesson === undefined) return false;
    const written = text.text();
    const { path, base } = lesson;
    const answer = await bridge.ask('save', { path, text: written, ...(base === undefined ? {} : { base }) });
    if (!answer.ok) {
      handlers.tell(`Not saved: ${problemWords(answer.problem)}`);
      return false;
    }
    // Meanwhile another lesson may stand here.
    if (lesson.path !== path) return answer.value.kind === 'saved';
    if (answer.value.kind === 'saved') {
      lesson = { path, base: answer.value.stamp, saved: written };
      handlers.tell('');
      handlers.settled();
      return true;
    }
    return settle(answer.value.text, answer.value.stamp);
  }

  /** Another program wrote the file: the author decides which words stay. */
  async function settle(onDisk: string, stamp: string): Promise<boolean> {
    if (lesson === undefined || isAsking) return false;
    const { path } = lesson;
    isAsking = true;
    const answer = await askUser(
      'Another program has changed this file',
      [
        html(
          'div',
          { class: 'side-by-side' },
          html('div', {}, html('h3', {}, 'On disk'), html('pre', { tabindex: 0 }, onDisk)),
          html('div', {}, html('h3', {}, 'Here'), html('pre', { tabindex: 0 }, text.text())),
        ),
      ],
      [
        ['mine', 'Keep what is here and write it'],
        ['theirs', 'Take what is on disk'],
        ['later', 'Decide later'],
      ],
    );
    isAsking = false;
    if (answer === 'later') return false;
    lesson = { path, base: stamp, saved: onDisk };
    if (answer === 'mine') return save();
    text.changeText(onDisk);
    await bridge.ask('forget', { path });
    handlers.changed();
    return true;
  }

  return {
    path: () => lesson?.path,
    isUnsaved,
    edited: keepUnsaved,
    openPath,
    open: async () => {
      if (!(await mayLeave())) return;
      const path = await chooseFile(bridge, 'lesson', begun.dialogs, begun.folder);
      if (path !== undefined) await openPath(path);
    },
    draft: async () => {
      if (!(await mayLeave())) return;
      const path = await chooseFile(bridge, 'score', begun.dialogs, begun.folder);
      if (path === undefined) return;
      const answer = await bridge.ask('draft', { score: path });
      if (answer.ok) await show(answer.value);
      else handlers.tell(problemWords(answer.problem));
    },
    save,
    saveAs: async () => {
      if (lesson === undefined) return;
      const chosen = await bridge.ask('choose', { what: 'save-as', near: lesson.path });
      if (!chosen.ok || chosen.value.path === undefined) return;
      const { path } = chosen.value;
      // The dialog has asked whether a file that is there may be replaced.
      const there = await bridge.ask('open', { path });
      lesson = { path, base: there.ok ? there.value.stamp : undefined, saved: '' };
      handlers.renamed();
      await save();
    },
    mayLeave,
    changedOnDisk: async stamp => {
      if (lesson === undefined || stamp === lesson.base) return;
      const { path } = lesson;
      const answer = await bridge.ask('open', { path });
      if (!answer.ok || answer.value.stamp === undefined) return;
      if (isUnsaved()) await settle(answer.value.text, answer.value.stamp);
      else if (answer.value.text !== text.text()) {
        lesson = { path, base: answer.value.stamp, saved: answer.value.text };
        text.changeText(answer.value.text);
        handlers.tell('The file was changed by another program; its words stand here now.');
        handlers.changed();
      }
    },
  };
}
