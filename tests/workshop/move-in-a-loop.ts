/** Exchanges the takes of a folder again and again until it is killed: a program of its own, for the test that kills it. */
import { finishMoves, moveTakes } from '../../src/workshop/takes/move-takes.js';

const [folder = '', moves = ''] = process.argv.slice(2);
await finishMoves(folder);
for (;;) {
  process.stdout.write('.');
  await moveTakes(folder, JSON.parse(moves) as Parameters<typeof moveTakes>[1]);
}
