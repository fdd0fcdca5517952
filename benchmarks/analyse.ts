/**
 * Time and memory of `analyse` as the score grows: `npm run bench:analyse`. The scores are the sample pieces played again and again, one
 * process a length, so that the peak of memory is its own.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const root = join(import.meta.dirname, '..');
const program = join(root, 'dist', 'cli', 'main.js');
const lengths = [100, 400, 1600];

/** The waltz repeated until it has `bars` bars: its header, then its groups of four bars in turn. */
function waltzOf(bars: number): string {
  const text = readFileSync(join(root, 'sample-lessons', 'mill-road.abc'), 'utf8');
  const lines = text.split('\n').filter(line => line.trim() !== '' && !line.startsWith('%'));
  const firstVoice = lines.indexOf('V:1');
  const groups = lines
    .slice(firstVoice)
    .join('\n')
    .split(/^V:1$/m)
    .filter(group => group.trim() !== '');
  // The pickup stands in the first group only; the others are whole bars, so they can follow one another in any number.
  const whole = groups.slice(1, -1);
  const body = Array.from({ length: Math.ceil(bars / 4) }, (_, at) => whole[at % whole.length] ?? '');
  return [...lines.slice(0, firstVoice), ...body.map(group => `V:1${group.trimEnd()}`), ''].join('\n');
}

/** What a child process prints of itself when it ends. */
const report =
  'process.on("exit",()=>{const{userCPUTime:u,maxRSS:m}=process.resourceUsage();process.stderr.write(`\\n${u/1e6} ${m/1024}`)})';

const folder = mkdtempSync(join(tmpdir(), 'bench-'));
try {
  for (const bars of lengths) {
    const file = join(folder, `${String(bars)}.abc`);
    writeFileSync(file, waltzOf(bars));
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      ['--import', `data:text/javascript,${report}`, program, 'analyse', file, '--format', 'json'],
      { encoding: 'utf8', maxBuffer: 1 << 30 },
    );
    if (status !== 0 && status !== 1) throw new Error(stderr);
    const [seconds = NaN, megabytes = NaN] = (stderr.split('\n').at(-1) ?? '').split(' ').map(Number);
    const harmonies = stdout.split('"startQuarters"').length - 1;
    console.log(
      `${String(bars).padStart(5)} bars: ${seconds.toFixed(2)} s of processor time, ${((1000 * seconds) / bars).toFixed(1)} ms a bar, ${megabytes.toFixed(0)} MB at most, ${String(harmonies)} harmonies`,
    );
  }
} finally {
  rmSync(folder, { recursive: true });
}
