/** `barwise build --site` as a process. What its pages do is tested in tests/browser/site.test.ts. */
import { cpSync, existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { barwise, root } from './barwise.js';

const good = `${root}tests/fixtures/check/all-hold`;

describe('build --site', () => {
  let folder = '';
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'barwise-course-'));
    cpSync(good, folder, { recursive: true });
    cpSync(join(folder, 'lesson.yaml'), join(folder, 'second.yaml'));
  });
  afterEach(() => {
    rmSync(folder, { recursive: true });
  });
  const lessons = () => [join(folder, 'lesson.yaml'), join(folder, 'second.yaml')];

  it('writes contents, a page for each lesson, the program once, and the packages asked for', async () => {
    const out = join(folder, 'course');
    const { code, stdout, stderr } = await barwise([
      'build',
      '--site',
      out,
      '--title',
      'Two gates',
      '--package',
      'scorm-1.2,cmi5',
      ...lessons(),
    ]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(
      readdirSync(out)
        .map(name => name.replace(/-[0-9a-f]{12}\./, '.'))
        .sort(),
    ).toEqual([
      'course-cmi5.zip',
      'course-scorm-1.2.zip',
      'index.html',
      'lesson.html',
      'lesson.vtt',
      'look.css',
      'program.js',
      'second.html',
      'second.vtt',
    ]);
    expect(stdout).toContain('9 files written:');
    const contents = readFileSync(join(out, 'index.html'), 'utf8');
    expect(contents).toContain('<h1>Two gates</h1>');
    expect(contents).toContain('href="second.html#step-1"');
    const page = readFileSync(join(out, 'lesson.html'), 'utf8');
    expect(page).toMatch(/<script src="program-[0-9a-f]{12}\.js">/);
  });

  it('writes nothing where a lesson has errors, two pages have one name, or a platform is unknown', async () => {
    const out = join(folder, 'course');
    const run = (...more: string[]) => barwise(['build', '--site', out, ...more]);
    const twice = await run(lessons()[0] ?? '', lessons()[0] ?? '');
    expect(twice.code).toBe(2);
    expect(twice.stderr).toContain('two pages of the course would be called `lesson.html`');
    const unknown = await run('--package', 'scorm', ...lessons());
    expect(unknown.code).toBe(2);
    expect(unknown.stderr).toContain('`--package` knows no `scorm`');
    const missing = await run(lessons()[0] ?? '', join(folder, 'none.yaml'));
    expect(missing.code).toBe(2);
    expect(missing.stderr).toContain('so nothing was built');
    expect(existsSync(out)).toBe(false);
    const several = await barwise(['build', '--out', out, ...lessons()]);
    expect(several.code).toBe(2);
    expect(several.stderr).toContain('for several write `build --site DIR LESSON...`');
  });
});
