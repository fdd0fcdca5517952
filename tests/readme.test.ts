import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const root = join(import.meta.dirname, '..');

/** The fenced blocks of the README by their language, in order. */
function blocks(language: string): readonly string[] {
  const readme = readFileSync(join(root, 'README.md'), 'utf8');
  return [...readme.matchAll(new RegExp(`^\`\`\`${language}\\n([\\s\\S]*?)^\`\`\`$`, 'gm'))].map(
    match => match[1] ?? '',
  );
}

test('the README shows what check really prints for its lesson', () => {
  const folder = mkdtempSync(join(tmpdir(), 'barwise-readme-'));
  const [score] = blocks('abc');
  const [lesson] = blocks('yaml');
  const [printed] = blocks('text');
  writeFileSync(join(folder, 'evening.abc'), score ?? '');
  writeFileSync(join(folder, 'evening.yaml'), lesson ?? '');
  const run = spawnSync(process.execPath, [join(root, 'dist', 'cli', 'main.js'), 'check', 'evening.yaml'], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, NO_COLOR: '1' },
  });
  expect(run.stderr).toBe('');
  expect(run.stdout).toBe(printed);
  expect(run.status).toBe(1);
});
