import { beforeAll, describe, expect, test } from 'vitest';
import type { Verdict, VerdictWord } from '../../src/claims/index.js';
import { checkLessonFile } from '../../src/cli/check-lesson-file.js';
import { stepReadings } from '../../src/output/step-readings.js';
import { scoreLibrary } from '../../src/workshop/index.js';

let checked: Awaited<ReturnType<typeof checkLessonFile>>;
beforeAll(async () => {
  checked = await checkLessonFile('sample-lessons/mill-road.yaml', scoreLibrary(false));
});

/** Per step what is renamed, with the verdicts as they are or all as `verdict`. */
function readings(verdict?: VerdictWord): readonly (readonly string[])[] {
  const { lesson, analysis, report } = checked;
  if (lesson === undefined || analysis === undefined) throw new Error('the sample lesson cannot be read');
  const claims = report.claims.map(({ entry, verdict: own }) => ({
    claim: entry,
    verdict: { ...own, ...(verdict === undefined ? {} : { verdict }) } satisfies Verdict,
  }));
  return lesson.steps.map((_, index) =>
    stepReadings(lesson, index, analysis, claims).map(
      ({ segment, roman, key }) => `${analysis.segments[segment]?.roman ?? ''}: ${roman} in ${key}`,
    ),
  );
}

describe('the harmonies of a step', () => {
  test('go by the names that its claims give them, where those are of another key', () => {
    // Bar 11 is the pivot into D major; the sequence of bars 17 to 20 is heard in D major and told from B minor. Bar 12 is called by both
    // keys and stays as heard.
    expect(readings()).toEqual([
      [],
      [],
      [],
      [],
      [],
      ['i6: vi6 in D major'],
      [],
      ['V7/ii: V7/iv in B minor', 'ii: iv in B minor', 'V7: V7/III in B minor', 'I: III in B minor'],
      [],
      [],
      [],
      [],
      [],
    ]);
  });

  test.each(['fails', 'undecided'] as const)('stay as heard where the claim %s', verdict => {
    expect(readings(verdict).flat()).toEqual([]);
  });
});
