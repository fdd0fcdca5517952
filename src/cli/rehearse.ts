import { inReadingOrder, renderDiagnostic } from '../diagnostics/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import { checkFormats, rehearsal, remarksOnStep } from '../output/index.js';
import { buildTimeline, chordsOfAnalysis, mixedVocabulary, pacingFindings } from '../timeline/index.js';
import type { Speech } from '../timeline/index.js';
import { checkLessonFile } from './check-lesson-file.js';
import type { Run } from './commands.js';
import { complain, runFinding } from './report.js';
import { scoreLibrary } from '../workshop/index.js';

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
  let speech: ReadonlyMap<string, Speech> | undefined;
  const found: Diagnostic[] = [];
  if (switches.has('spoken')) {
    const { speakLesson } = await import('../sound/index.js');
    const { readSpeaking } = await import('./speaking.js');
    const speaking = await readSpeaking(values, file);
    if ('code' in speaking) {
      complain(terminal, speaking);
      return 2;
    }
    const spoken = await speakLesson(lesson, {
      ...speaking,
      onProgress: (done, all) => {
        terminal.progress(`speaking ${String(done)} of ${String(all)}`);
      },
    });
    speech = spoken.value;
    found.push(...spoken.diagnostics);
  }
  const analyses = [analysis, ...versions.values()];
  const schedule = {
    lesson,
    score: analysis.score,
    versions: new Map([...versions].map(([path, { score }]) => [path, score])),
    chordsIn: chordsOfAnalysis(score => analyses.find(one => one.score === score)),
  };
  const estimated = buildTimeline(schedule);
  const timeline = speech === undefined ? estimated : buildTimeline({ ...schedule, speech });
  terminal.write(
    rehearsal(lesson, timeline.value, {
      width: terminal.layout.width,
      ...(step === undefined ? {} : { step: number }),
      ...(speech === undefined ? {} : { estimated: estimated.value }),
    }),
  );
  const all = [
    ...found,
    ...timeline.diagnostics,
    ...pacingFindings(lesson, timeline.value),
    ...mixedVocabulary(lesson),
  ];
  const remarks = step === undefined ? all : remarksOnStep(lesson, number, all);
  for (const remark of inReadingOrder(remarks, file))
    terminal.write(`\n${renderDiagnostic(remark, terminal.layout)}`);
  return remarks.some(({ severity }) => severity === 'error') ? 1 : 0;
};
