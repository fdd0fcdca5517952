import type { PageData } from '../timeline/index.js';

/** What the page carries beside its program (see walkthrough-html.ts for how it is written). */
export interface PageBlocks {
  readonly data: PageData;
  /** Captions of the whole lesson as WebVTT. */
  readonly captions: string;
  /** A block of audio by its id. Unpacked only when asked for. */
  readonly bytes: (id: string) => Promise<ArrayBuffer>;
}

const textOf = (id: string): string => document.getElementById(id)?.textContent ?? '';

function fromBase64(text: string): ArrayBuffer {
  const binary = atob(text);
  const bytes = new Uint8Array(binary.length);
  for (let at = 0; at < binary.length; at++) bytes[at] = binary.charCodeAt(at);
  return bytes.buffer;
}

/** The sound stands behind the program in the page, so it may not have been read yet. */
const wholePage = (): Promise<void> =>
  new Promise(resolve => {
    if (document.readyState !== 'loading') resolve();
    else
      document.addEventListener('DOMContentLoaded', () => {
        resolve();
      });
  });

/** Reads the page's own blocks. They were written by this version of the program, so they are taken at their word. */
export function readPageBlocks(): PageBlocks {
  return {
    data: JSON.parse(textOf('page-data')) as PageData,
    captions: JSON.parse(textOf('captions')) as string,
    bytes: async id => {
      await wholePage();
      return fromBase64(textOf(id));
    },
  };
}
