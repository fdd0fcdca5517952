import { join } from 'node:path';
import { checkLessonFile } from '../../src/cli/check-lesson-file.js';
import { scoreLibrary } from '../../src/workshop/index.js';
import { plainPalette } from '../../src/diagnostics/index.js';
import type { CheckOptions, CheckReport } from '../../src/output/index.js';

export const plain: CheckOptions = { width: 80, palette: plainPalette, all: false };

/** What `check` finds in lessons of tests/fixtures/check, by the name of their folder. */
export async function checkedLessons(...names: readonly string[]): Promise<CheckReport> {
  const library = scoreLibrary(false);
  const files = names.map(name => join('tests/fixtures/check', name, 'lesson.yaml'));
  const checked = await Promise.all(files.map(file => checkLessonFile(file, library)));
  return { lessons: checked.map(({ report }) => report) };
}
