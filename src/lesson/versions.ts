import { namedVersions, readClaim } from '../claims/index.js';
import type { Lesson, Located } from './model.js';

/** The other versions of the piece that claims of the lesson speak of, each where it is first named. */
export function comparedVersions(lesson: Lesson): readonly Located<string>[] {
  const found = new Map<string, Located<string>>();
  for (const { text, span, offsets } of lesson.claims) {
    // A version is always named in quotes; most claims have none and need not be read for this.
    if (!/["“”]/u.test(text)) continue;
    const read = readClaim(text);
    if (!('claim' in read)) continue;
    for (const name of namedVersions(read.claim)) {
      if (found.has(name)) continue;
      const at = text.indexOf(name);
      const start = offsets[at] ?? span.start;
      found.set(name, {
        value: name,
        span: { ...span, start, end: (offsets[at + name.length - 1] ?? start) + 1 },
      });
    }
  }
  return [...found.values()];
}

/** The other versions of the piece that the lesson plays, each as often as it is named. */
export const playedVersions = (lesson: Lesson): readonly Located<string>[] =>
  lesson.steps.flatMap(({ script }) =>
    script.flatMap(action => (action.kind === 'play' ? (action.score ?? []) : [])),
  );
