import type { Answers, Bridge, OpenedLesson } from '../bridge/index.js';
import { afterPause } from './after-pause.js';
import { askConflicts } from './ask-conflicts.js';
import { askUser } from './ask-user.js';
import { chooseFile, chooseNewFile } from './choose-file.js';
import { chooseLesson } from './choose-lesson.js';
import { fileName } from './file-name.js';
import { lineEndOf, withLineEnd, withLineFeeds } from './line-ends.js';
import type { LineEnd } from './line-ends.js';
import { conflictsOf, mergeLines, mergedText } from './merge-lines.js';
import type { Tell } from './notice.js';
import { problemWords } from './problem-words.js';

/** A pause in typing after which unsaved work is kept, in milliseconds. */
const journalPause = 1000;

/** The text of the lesson in the window; its line ends are LF. */
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
  readonly tell: Tell;
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
  /** Lets the user choose among the lessons with unsaved work and those that were opened lately. */
  readonly openKnown: () => Promise<void>;
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
  /** Another program removed the lesson's file: its text is in the window only. */
  readonly removedFromDisk: () => void;
}

/** The lesson that stands in the window. */
interface OpenLesson {
  readonly path: string;
  /** State of the file from which the text grew; absent for a lesson that was never on disk. */
  readonly base?: string;
  /** Text of that state, where it is known. */
  readonly saved?: string;
  readonly isOnDisk: boolean;
  readonly lineEnd: LineEnd;
}

const withBase = (base: string | undefined): { readonly base?: string } =>
  base === undefined ? {} : { base };

const mergedWords =
  'Another program has changed the file; its changes stand here together with yours, not saved yet.';

const savedText = (text: string | undefined): { readonly saved?: string } =>
  text === undefined ? {} : { saved: withLineFeeds(text) };

