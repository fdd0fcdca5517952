import { html } from '../player/index.js';
import { host } from './host.js';
import { workshopWindow } from './workshop-window.js';

async function begin(): Promise<void> {
  const root = document.getElementById('workshop');
  if (root === null) return;
  const bridge = host();
  const started = await bridge.ask('begin', {});
  if (!started.ok) {
    root.replaceChildren(html('p', { class: 'quiet' }, started.problem.message));
    return;
  }
  const nonce = document.querySelector<HTMLMetaElement>('meta[name="style-nonce"]')?.content ?? '';
  await document.fonts.load('16px "Libertinus Serif"').catch(() => []);
  await workshopWindow(root, bridge, started.value, nonce);
  document.documentElement.dataset['ready'] = 'true';
  performance.mark('usable');
}

void begin();
