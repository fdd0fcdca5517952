import type { Reporter } from './reporter.js';

/** The object that a platform puts into its window for content (SCORM 1.2 Run-Time Environment, section 3.3). */
export interface ScormApi {
  readonly LMSInitialize: (empty: string) => string;
  readonly LMSFinish: (empty: string) => string;
  readonly LMSGetValue: (element: string) => string;
  readonly LMSSetValue: (element: string, value: string) => string;
  readonly LMSCommit: (empty: string) => string;
}

/** How far up the frames the object is looked for. */
const mostFrames = 10;

function apiIn(start: Window | null): ScormApi | undefined {
  let here = start;
  for (let up = 0; here !== null && up < mostFrames; up++) {
    try {
      const { API: api } = here as unknown as { readonly API?: ScormApi };
      if (api !== undefined) return api;
    } catch {
      // A frame of another origin shows nothing.
    }
    if (here === here.parent) return undefined;
    here = here.parent;
  }
  return undefined;
}

/** Finds the platform's object in the frames around the page or in those of the window that opened it. */
export const findScormApi = (): ScormApi | undefined =>
  apiIn(window) ?? apiIn((window.opener as Window | null) ?? null);

/** `HHHH:MM:SS.SS` (type CMITimespan, section 3.4.3). */
export function timespan(seconds: number): string {
  const hundredths = Math.round(seconds * 100);
  const digits = (value: number, count: number): string => String(Math.floor(value)).padStart(count, '0');
  return `${digits(hundredths / 360_000, 4)}:${digits((hundredths / 6000) % 60, 2)}:${digits((hundredths / 100) % 60, 2)}.${digits(hundredths % 100, 2)}`;
}

/** Letters, digits, hyphens and underscores (type CMIIdentifier). */
const identifier = (id: string): string => `question-${id.replace(/[^A-Za-z0-9]+/g, '-')}`;
/** Type CMIString255. */
const short = (text: string): string => text.slice(0, 255);

/** Reports to a SCORM 1.2 platform: status, score, answers, time. `now` reads seconds. */
export function scormReporter(api: ScormApi, now: () => number): Reporter {
  const begun = now();
  const told = new Map<string, string>();
  let interactions = 0;
  let ended = false;
  api.LMSInitialize('');
  const before = api.LMSGetValue('cmi.core.lesson_status');
  let complete = before === 'completed' || before === 'passed';
  if (!complete) api.LMSSetValue('cmi.core.lesson_status', 'incomplete');
  return {
    report: ({ answers, score, complete: nowComplete }) => {
      if (ended) return;
      for (const { id, given, right } of answers) {
        const answer = `${right} ${given}`;
        if (told.get(id) === answer) continue;
        told.set(id, answer);
        const place = `cmi.interactions.${interactions}`;
        interactions += 1;
        api.LMSSetValue(`${place}.id`, identifier(id));
        api.LMSSetValue(`${place}.type`, 'fill-in');
        api.LMSSetValue(`${place}.student_response`, short(given));
        api.LMSSetValue(`${place}.result`, right ? 'correct' : 'wrong');
      }
      if (score !== undefined) {
        api.LMSSetValue('cmi.core.score.min', '0');
        api.LMSSetValue('cmi.core.score.max', '100');
        api.LMSSetValue('cmi.core.score.raw', String(Math.round(score * 100)));
      }
      if (nowComplete && !complete) {
        complete = true;
        api.LMSSetValue('cmi.core.lesson_status', 'completed');
      }
      api.LMSCommit('');
    },
    end: () => {
      if (ended) return;
      ended = true;
      api.LMSSetValue('cmi.core.session_time', timespan(now() - begun));
      api.LMSFinish('');
    },
  };
}
