import type { PlayStyle } from '../lesson/index.js';
import { excerptTimeline, noteTimeline, type PageData, type Timeline } from '../timeline/index.js';
import { closerView, type Level, type Look } from './closer-view.js';
import { excerptInput } from './excerpt-input.js';
import type { LessonPlayer, Progress } from './lesson-player.js';
import { barInWords, barsInWords } from './notation/in-words.js';
import { noteInWords } from './notation/note-in-words.js';
import type { Chosen } from './notation/notation-view.js';
import type { Picked } from './notation/system-view.js';
import { readingOf } from './reading.js';

/** Bars that go round are prepared for so many seconds ahead; then they begin anew with a short breath. */
const roundFor = 600;

export interface CloserParts {
  readonly player: Pick<LessonPlayer, 'playExcerpt' | 'send' | 'progress'>;
  readonly markChosen: (chosen: Chosen | undefined) => void;
  /** Whether the harmony at a moment of the score (whole notes) may be told. */
  readonly mayTell: (onset: number) => boolean;
  /** Where the focus goes when the view is closed. */
  readonly focusAfter: () => void;
}

export interface Closer {
  readonly element: HTMLElement;
  /** Looks at a note or bar that was pointed at, and lets it be heard. */
  readonly pick: (picked: Picked) => void;
  readonly toggle: () => void;
  readonly isOpen: () => boolean;
  readonly onProgress: (progress: Progress) => void;
  /** What is told may have changed with the labels. */
  readonly refresh: () => void;
}

/** Looking closely: one step, bar or note in words and in sound, apart from the course of the lesson. */
export function closer(data: PageData, parts: CloserParts): Closer {
  const { player } = parts;
  const [score] = data.scores;
  let look: Look | undefined;
  let words: readonly string[] = [];
  const lastBarOf = Math.max(0, (score?.bars.length ?? 1) - 1);
  const clamp = (value: number, most: number): number => Math.min(most, Math.max(0, value));

  const view = closerView(data, {
    setLevel: level => {
      if (look !== undefined) show(atLevel(level, look));
    },
    move: by => {
      if (look !== undefined) show(moved(look, by));
    },
    setBars: (firstBar, lastBar) => {
      if (look !== undefined) show({ level: 'bar', step: look.step, firstBar, lastBar });
    },
    play,
    repeat: () => {
      if (player.progress().excerpt === repeatName()) player.send({ kind: 'pause' });
      else playBars('written', true);
    },
    close: () => {
      show(undefined);
      parts.focusAfter();
    },
  });

  const stepLook = (step: number): Look => {
    const { firstBar = 0, lastBar = 0 } = data.steps[step] ?? {};
    return { level: 'step', step, firstBar, lastBar };
  };
  const noteLook = (note: number, step: number): Look => {
    const bar = score?.notes[note]?.bar ?? 0;
    return { level: 'note', step, firstBar: bar, lastBar: bar, note };
  };
  const barLook = (bar: number, step: number): Look => ({ level: 'bar', step, firstBar: bar, lastBar: bar });

  function atLevel(level: Level, from: Look): Look {
    switch (level) {
      case 'step':
        return stepLook(from.step);
      case 'bar':
        return barLook(from.firstBar, from.step);
      case 'note':
        return noteLook(score?.notes.findIndex(({ bar }) => bar >= from.firstBar) ?? 0, from.step);
    }
  }

  function moved(from: Look, by: 1 | -1): Look {
    switch (from.level) {
      case 'step':
        return stepLook(clamp(from.step + by, data.steps.length - 1));
      case 'bar':
        return barLook(clamp((by === 1 ? from.lastBar : from.firstBar) + by, lastBarOf), from.step);
      case 'note':
        return noteLook(clamp((from.note ?? 0) + by, (score?.notes.length ?? 1) - 1), from.step);
    }
  }

  function wordsOf(at: Look): readonly string[] {
    if (score === undefined) return [];
    const tellBars = (): readonly string[] => barsInWords(score, at.firstBar, at.lastBar, parts.mayTell);
    switch (at.level) {
      case 'step':
        return tellBars();
      case 'bar': {
        if (at.firstBar !== at.lastBar) return tellBars();
        const [, , harmony] = tellBars();
        return [barInWords(score, at.firstBar).join(' '), ...(harmony === undefined ? [] : [harmony])];
      }
      case 'note': {
        const reading = readingOf(data);
        const note = reading?.score.notes[at.note ?? 0];
        if (reading === undefined || note === undefined) return [];
        const told = parts.mayTell(score.notes[at.note ?? 0]?.onset ?? 0);
        const words = noteInWords(reading, note, told, data.beat);
        return told ? [words] : [words, 'Its part in the harmony is covered, like the labels.'];
      }
    }
  }

  function show(next: Look | undefined): void {
    look = next;
    words = next === undefined ? [] : wordsOf(next);
    view.show(next, words);
    parts.markChosen(next);
  }

  const labelOf = (bar: number): string => score?.bars[bar]?.label ?? '';
  const repeatName = (): string => `round ${look?.firstBar ?? ''}-${look?.lastBar ?? ''}`;

  function sound(name: string, timeline: Timeline | undefined, again = false): void {
    if (timeline !== undefined) player.playExcerpt({ name, timeline, again });
  }

  function playBars(as: PlayStyle, again: boolean): void {
    const reading = readingOf(data);
    if (look === undefined || reading === undefined) return;
    const excerpt = { first: labelOf(look.firstBar), last: labelOf(look.lastBar), as };
    sound(
      again ? repeatName() : as,
      excerptTimeline(excerptInput(data, reading), again ? { ...excerpt, roundFor } : excerpt),
      again,
    );
  }

  function play(as: PlayStyle): void {
    const note = look?.level === 'note' ? look.note : undefined;
    if (note === undefined || as !== 'written') playBars(as, false);
    else playNote(note);
  }

  function playNote(note: number): void {
    const reading = readingOf(data);
    const written = reading?.score.notes[note];
    if (reading !== undefined && written !== undefined) sound('note', noteTimeline(reading.score, [written]));
  }

  return {
    element: view.element,
    pick: ({ bar, note }) => {
      const { step } = player.progress();
      show(note === undefined ? barLook(bar, step) : noteLook(note, step));
      play('written');
    },
    toggle: () => {
      if (look !== undefined) {
        show(undefined);
        parts.focusAfter();
        return;
      }
      show(stepLook(player.progress().step));
      view.focus();
    },
    isOpen: () => look !== undefined,
    onProgress: ({ excerpt }) => {
      view.setRepeating(excerpt !== undefined && excerpt === repeatName());
    },
    refresh: () => {
      if (look === undefined) return;
      const now = wordsOf(look);
      // The same words again would be read aloud again.
      if (now.join('\n') === words.join('\n')) return;
      words = now;
      view.show(look, now);
    },
  };
}
