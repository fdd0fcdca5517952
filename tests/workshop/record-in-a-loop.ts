/** Keeps recordings of one text until it is killed: a program of its own, for the test that kills it. */
import { takeStore } from '../../src/workshop/takes/take-store.js';
import { toneWav } from './tone.js';

const [folder = ''] = process.argv.slice(2);
const store = takeStore(folder, '1.1');
const wav = toneWav(20);
for (;;) {
  const number = await store.add(wav, 'Listen.');
  process.stdout.write(`${String(number)}\n`);
  await store.use({ recording: number, cut: { from: 1, to: 2 } });
}
