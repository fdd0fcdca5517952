import { inReadingOrder, renderDiagnostic } from '../diagnostics/index.js';
import { checkFormats, rehearsal } from '../output/index.js';
import { buildTimeline, chordsOfAnalysis, mixedVocabulary, pacingFindings } from '../timeline/index.js';
import type { Speech } from '../timeline/index.js';
import { checkLessonFile } from './check-lesson-file.js';
import type { Run } from './commands.js';
import { complain, runFinding } from './report.js';
import { scoreLibrary } from './score-library.js';

/** `barwise rehearse LESSON`: the running order with its times, and what deserves a remark about its pace. */
export const runRehearse: Run = async ({ operands: [file = ''], values, switches }, terminal) => {
  const { report, opened, lesson, analysis, versions } = await checkLessonFile(
    file,
    scoreLibrary(switches.has('allow-outside')),
  );
  const hasErrors = report.diagnostics.some(({ severity }) => severity === 'error');
  if (lesson === undefined || analysis === undefined || hasErrors) {
    terminal.write(checkFormats.text({ lessons: [report] }, { ...terminal.layout, all: false }));
    return opened ? 1 : 2;
  }
  const step = values['step'];
  const number = Number(step);
  if (step !== undefined && (!Number.isInteger(number) || number < 1 || number > lesson.steps.length)) {
    complain(
      terminal,
      runFinding(
        'R0008',
        `there is no step \`${step}\``,
        `the lesson has the steps 1 to ${String(lesson.steps.length)}`,
      ),
    );
    return 2;
  }
  let speech: ReadonlyMap<string, Speech> = new Map();
  if (switches.has('spoken')) {
    const { embeddedVoice, speakLesson } = await import('../sound/index.js');
    const spoken = await speakLesson(lesson, {
      voice: embeddedVoice(),
      onProgress: (done, all) => {
        terminal.progress(`speaking ${String(done)} of ${String(all)}`);
      },
    });
    speech = spoken.value;
  }
  const analyses = [analysis, ...versions.values()];
  const timeline = buildTimeline({
    lesson,
    score: analysis.score,
    versions: new Map([...versions].map(([path, { score }]) => [path, score])),
    chordsIn: chordsOfAnalysis(score => analyses.find(one => one.score === score)),
    speech,
  });
  terminal.write(
    rehearsal(lesson, timeline.value, {
      width: terminal.layout.width,
      ...(step === undefined ? {} : { step: number }),
    }),
  );
  const remarks = [
    ...timeline.diagnostics,
    ...pacingFindings(lesson, timeline.value),
    ...mixedVocabulary(lesson),
  ];
  for (const remark of inReadingOrder(remarks, file))
    terminal.write(`\n${renderDiagnostic(remark, terminal.layout)}`);
  return remarks.some(({ severity }) => severity === 'error') ? 1 : 0;
};
