import type { Payload, RequestName } from './requests.js';

/** Why the host refused, in words for the user. */
export interface Problem {
  readonly message: string;
  readonly help?: string;
}

/** What came of a request. A refusal is an answer; only a fault of the program rejects the promise. */
export type Answer<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: Problem };

export interface OpenedLesson {
  /** Absolute path. */
  readonly path: string;
  readonly text: string;
  /** Hash of the file's bytes; absent for a draft that is not on disk yet. */
  readonly stamp?: string;
  /** Unsaved work found for it, newer than the file, and the state of the file that it grew from, with its text where that is known. */
  readonly unsaved?: { readonly text: string; readonly base?: string; readonly baseText?: string };
}

export interface FolderEntry {
  readonly name: string;
  /** Absolute path. */
  readonly path: string;
  readonly kind: 'folder' | 'lesson' | 'score';
}

/** A stretch of a recording, in seconds from its beginning. */
export interface Cut {
  readonly from: number;
  readonly to: number;
}

/** One recording of a text, as it was made. */
export interface Recording {
  /** Counts from 1 in the order of making; 0 is a file that another program put in the place of the take. */
  readonly number: number;
  /** Absent where it cannot be read. */
  readonly seconds?: number;
  /** The words of the lesson are others than those that it was made with. */
  readonly stale: boolean;
  /** Those words, where they are known. */
  readonly words?: string;
}

/** A recording that came to no end: the window or its host died while it was made. */
export interface CutOffTape {
  readonly tape: string;
  /** The text that was spoken, and its words at that time. */
  readonly id: string;
  readonly words: string;
  readonly seconds: number;
}

/** The recording that speaks a text. */
export interface KnownTake {
  readonly recording: number;
  /** Ends that were set by hand; where absent the silence at both ends is left out. */
  readonly cut?: Cut;
  readonly stale: boolean;
  /** Set where it cannot be read; the voice speaks then. */
  readonly trouble?: string;
}

/** A text that is read aloud, or one of its paragraphs, and who speaks it. */
export interface SpokenPart {
  readonly id: string;
  /** Position of its step, 0-based. */
  readonly step: number;
  /** Counts from 1, where this is one of several paragraphs of the text before it. */
  readonly paragraph?: number;
  readonly words: string;
  /** Where the action stands in the lesson, in UTF-16 units. */
  readonly from: number;
  readonly to: number;
  /** Of its take, else estimated from the number of words. */
  readonly seconds: number;
  /** When it is heard in the walkthrough, in seconds; of whole texts where the lesson has no errors. */
  readonly start?: number;
  readonly take?: KnownTake;
  readonly recordings: readonly Recording[];
  /** Whether `undoTake` brings something back. */
  readonly canUndo: boolean;
}

/** What each request is answered with. */
export interface Answers {
  readonly begin: {
    /** Whether `choose` opens a dialog of the system. */
    readonly dialogs: boolean;
    /** The folder within which files may be browsed; where dialogs are, the last one used. */
    readonly folder: string;
    /** Lessons opened lately, newest first. */
    readonly recent: readonly { readonly path: string; readonly title: string }[];
    /** Lessons with unsaved work that outlived a window, newest first. */
    readonly unsaved: readonly { readonly path: string; readonly title: string }[];
    /** The lesson named when the host was started. */
    readonly lesson?: string;
    readonly version: string;
  };
  /** Absolute path; absent where the user closed the dialog. */
  readonly choose: { readonly path?: string };
  readonly browse: {
    readonly folder: string;
    /** Absent at the root. */
    readonly parent?: string;
    readonly entries: readonly FolderEntry[];
  };
  readonly open: OpenedLesson;
  readonly draft: OpenedLesson;
  readonly readScore: { readonly text: string; readonly stamp: string };
  readonly save:
    /** `backup` is where the former state was kept; absent for a new file and where it could not be kept. */
    | { readonly kind: 'saved'; readonly stamp: string; readonly backup?: string }
    /** Another program wrote the file meanwhile; nothing was written. */
    | { readonly kind: 'changed'; readonly text: string; readonly stamp: string };
  readonly journal: Readonly<Record<string, never>>;
  readonly forget: Readonly<Record<string, never>>;
  readonly leave: Readonly<Record<string, never>>;
  /**
   * A page of the host's own origin, as a path (`/preview/...`), for a frame with `sandbox="allow-scripts"`; `#step-3` opens it at the
   * third step. It stays there until the next preview of the lesson is ready.
   */
  readonly preview: { readonly url: string };
  readonly build: {
    readonly files: readonly { readonly path: string; readonly bytes: number }[];
    /** What could not be done beside the files, which are whole, and what else their author has to know. */
    readonly left: readonly string[];
  };
  readonly cancel: Readonly<Record<string, never>>;
  readonly takes: {
    readonly folder: string;
    /** Titles of the steps. */
    readonly steps: readonly string[];
    readonly parts: readonly SpokenPart[];
    /** How many takes were made for words that stand elsewhere in the lesson now; `moveTakes` takes them there. */
    readonly strays: number;
    /** Length of the walkthrough with these takes; absent where the lesson has errors. */
    readonly seconds?: number;
  };
  readonly readTake: {
    /** WAV or MP3. */
    readonly sound: Uint8Array;
    /** Where the speech begins and ends. */
    readonly ends: Cut;
  };
  /** How many samples are written down now: the next stretch begins there. */
  readonly tape: { readonly samples: number };
  readonly cutOff: { readonly tapes: readonly CutOffTape[] };
  readonly keepTape: { readonly recording: number };
  readonly dropTape: Readonly<Record<string, never>>;
  readonly saveTake: { readonly recording: number };
  readonly useTake: Readonly<Record<string, never>>;
  readonly undoTake: Readonly<Record<string, never>>;
  readonly moveTakes: { readonly moved: number };
}

/** What the host tells the window unasked. */
export type HostEvent =
  /** The lesson or one of its scores was changed by another program. */
  | { readonly kind: 'changed-on-disk'; readonly path: string; readonly stamp: string }
  | { readonly kind: 'removed-on-disk'; readonly path: string }
  /** Another program wrote something into it that is no text; `why` says what. */
  | { readonly kind: 'unreadable-on-disk'; readonly path: string; readonly why: string }
  | { readonly kind: 'progress'; readonly job: string; readonly doing: string; readonly share?: number }
  /** A command of the system's menu. */
  | { readonly kind: 'menu'; readonly command: MenuCommand }
  /**
   * The window is asked to close: it keeps unsaved work by `journal` and asks the user. Where it may go it says that it is to `leave` and
   * closes itself by `window.close()`; otherwise it stays, and is told again the next time.
   */
  | { readonly kind: 'close-asked' };

export const menuCommands = [
  'open',
  'recent',
  'new',
  'save',
  'save-as',
  'narration',
  'export',
  'find',
  'help',
] as const;
export type MenuCommand = (typeof menuCommands)[number];

/** The one way from the window to its host; the desktop shell and the local server each carry it their own way. */
export interface Bridge {
  readonly ask: <N extends RequestName>(name: N, payload: Payload<N>) => Promise<Answer<Answers[N]>>;
  /** @returns a function that stops listening */
  readonly listen: (heard: (event: HostEvent) => void) => () => void;
}
