/**
 * Builds a lesson of an hour with the built command line and prints how long that takes and how much memory it needs: `npx tsx
 * benchmarks/long-lesson.ts [MINUTES]`, after `npm run build`. The sound is written as it is made, so its length must not matter.
 */
import { spawn } from 'node:child_process';
import { copyFile, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const minutes = Number(process.argv[2] ?? 60);
/** Seconds that one step of the generated lesson lasts, about. */
const stepSeconds = 33;
const bars = 32;

/** A lesson that goes through the sample score again and again; no two steps say the same. */
function lessonText(steps: number): string {
  const step = (number: number): string => {
    const first = 1 + ((number * 4) % (bars - 4));
    return `  - title: Round ${String(number)}
    bars: ${String(first)}-${String(first + 3)}
    script:
      - play: ${String(first)}-${String(first + 3)}
      - say: |
          This is round ${String(number)} of many. Bars ${String(first)} to ${String(first + 3)} were heard as they are written, and they come back at once.
          Listen to the lowest notes this time, and count ${String(number + 1)} in silence when the phrase has ended.
      - play: { bars: ${String(first)}, as: stack }
      - play: { bars: ${String(first)}-${String(first + 3)}, tempo: 70, under: true }
      - say: The same bars once more for round ${String(number)}, but slower.
`;
  };
  const script = Array.from({ length: steps }, (_, index) => step(index + 1)).join('');
  return `format: 1\ntitle: An hour of rounds\nscore: mill-road.abc\nhome: B minor\nsteps:\n${script}`;
}

interface Outcome {
  readonly seconds: number;
  readonly megabytes: number;
  readonly output: string;
}

/** Runs the built program; the last thing it does is to tell the most memory that it had, which the system knows. */
function run(words: readonly string[]): Promise<Outcome> {
  const tell =
    "process.on('exit', () => process.stderr.write(`\\nmemory ${process.resourceUsage().maxRSS / 1024}\\n`));";
  const start = performance.now();
  const child = spawn(
    process.execPath,
    ['--import', `data:text/javascript,${encodeURIComponent(tell)}`, 'dist/cli/main.js', ...words],
    { stdio: ['ignore', 'pipe', 'pipe'] },
  );
  let [output, errors] = ['', ''];
  child.stdout.on('data', (part: Buffer) => (output += part.toString('utf8')));
  child.stderr.on('data', (part: Buffer) => (errors = (errors + part.toString('utf8')).slice(-2000)));
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', code => {
      if (code !== 0) reject(new Error(`the build ended with ${String(code)}: ${errors}`));
      const megabytes = Number(/memory ([\d.]+)/u.exec(errors)?.[1]);
      resolve({ seconds: (performance.now() - start) / 1000, megabytes, output });
    });
  });
}

const folder = await mkdtemp(join(tmpdir(), 'barwise-benchmark-'));
try {
  await copyFile('sample-lessons/mill-road.abc', join(folder, 'mill-road.abc'));
  const file = join(folder, 'hour.yaml');
  await writeFile(file, lessonText(Math.round((minutes * 60) / stepSeconds)));
  const out = join(folder, 'out');
  const words = ['build', file, '--out', out, '--also', 'all', '--cache', join(folder, 'speech')];
  for (const [name, outcome] of [
    ['page, companions, WAV, MP3, M4A: cold', await run(words)],
    ['the same with speech and music kept', await run(words)],
  ] as const) {
    console.log(
      `${name.padEnd(46)}${outcome.seconds.toFixed(0)} s, greatest memory ${outcome.megabytes.toFixed(0)} MB`,
    );
    console.log(
      outcome.output
        .split('\n')
        .filter(line => /\.(?:wav|html) /u.test(line))
        .join('\n'),
    );
  }
} finally {
  await rm(folder, { recursive: true, force: true });
}
