import { explain } from './entry.js';
import type { CatalogueEntry } from './entry.js';

/** Findings about the run itself (files, folders, options): codes R0001 and up. */
export const runCatalogue = {
  R0001: {
    name: 'file-not-found',
    summary: 'A file is not there.',
    explanation: explain({
      meaning:
        'The name was typed in another way, or the file lies elsewhere. The score of a lesson is looked for beside the lesson, not in the folder where the program was started.',
      example: ['score: lamplihgt.abc    # the file is called lamplight.abc'],
      remedy: 'Mend the name, or put the file where it is looked for.',
    }),
  },
  R0002: {
    name: 'unreadable-file',
    summary: 'A file is there and cannot be read.',
    explanation: explain({
      meaning:
        'It is a folder, something else that is no file, or you have no permission to read it. The message says which.',
      example: ['barwise check lessons/lamplight'],
      remedy: 'Name a file, or change its permissions.',
      language: 'sh',
    }),
  },
  R0003: {
    name: 'file-too-large',
    summary: 'A file is too large to be read.',
    explanation: explain({
      meaning:
        'The size is looked at before anything is read. No lesson and no score comes near a megabyte of text; most likely another file was named.',
      example: ['score: recording.wav'],
      remedy: 'Name the lesson or the score.',
    }),
  },
  R0004: {
    name: 'not-utf8',
    summary: 'A file is not text in UTF-8.',
    explanation: explain({
      meaning:
        'Lessons and scores are read as UTF-8, the encoding of Unicode that every current editor writes. An older encoding would turn accents and accidentals into other characters.',
      example: ['barwise check old-lesson.yaml    # saved as Latin-1'],
      remedy: 'Open the file in an editor and save it as UTF-8.',
      source: 'RFC 3629 (UTF-8); ABC 2.1, section 2.2.3 (character sets).',
      language: 'sh',
    }),
  },
  R0005: {
    name: 'score-outside-folder',
    summary: 'A lesson names a score outside its own folder.',
    explanation: explain({
      meaning:
        'A lesson may come from somebody else. It should not be able to open files in other places of your disk, so what it names has to lie in its folder or below it, links followed.',
      example: ['score: ../../private/notes.abc'],
      remedy: 'Put the score beside the lesson, or pass `--allow-outside` if you trust the lesson.',
    }),
  },
  R0006: {
    name: 'output-not-written',
    summary: 'The output could not be written.',
    explanation: explain({
      meaning:
        'Permission is missing, the disk is full, or a file stands where a folder is needed; the message says which. Every file is first written under a temporary name, so nothing is left half written and what was there before is still whole.',
      example: ['barwise build lamplight.yaml --out /readonly'],
      remedy: 'Choose another folder, or make room.',
      language: 'sh',
    }),
  },
  R0007: {
    name: 'unknown-command',
    summary: 'There is no command of that name.',
    explanation: explain({
      meaning: 'The first word after `barwise` is a command.',
      example: ['barwise chekc lamplight.yaml'],
      remedy: 'Use the command that the help proposes; `barwise --help` lists them.',
      language: 'sh',
    }),
  },
  R0008: {
    name: 'unknown-option',
    summary: 'A command has no such option, or the option has no such value.',
    explanation: explain({
      meaning:
        'Options begin with two dashes. An option that is not known is never ignored: a misspelt `--strict` would let everything pass.',
      example: ['barwise check --srict lamplight.yaml'],
      remedy: 'Use the option that the help proposes; `barwise COMMAND --help` lists them.',
      language: 'sh',
    }),
  },
  R0009: {
    name: 'wrong-number-of-files',
    summary: 'A command was given too few or too many files.',
    explanation: explain({
      meaning: 'Some commands take any number of files, some exactly one.',
      example: ['barwise build one.yaml two.yaml --out walkthrough'],
      remedy: 'Name as many files as the usage line says.',
      language: 'sh',
    }),
  },
  R0010: {
    name: 'fault-of-the-program',
    summary: 'The program has a fault.',
    explanation: explain({
      meaning:
        'Bad input is always answered by a finding with its place. This is something else: the program did not behave as it was meant to. Your files are as they were.',
      example: ['barwise check lamplight.yaml'],
      remedy: 'Please report it with the lesson, the score and what was printed.',
      language: 'sh',
    }),
  },
  R0011: {
    name: 'nothing-in-folder',
    summary: 'A folder or a pattern holds no lesson or no score.',
    explanation: explain({
      meaning:
        'A folder stands for every lesson (`.yaml`, `.yml`) or score (`.abc`) in it and below it. Hidden folders and `node_modules` are left out. A pattern in quotes (`*` within a name, `**` over folders, `?`, `{a,b}`) stands for what it matches.',
      example: ['barwise check empty-folder', "barwise check 'lessons/**/*.yml'"],
      remedy: 'Name a folder with lessons in it, or a file.',
      language: 'sh',
    }),
  },
  R0012: {
    name: 'unknown-code',
    summary: 'There is no finding with that code.',
    explanation: explain({
      meaning:
        'Codes are a letter for the stage (L lesson, S score, H harmony, C claim, T timeline, R run) and four digits.',
      example: ['barwise explain L9999'],
      remedy: 'Use a code as it was printed; `barwise explain` lists them all.',
      language: 'sh',
    }),
  },
  R0013: {
    name: 'lesson-not-built',
    summary: 'A lesson with errors is not built.',
    explanation: explain({
      meaning:
        'A walkthrough would leave out what could not be understood, and nobody would notice. Claims that fail do not stop a build: the page is marked as a draft (R0018).',
      example: ['barwise build lamplight.yaml --out walkthrough   # lamplight.yaml has an unknown key'],
      remedy: 'Mend the errors that are printed above the message.',
      language: 'sh',
    }),
  },
  R0014: {
    name: 'missing-option',
    summary: 'A command needs an option that was not given.',
    explanation: explain({
      meaning:
        '`build` has to be told where to write, so that nothing is ever written to a place that you did not choose.',
      example: ['barwise build lamplight.yaml'],
      remedy: 'Add the option: `--out walkthrough`.',
      language: 'sh',
    }),
  },
  R0015: {
    name: 'electron-missing',
    summary: 'The desktop window needs a program that is not there.',
    explanation: explain({
      meaning:
        'The window is drawn by Electron, whose program is a large download of its own and does not come with the other packages.',
      example: ['barwise studio lamplight.yaml'],
      remedy:
        'Fetch it with `npx install-electron` on a machine with network access, or run `barwise studio --serve`: the same workshop in your browser.',
      language: 'sh',
    }),
  },
  R0016: {
    name: 'nothing-to-compare-with',
    summary: 'What `--against` names is neither a report nor a revision.',
    explanation: explain({
      meaning:
        '`check --against` lists the verdicts that have changed since an earlier state: since a report that `check --format json` wrote, or since a revision of the git repository in which the lessons are.',
      example: [
        'barwise check lamplight.yaml --against HEAD~1',
        'barwise check lamplight.yaml --against report.json',
      ],
      remedy: 'Mend the name. For a revision, git must be installed and the lessons must be in a repository.',
      language: 'sh',
    }),
  },
  R0017: {
    name: 'takes-not-noted',
    summary: 'What each take was made for cannot be written down.',
    explanation: explain({
      meaning:
        'A build writes into `takes/takes.json`, beside your recordings, which words each of them speaks; so it notices later when the lesson says something else. That file could not be written. The walkthrough is complete.',
      example: ['chmod a-w takes', 'barwise build lamplight.yaml --out walkthrough'],
      remedy: 'Let the folder of the takes be written, and build again.',
      language: 'sh',
    }),
  },
  R0018: {
    name: 'page-is-a-draft',
    summary: 'A page was built whose lesson has claims that fail.',
    explanation: explain({
      meaning:
        'The page is whole, so that you can go through it, but students should not get it yet: some of what the lesson says does not agree with the notes. A note at the top of the page says so and lists those claims; they are shown nowhere as statements of the lesson.',
      example: ['barwise build lamplight.yaml --out walkthrough   # says that bar 3 is IV, and it is V7/V'],
      remedy:
        'Mend the claims, or keep one with a reason (`accept:`), and build again. `--strict` builds nothing while a claim does not hold.',
      language: 'sh',
    }),
  },
  R0019: {
    name: 'strictly-not-built',
    summary: 'A lesson with claims that do not hold is not built with `--strict`.',
    explanation: explain({
      meaning:
        'With `--strict` a walkthrough is only made of a lesson whose every claim holds or is set aside with a reason. Nothing was written.',
      example: ['barwise build lamplight.yaml --out walkthrough --strict'],
      remedy: 'Mend the claims that are printed above the message, or build without `--strict`.',
      language: 'sh',
    }),
  },
} as const satisfies Record<`R${number}`, CatalogueEntry>;
