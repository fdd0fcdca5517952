import type { ExitCode } from './exit-code.js';
import { speakingOptions } from './speaking-options.js';
import type { Terminal } from './terminal.js';

export interface Option {
  /** Name of the value in the usage line; absent for a switch. */
  readonly value?: string;
  readonly about: string;
}

/** What was typed after a command. */
export interface Arguments {
  readonly operands: readonly string[];
  readonly values: Readonly<Record<string, string>>;
  readonly switches: ReadonlySet<string>;
}

export type Run = (typed: Arguments, terminal: Terminal) => Promise<ExitCode>;

export interface Command {
  /** `LESSON...`; empty where the command takes none. */
  readonly operands: string;
  readonly least: number;
  readonly most: number;
  readonly about: string;
  readonly options: Readonly<Record<string, Option>>;
  /** Commands are loaded when they are asked for, so that starting costs nothing that is not needed. */
  readonly load: () => Promise<Run>;
}

const any = Number.POSITIVE_INFINITY;

const format = (formats: string): Option => ({ value: 'FORMAT', about: `${formats}; text where absent` });
const allowOutside: Option = { about: "read a score that lies outside its lesson's folder" };

export const commands = {
  check: {
    operands: 'LESSON...',
    least: 1,
    most: any,
    about: 'check every claim of a lesson, or of all lessons in a folder, against the notes',
    options: {
      format: format('text, json, sarif, junit, github or html'),
      strict: { about: 'exit with 1 also where a claim is arguable or undecided' },
      all: { about: 'show the claims that hold as well' },
      unchecked: { about: 'list what the narration says without a claim behind it' },
      against: {
        value: 'EARLIER',
        about: 'list the verdicts that changed since a git revision, or since a report written as JSON',
      },
      watch: { about: 'check again whenever a lesson or its score is saved, until Ctrl-C' },
      'allow-outside': allowOutside,
    },
    load: async () => (await import('./check.js')).runCheck,
  },
  analyse: {
    operands: 'SCORE...',
    least: 1,
    most: any,
    about: 'say bar by bar which chord stands there, in which key, and what it sets aside',
    options: { format: format('text, json or html') },
    load: async () => (await import('./analyse.js')).runAnalyse,
  },
  build: {
    operands: 'LESSON...',
    least: 1,
    most: any,
    about: 'build the walkthrough: a page that works offline, and its captions',
    options: {
      out: { value: 'DIR', about: 'folder to write into; it is made where it does not exist' },
      site: { value: 'DIR', about: 'a course of several lessons: contents, shared program, a page for each' },
      title: { value: 'TEXT', about: 'of the course' },
      package: { value: 'LIST', about: 'for learning platforms, with commas between: scorm-1.2, cmi5' },
      also: {
        value: 'LIST',
        about:
          'files beside the page, with commas between: srt, chapters, chapter-list, script, transcript, midi, timeline, wav, mp3, m4a, all',
      },
      loudness: { value: 'LUFS', about: 'of the sound files: -16 where absent, -23 for broadcast' },
      ...speakingOptions,
      strict: { about: 'build nothing where a claim fails, is arguable or undecided' },
      'allow-outside': allowOutside,
    },
    load: async () => (await import('./build.js')).runBuild,
  },
  rehearse: {
    operands: 'LESSON',
    least: 1,
    most: 1,
    about: 'print the running order of a lesson with its times, and remarks on its pace',
    options: {
      step: { value: 'NUMBER', about: 'show this step only' },
      spoken: { about: 'speak everything first, so that no time is estimated' },
      ...speakingOptions,
      'allow-outside': allowOutside,
    },
    load: async () => (await import('./rehearse.js')).runRehearse,
  },
  draft: {
    operands: 'SCORE',
    least: 1,
    most: 1,
    about: 'write a first lesson for a score, with the claims of which the engine is surest',
    options: {},
    load: async () => (await import('./draft.js')).runDraft,
  },
  studio: {
    operands: '[LESSON]',
    least: 0,
    most: 1,
    about:
      'write a lesson with its score, verdicts and page beside it, in a window of its own or in your browser',
    options: {
      serve: { about: 'serve the window to a browser on this machine, at an address that only you get' },
      port: { value: 'NUMBER', about: 'port of that address; any free one where absent' },
      folder: {
        value: 'DIR',
        about: "folder whose files the browser may open; the lesson's own, or the current one, where absent",
      },
    },
    load: async () => (await import('./studio.js')).runStudio,
  },
  explain: {
    operands: '[CODE]',
    least: 0,
    most: 1,
    about: 'say what a finding means, with an example and the source of the rule; without CODE list all',
    options: {},
    load: async () => (await import('./explain.js')).runExplain,
  },
} as const satisfies Readonly<Record<string, Command>>;

export type CommandName = keyof typeof commands;

export const commandNames = Object.keys(commands) as readonly CommandName[];
