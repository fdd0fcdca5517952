/**
 * Lessons with faults, each beside the whole text that an author gets to see. What YAML itself demands is in YAML 1.2.2
 * (https://yaml.org/spec/1.2.2/); the rest is the lesson format of this project.
 * Refresh with `npx vitest run tests/lesson/golden.test.ts -u` and read the difference.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { placeOf, plainPalette, renderDiagnostic, sourceText } from '../../src/diagnostics/index.js';
import { readLesson } from '../../src/lesson/index.js';

const folder = fileURLToPath(new URL('../fixtures/lesson/', import.meta.url));
const names = readdirSync(folder).sort();

/** Every finding in its frame, then every claim with its place. */
function shownToAuthor(text: string): string {
  const source = sourceText('lesson.yaml', text);
  const { value, diagnostics } = readLesson(source);
  const findings = diagnostics.map(diagnostic =>
    renderDiagnostic(diagnostic, { width: 100, palette: plainPalette }),
  );
  const claims = (value?.claims ?? []).map(({ path, text: claim, span, accept }) => {
    const { line, column } = placeOf(source, span.start);
    return `${line}:${column} ${path}: ${claim}${accept === undefined ? '' : ` (accepted: ${accept.value})`}\n`;
  });
  return [
    ...findings,
    value === undefined ? 'no lesson\n' : `${claims.length} claims\n${claims.join('')}`,
  ].join('\n');
}

describe('a lesson and what its author gets to see', () => {
  it('has its cases', () => {
    expect(names).toHaveLength(32);
  });
  it.each(names)('%s', async name => {
    const text = readFileSync(`${folder}${name}/lesson.yaml`, 'utf8');
    await expect(shownToAuthor(text)).toMatchFileSnapshot(`${folder}${name}/expected.txt`);
  });
});
