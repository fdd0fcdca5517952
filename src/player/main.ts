import './style/page.css';
import { buildPage } from './page.js';
import { readPageBlocks } from './page-blocks.js';
import { audio } from './sound/audio.js';
import { silence } from './sound/sound.js';

/** The page is drawn and answers before the sound is unpacked, in milliseconds. */
const restBeforeSound = 300;

async function begin(): Promise<void> {
  const root = document.getElementById('lesson');
  if (root === null) return;
  const blocks = readPageBlocks();
  const sound =
    typeof AudioContext === 'undefined'
      ? silence(
          'This browser has no sound; words and marks run all the same.',
          () => performance.now() / 1000,
        )
      : audio(blocks.data, blocks);
  // Text in the score is measured while it is engraved, so its face has to be there.
  await document.fonts.load('16px "Libertinus Serif"').catch(() => []);
  buildPage(root, blocks, sound);
  document.documentElement.dataset['ready'] = 'true';
  performance.mark('usable');
  setTimeout(sound.prepare, restBeforeSound);
}

void begin();
