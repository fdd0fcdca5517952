import type { OutputFile } from './output-file.js';
import { walkthroughData } from './walkthrough-data.js';
import { walkthroughHtml } from './walkthrough-html.js';
import type { WalkthroughInput } from './walkthrough-input.js';

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

/** The walkthrough: one page that needs nothing but itself, and its captions beside it. Equal input gives equal bytes. */
export function buildWalkthrough(input: WalkthroughInput): readonly OutputFile[] {
  return [
    { name: `${input.name}.html`, bytes: encode(walkthroughHtml(input, walkthroughData(input))) },
    { name: `${input.name}.vtt`, bytes: encode(input.captions) },
  ];
}
