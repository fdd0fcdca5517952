import { createHash } from 'node:crypto';
import { basename, extname } from 'node:path';
import type { Answer, Answers } from '../bridge/index.js';
import { granted, refused } from './answer.js';
import type { Lane } from './bench/lane.js';

/** Where the pages lie in the host's origin. */
export const previewPath = '/preview/';

/** The student's pages of the texts as they stand, in memory. */
export interface Previews {
  /** Makes the page of a text. A page of an older text of the lesson that is still being made is given up. */
  readonly make: (path: string, text: string) => Promise<Answer<Answers['preview']>>;
  readonly page: (address: string) => Uint8Array | undefined;
}

interface Page {
  readonly lesson: string;
  readonly html: Uint8Array;
}

/** Lessons whose pages are kept; a host may show several windows. */
const mostLessons = 4;

/** @param speech folder that keeps what was spoken */
export function previews(lane: Lane, speech: string): Previews {
  const pages = new Map<string, Page>();
  const making = new Map<string, AbortController>();

  const keep = (address: string, page: Page): void => {
    for (const [other, { lesson }] of pages) if (lesson === page.lesson) pages.delete(other);
    pages.set(address, page);
    for (const oldest of pages.keys()) if (pages.size > mostLessons) pages.delete(oldest);
  };

  return {
    make: async (path, text) => {
      making.get(path)?.abort();
      const own = new AbortController();
      making.set(path, own);
      try {
        const made = await lane.run('preview', { path, text, speech }, { signal: own.signal });
        if (made === undefined) return refused('a newer text is being shown');
        if (!made.ok) return made;
        const { html } = made.value;
        const name = encodeURIComponent(basename(path, extname(path)));
        const state = createHash('sha256').update(path).update(html).digest('hex').slice(0, 16);
        const address = `${previewPath}${state}/${name}.html`;
        keep(address, { lesson: path, html });
        return granted({ url: address });
      } finally {
        if (making.get(path) === own) making.delete(path);
      }
    },
    page: address => pages.get(address)?.html,
  };
}
