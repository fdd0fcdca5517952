/**
 * Times `check` of a catalogue: 1,000 copies of the sample lesson in one folder beside their score, on all cores.
 * `npm run bench:catalogue [-- COPIES]`; the time to keep under is 60 s on two cores.
 */
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';

const root = join(import.meta.dirname, '..');
const copies = Number(process.argv[2] ?? 1000);
const folder = mkdtempSync(join(tmpdir(), 'barwise-catalogue-'));
try {
  copyFileSync(join(root, 'sample-lessons/mill-road.abc'), join(folder, 'mill-road.abc'));
  for (let copy = 1; copy <= copies; copy++)
    copyFileSync(
      join(root, 'sample-lessons/mill-road.yaml'),
      join(folder, `lesson-${String(copy).padStart(4, '0')}.yaml`),
    );
  const busy = loadavg()[0] ?? 0;
  // The shell's own clock counts the time of all threads of the process.
  const { stdout, stderr, status } = spawnSync(
    'bash',
    [
      '-c',
      'TIMEFORMAT="%R %U %S"; time "$0" "$@"',
      process.execPath,
      join(root, 'dist/cli/main.js'),
      'check',
      folder,
    ],
    { encoding: 'utf8', maxBuffer: 1 << 30 },
  );
  if (status !== 0) throw new Error(`check failed: ${stderr}`);
  const [wall, user, system] = stderr.trim().split('\n').at(-1)?.split(' ').map(Number) ?? [];
  const summary = stdout.split('\n').find(line => line.startsWith(`${String(copies)} lessons`)) ?? '';
  console.log(summary);
  console.log(
    `${String(copies)} lessons on ${String(availableParallelism())} cores: ${String(wall)} s of wall time, ${String(user)} s of user and ${String(system)} s of system CPU time` +
      ` (load of the machine before: ${busy.toFixed(1)})`,
  );
} finally {
  rmSync(folder, { recursive: true });
}
