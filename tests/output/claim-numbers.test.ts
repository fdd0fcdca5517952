import { JSDOM } from 'jsdom';
import { expect, test } from 'vitest';
import { checkLessonFile } from '../../src/cli/check-lesson-file.js';
import { checkFormats } from '../../src/output/index.js';
import { walkthroughData } from '../../src/output/walkthrough-data.js';
import { scoreLibrary } from '../../src/workshop/index.js';
import { withAccidentals } from '../../src/timeline/index.js';
import { practiceLesson } from '../browser/practice-lesson.js';
import { plain } from './checked-lesson.js';

// The key of the handout numbers the claims of the page in their order (tests/browser/page-print.test.ts).
test.each(['mill-road', 'long-table'])(
  'the claims of %s have the same numbers in the editor’s report and in the page',
  async name => {
    const { report, lesson, analysis } = await checkLessonFile(
      `sample-lessons/${name}.yaml`,
      scoreLibrary(false),
    );
    if (lesson === undefined || analysis === undefined) throw new Error('the sample lesson cannot be read');
    const { document } = new JSDOM(await checkFormats.html({ lessons: [report] }, plain)).window;
    const reported = [...document.querySelectorAll('.verdict-note')].map(note => [
      Number(note.querySelector('.number')?.textContent),
      note.querySelector('.verdict')?.textContent.trim(),
      note.querySelector('.statement b')?.textContent,
    ]);
    const { claims } = walkthroughData({
      ...(await practiceLesson({ script: '', style: '' })),
      lesson,
      scores: [{ path: lesson.score.value, analysis }],
      claims: report.claims.map(({ entry, verdict }) => ({ claim: entry, verdict })),
    });
    expect(claims.length).toBeGreaterThan(20);
    expect(reported).toEqual(
      claims.map(({ verdict, text }, index) => [index + 1, verdict, withAccidentals(text)]),
    );
  },
);
