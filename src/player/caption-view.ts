import type { SpokenWord, Timeline } from '../timeline/index.js';
import { captionAt, type Caption } from './captions.js';
import { html } from './dom.js';

export interface CaptionView {
  readonly element: HTMLElement;
  /** Shows what is said or played at a moment of the lesson, with the word that is spoken; nothing where absent. */
  readonly show: (at: number | undefined) => void;
}

/** A caption may begin a little before its first word. */
const early = 0.05;

/** The line of captions, which follows the speech word by word. */
export function captionView(captions: readonly Caption[], timeline: Timeline): CaptionView {
  const element = html('p', { class: 'caption' });
  const allWords = timeline.events.flatMap(event => (event.kind === 'speech' ? event.words : []));
  let shown: Caption | undefined;
  let spans: readonly HTMLElement[] = [];
  let words: readonly SpokenWord[] = [];

  const fill = (caption: Caption | undefined): void => {
    shown = caption;
    const parts = caption?.text.split(/(\s+)/) ?? [];
    const elements = parts.map(part => (part.trim() === '' ? part : html('span', {}, part)));
    spans = elements.filter(part => typeof part !== 'string');
    const within = allWords.filter(
      ({ start }) => caption !== undefined && start >= caption.start - early && start < caption.end - early,
    );
    // Words and caption are cut from the same text; where they do not match, no word is marked.
    words = within.length === spans.length ? within : [];
    element.replaceChildren(...elements);
  };

  return {
    element,
    show: at => {
      const caption = at === undefined ? undefined : captionAt(captions, at);
      if (caption !== shown) fill(caption);
      const current = at === undefined ? -1 : words.findLastIndex(({ start }) => start <= at);
      for (const [index, span] of spans.entries()) span.classList.toggle('spoken', index === current);
    },
  };
}