export function lessonFile(
  bridge: Bridge,
  begun: Answers['begin'],
  text: EditedText,
  handlers: LessonFileHandlers,
): LessonFile {
  let lesson: OpenLesson | undefined;
  let isAsking = false;
  const isUnsaved = (): boolean => lesson !== undefined && (!lesson.isOnDisk || text.text() !== lesson.saved);

  const keepNow = async (): Promise<void> => {
    if (lesson === undefined || !isUnsaved()) return;
    const { path, base, lineEnd } = lesson;
    const kept = await bridge.ask('journal', {
      path,
      text: withLineEnd(text.text(), lineEnd),
      ...withBase(base),
    });
    if (!kept.ok) handlers.tell(`Unsaved work cannot be kept: ${problemWords(kept.problem)}`, 'fault');
  };
  const keepSoon = afterPause(journalPause, () => void keepNow());

  const show = async ({ path, text: onDisk, stamp, unsaved }: OpenedLesson): Promise<void> => {
    const other = unsaved !== undefined && unsaved.text !== onDisk ? unsaved : undefined;
    const answer = other === undefined ? 'file' : await askUnsaved(path, stamp !== undefined);
    const saved = withLineFeeds(onDisk);
    const open = { path, lineEnd: lineEndOf(stamp === undefined ? (other?.text ?? onDisk) : onDisk) };
    if (other !== undefined && answer === 'unsaved') {
      const base = other.base ?? stamp;
      lesson = {
        ...open,
        ...withBase(base),
        isOnDisk: stamp !== undefined,
        // The file may have changed since the work was kept: then it is merged with the words from which both grew, where they are known.
        ...savedText(base === stamp && stamp !== undefined ? saved : other.baseText),
      };
      text.setText(withLineFeeds(other.text));
    } else {
      // What was never saved has grown from nothing that a file of the same name could share with it.
      lesson =
        stamp === undefined ? { ...open, isOnDisk: false } : { ...open, base: stamp, saved, isOnDisk: true };
      text.setText(other === undefined ? saved : withLineFeeds(other.text));
      if (other !== undefined) {
        // One undo brings the unsaved work back all the same.
        text.changeText(saved);
        await bridge.ask('forget', { path });
      }
    }
    handlers.tell('');
    handlers.opened();
    // What another program wrote since the work was kept is put together with it, where both are known to grow from the same words.
    const { base, saved: common } = lesson;
    if (stamp !== undefined && base !== stamp && common !== undefined && (await merge(onDisk, stamp)))
      handlers.tell(mergedWords);
  };
  const mayLeave = async (): Promise<boolean> => {
    if (!isUnsaved()) return true;
    // Whoever ends the program instead of answering finds the work again.
    await keepNow();
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
    else handlers.tell(problemWords(answer.problem), 'fault');
  };

  async function save(): Promise<boolean> {
    if (lesson === undefined) return false;
    const saved = text.text();
    const { path, base, lineEnd } = lesson;
    const answer = await bridge.ask('save', { path, text: withLineEnd(saved, lineEnd), ...withBase(base) });
    if (!answer.ok) {
      handlers.tell(`Not saved: ${problemWords(answer.problem)}`, 'fault');
      return false;
    }
    // Meanwhile another lesson may stand here.
    if (lesson.path !== path) return answer.value.kind === 'saved';
    if (answer.value.kind === 'saved') {
      lesson = { path, base: answer.value.stamp, saved, isOnDisk: true, lineEnd };
      handlers.tell('');
      handlers.settled();
      return true;
    }
    const isMerged = await merge(answer.value.text, answer.value.stamp);
    return isMerged && (isUnsaved() ? save() : true);
  }

  /**
   * Puts what another program has written together with the text here; the author is asked where both have changed the same lines.
   * @returns `false` where the author decides later: then nothing has changed
   */
  async function merge(onDisk: string, stamp: string): Promise<boolean> {
    if (lesson === undefined || isAsking) return false;
    const [here, there] = [text.text(), withLineFeeds(onDisk)];
    const parts = mergeLines(lesson.saved, here, there);
    let answers: Awaited<ReturnType<typeof askConflicts>> = [];
    if (conflictsOf(parts).length > 0) {
      isAsking = true;
      answers = await askConflicts(parts);
      isAsking = false;
    }
    if (answers === undefined) {
      handlers.tell(
        'The file on disk has other words than the text here; you are asked again when you save.',
        'fault',
      );
      return false;
    }
    const merged = mergedText(parts, answers);
    lesson = { ...lesson, base: stamp, saved: there, isOnDisk: true };
    if (merged !== here) text.changeText(merged);
    if (isUnsaved()) await keepNow();
    else await bridge.ask('forget', { path: lesson.path });
    handlers.changed();
    return true;
  }

  return {
    path: () => lesson?.path,
    isUnsaved,
    edited: keepSoon,
    openPath,
    open: async () => {
      if (!(await mayLeave())) return;
      const path = await chooseFile(bridge, 'lesson', begun.dialogs, begun.folder);
      if (path !== undefined) await openPath(path);
    },
    openKnown: async () => {
      if (!(await mayLeave())) return;
      const path = await chooseLesson(bridge, handlers.tell);
      if (path !== undefined) await openPath(path);
    },
    draft: async () => {
      if (!(await mayLeave())) return;
      const path = await chooseFile(bridge, 'score', begun.dialogs, begun.folder);
      if (path === undefined) return;
      const answer = await bridge.ask('draft', { score: path });
      if (answer.ok) await show(answer.value);
      else handlers.tell(problemWords(answer.problem), 'fault');
    },
    save,
    saveAs: async () => {
      if (lesson === undefined) return;
      const { path: near, lineEnd } = lesson;
      const path = await chooseNewFile(bridge, near, fileName(near), begun.dialogs, begun.folder);
      if (path === undefined) return;
      const there = await bridge.ask('open', { path });
      // A dialog of the system has asked already whether a file that is there may be replaced.
      if (there.ok && !begun.dialogs && !(await mayReplace(path))) return;
      const former = lesson;
      lesson = { path, isOnDisk: false, lineEnd, ...withBase(there.ok ? there.value.stamp : undefined) };
      if (!(await save())) {
        // The lesson stays what it was; why it was not saved has been told.
        lesson = former;
        await bridge.ask('forget', { path });
      }
      handlers.renamed();
    },
    mayLeave,
    changedOnDisk: async stamp => {
      if (lesson === undefined) return;
      if (stamp === lesson.base && lesson.isOnDisk) {
        // It could not be read meanwhile.
        handlers.tell('');
        return;
      }
      const { path } = lesson;
      const answer = await bridge.ask('open', { path });
      if (!answer.ok || answer.value.stamp === undefined || path !== lesson.path) return;
      const wasUnsaved = isUnsaved();
      if (!(await merge(answer.value.text, answer.value.stamp))) return;
      handlers.tell(
        wasUnsaved ? mergedWords : 'The file was changed by another program; its words stand here now.',
      );
    },
    removedFromDisk: () => {
      if (lesson === undefined) return;
      lesson = { ...lesson, isOnDisk: false };
      handlers.tell(
        `${fileName(lesson.path)} is no longer on disk; its text is here, and saving writes it again.`,
        'fault',
      );
      handlers.settled();
      void keepNow();
    },
  };
}

const mayReplace = async (path: string): Promise<boolean> =>
  (await askUser(
    `There is a lesson called ${fileName(path)} already`,
    ['Its present state is kept as a backup.'],
    [
      ['replace', 'Replace it'],
      ['leave', 'Leave it'],
    ],
  )) === 'replace';

/** @param isOnDisk whether there is a file beside the unsaved work */
const askUnsaved = (path: string, isOnDisk: boolean): Promise<'file' | 'unsaved'> =>
  askUser(
    `There is unsaved work on ${fileName(path)}`,
    [
      isOnDisk
        ? 'It was kept when the window closed unexpectedly. The file on disk has other words.'
        : 'It was kept when the window closed unexpectedly. The file is no longer on disk.',
    ],
    [
      ...(isOnDisk ? [['file', 'Take the file on disk'] as const] : []),
      ['unsaved', 'Go on with the unsaved work'],
    ],
  );
