/**
 * The shell in Electron's own program, where that is on this machine. It is a large download of its own: `npx install-electron` fetches it. Linux
 * needs a display (`xvfb-run npx vitest run tests/desktop/real-program.test.ts` gives one).
 */
import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { _electron } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Bridge } from '../../src/bridge/index.js';
import { electronProgram } from '../../src/cli/electron-program.js';
import { root } from './shell.js';

interface WithHost {
  readonly barwiseHost: Bridge;
}

const program = electronProgram();
const shell = join(root, 'dist/desktop/main.js');
const missing =
  program === undefined
    ? "Electron's program is not on this machine"
    : existsSync(shell) && existsSync(join(root, 'dist/studio/index.html'))
      ? undefined
      : 'the shell is not built: npm run build';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'barwise-electron-'));
  for (const name of ['mill-road.yaml', 'mill-road.abc'])
    copyFileSync(join(root, 'sample-lessons', name), join(folder, name));
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

describe('the shell in Electron itself', () => {
  it('opens the lesson, answers its window and keeps its doors closed', async context => {
    if (missing !== undefined || program === undefined) {
      process.stdout.write(`NOT RUN: the suite for Electron's own program; ${missing ?? ''}\n`);
      context.skip(`not run: ${missing ?? ''}`);
      return;
    }
    const lesson = join(folder, 'mill-road.yaml');
    const application = await _electron.launch({
      executablePath: program,
      args: [...(process.getuid?.() === 0 ? ['--no-sandbox'] : []), shell, lesson],
      env: { ...process.env, XDG_STATE_HOME: join(folder, 'state') } as Record<string, string>,
    });
    try {
      const page = await application.firstWindow();
      expect(page.url()).toBe('barwise://studio/');
      const opened = await page.evaluate(
        path => (globalThis as unknown as WithHost).barwiseHost.ask('open', { path }),
        lesson,
      );
      expect(opened).toMatchObject({ ok: true, value: { text: readFileSync(lesson, 'utf8') } });
      expect(await page.evaluate(() => typeof Reflect.get(globalThis, 'require'))).toBe('undefined');
      const fetched = await page.evaluate(() =>
        fetch('https://example.org/').then(
          () => 'fetched',
          () => 'refused',
        ),
      );
      expect(fetched).toBe('refused');
    } finally {
      await application.evaluate(({ app }) => {
        app.exit(0);
      });
    }
  });
});
