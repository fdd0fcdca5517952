import type { PageData } from '../timeline/index.js';
import { html } from './dom.js';
import { spokenTime } from './durations.js';
import { withAccidentals } from '../timeline/index.js';

/** Title of the lesson and what it is: author, steps, length, key. */
export function heading({ title, author, description, steps, timeline, home }: PageData): HTMLElement {
  const count = steps.length === 1 ? '1 step' : `${steps.length} steps`;
  const about = [author, count, spokenTime(timeline.seconds), withAccidentals(home)];
  return html(
    'header',
    { class: 'heading' },
    html('h1', {}, title),
    html('p', { class: 'about' }, about.filter(part => part !== undefined).join(' · ')),
    ...(description === undefined ? [] : [html('p', { class: 'description' }, description)]),
  );
}
