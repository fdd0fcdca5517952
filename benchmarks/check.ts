/** Times `check` and `analyse` as whole processes. `npm run bench:check [-- FOLDER_OF_SCORES]`; medians of five runs. */
import { spawnSync } from 'node:child_process';
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const program = join(import.meta.dirname, '..', 'dist', 'cli', 'main.js');

function seconds(args: readonly string[], times = 5): string {
  const runs = Array.from({ length: times }, () => {
    const started = process.hrtime.bigint();
    const { status, stderr } = spawnSync(process.execPath, [program, ...args], {
      encoding: 'utf8',
      maxBuffer: 1 << 30,
    });
    if (status !== 0 && status !== 1) throw new Error(stderr);
    return Number(process.hrtime.bigint() - started) / 1e9;
  }).sort((a, b) => a - b);
  return `${(runs[Math.floor(times / 2)] ?? 0).toFixed(2)} s`;
}

console.log(`check of the sample lesson: ${seconds(['check', 'sample-lessons/mill-road.yaml'])}`);
console.log(`analyse of its score: ${seconds(['analyse', 'sample-lessons/mill-road.abc'])}`);
const [folder] = process.argv.slice(2);
if (folder !== undefined) {
  const files = readdirSync(folder)
    .filter(name => name.endsWith('.abc'))
    .map(name => join(folder, name));
  const size = files.reduce((sum, file) => sum + statSync(file).size, 0);
  console.log(
    `analyse of ${files.length} scores (${Math.round(size / 1024)} KiB) in one process: ${seconds(['analyse', ...files, '--format', 'json'], 1)}`,
  );
}
