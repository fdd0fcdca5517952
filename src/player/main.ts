import './style/page.css';
import { buildPage } from './page.js';
import { readPageBlocks } from './page-blocks.js';
import type { PageData } from '../timeline/index.js';
import { cmi5Reporter, readLaunch } from './reporting/cmi5.js';
import type { Reporter } from './reporting/reporter.js';
import { findScormApi, scormReporter } from './reporting/scorm.js';
import { audio } from './sound/audio.js';
import { silence } from './sound/sound.js';

/** The page is drawn and answers before the sound is unpacked, in milliseconds. */
const restBeforeSound = 300;

const seconds = (): number => performance.now() / 1000;

/** The platform that the page was packed for, where it is there. */
function reporterFor(platform: PageData['reportsTo']): Reporter | undefined {
  switch (platform) {
    case 'SCORM 1.2': {
      const api = findScormApi();
      return api === undefined ? undefined : scormReporter(api, seconds);
    }
    case 'cmi5': {
      const launch = readLaunch(location.href);
      return launch === undefined ? undefined : cmi5Reporter(launch, seconds);
    }
    case undefined:
      return undefined;
  }
}

async function begin(): Promise<void> {
  const root = document.getElementById('lesson');
  if (root === null) return;
  const blocks = readPageBlocks();
  const sound =
    typeof AudioContext === 'undefined'
      ? silence('This browser has no sound; words and marks run all the same.', seconds)
      : audio(blocks.data, blocks);
  // Text in the score is measured while it is engraved, so its face has to be there.
  await document.fonts.load('16px "Libertinus Serif"').catch(() => []);
  const reporter = reporterFor(blocks.data.reportsTo);
  buildPage(root, blocks, sound, reporter);
  addEventListener('pagehide', () => reporter?.end());
  document.documentElement.dataset['ready'] = 'true';
  performance.mark('usable');
  setTimeout(sound.prepare, restBeforeSound);
}

void begin();
