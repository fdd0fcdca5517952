import { statement as validate } from '@learninglocker/xapi-validation/dist/factory.js';
import { Scorm12API } from 'scorm-again';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { cmi5Reporter, readLaunch } from '../../src/player/reporting/cmi5.js';
import { learningReport } from '../../src/player/reporting/reporter.js';
import { scormReporter, timespan } from '../../src/player/reporting/scorm.js';
import type { PageData } from '../../src/timeline/index.js';

const ask = (id: string, question: string) =>
  ({ kind: 'ask', id, question, choices: [], answer: 'V' }) as const;
const data = {
  steps: [{ script: [ask('1.1', 'Which chord?')] }, { script: [ask('2.1', 'And here?')] }],
} as unknown as PageData;
const right = { given: 'V7', tries: 1, right: true, shown: false };
const open = { given: 'ii', tries: 1, right: false, shown: false };

describe('what a platform is told', () => {
  test('settled answers, the share that is right, and completion when all is heard and settled', () => {
    expect(learningReport(data, { step: 0, heard: [0], answers: { '1.1': right, '2.1': open } })).toEqual({
      answers: [{ id: '1.1', question: 'Which chord?', given: 'V7', right: true }],
      score: 0.5,
      complete: false,
    });
    const shown = { ...open, shown: true };
    expect(
      learningReport(data, { step: 0, heard: [0, 1], answers: { '1.1': right, '2.1': shown } }),
    ).toMatchObject({
      score: 0.5,
      complete: true,
    });
  });
});

describe('SCORM 1.2', () => {
  // Type CMITimespan (SCORM 1.2 Run-Time Environment, section 3.4.3): HHHH:MM:SS.SS.
  test.each([
    [0, '0000:00:00.00'],
    [59.999, '0000:01:00.00'],
    [3671.5, '0001:01:11.50'],
  ])('%f seconds', (seconds, text) => {
    expect(timespan(seconds)).toBe(text);
  });

  test('initialises, reports each answer once, completes once, and finishes', () => {
    const calls: string[] = [];
    const note =
      (name: string) =>
      (...values: string[]): string => {
        calls.push([name, ...values].join(' '));
        return 'true';
      };
    let now = 10;
    const reporter = scormReporter(
      {
        LMSInitialize: note('initialize'),
        LMSFinish: note('finish'),
        LMSGetValue: () => 'not attempted',
        LMSSetValue: note('set'),
        LMSCommit: note('commit'),
      },
      () => now,
    );
    const answers = [{ id: '1.1', question: 'Which chord?', given: 'V7', right: true }];
    reporter.report({ answers, score: 1, complete: false });
    reporter.report({ answers, score: 1, complete: true });
    reporter.report({ answers, score: 1, complete: true });
    now = 100;
    reporter.end();
    reporter.end();
    // Data model elements: SCORM 1.2 Run-Time Environment, section 3.4.
    expect(calls.filter(call => !/score|commit/.test(call))).toEqual([
      'initialize ',
      'set cmi.core.lesson_status incomplete',
      'set cmi.interactions.0.id question-1-1',
      'set cmi.interactions.0.type fill-in',
      'set cmi.interactions.0.student_response V7',
      'set cmi.interactions.0.result correct',
      'set cmi.core.lesson_status completed',
      'set cmi.core.session_time 0000:01:30.00',
      'finish ',
    ]);
    expect(calls).toContain('set cmi.core.score.raw 100');
  });
});

/** A run-time environment of SCORM 1.2 in which every call and every value is checked against the data model (scorm-again, MIT). */
describe('a SCORM 1.2 platform', () => {
  test('takes every value that it is told, and keeps them', () => {
    const platform = new Scorm12API({ autocommit: false, logLevel: 5 });
    const errors: string[] = [];
    const told =
      <Values extends readonly string[]>(name: string, call: (...values: Values) => string) =>
      (...values: Values): string => {
        const answer = call(...values);
        const code = platform.LMSGetLastError();
        if (code !== '0') errors.push(`${name} ${values.join(' ')}: ${code}`);
        return answer;
      };
    let now = 0;
    const reporter = scormReporter(
      {
        LMSInitialize: told('initialize', () => platform.LMSInitialize()),
        LMSFinish: told('finish', () => platform.LMSFinish()),
        LMSGetValue: told('get', (element: string) => String(platform.LMSGetValue(element))),
        LMSSetValue: told('set', (element: string, value: string) => platform.LMSSetValue(element, value)),
        LMSCommit: told('commit', () => platform.LMSCommit()),
      },
      () => now,
    );
    const answers = [
      { id: '1.1', question: 'Which chord?', given: 'V7', right: true },
      { id: '2.10', question: 'Why?', given: '♯ "so" '.repeat(60), right: false },
    ];
    reporter.report({ answers, score: 0.5, complete: false });
    reporter.report({ answers, score: 0.5, complete: true });
    now = 7261.999;
    reporter.end();
    expect(errors).toEqual([]);
    expect(platform.cmi.core.lesson_status).toBe('completed');
    expect(platform.cmi.core.score.raw).toBe('50');
    // What was answered can be written only; the platform hands it on as a whole.
    expect(platform.renderCMIToJSONObject()).toMatchObject({
      cmi: { interactions: { 0: { id: 'question-1-1' }, 1: { id: 'question-2-10', result: 'wrong' } } },
    });
  });
});

describe('cmi5', () => {
  afterEach(() => {
    vi.unstubAllGlobals();
  });
  const actor = { objectType: 'Agent', account: { homePage: 'https://school.example', name: '7' } };
  const query = new URLSearchParams({
    endpoint: 'https://school.example/xapi',
    fetch: 'https://school.example/token',
    actor: JSON.stringify(actor),
    registration: '6a3b1b9e-7a35-4f0c-9a5f-0a6d1f0f9a11',
    activityId: 'urn:lesson',
  });

  test('a page that was opened by itself has no launch', () => {
    expect(readLaunch('file:///lesson.html')).toBeUndefined();
    expect(readLaunch('https://a.example/?actor=%7B%7D&endpoint=x')).toBeUndefined();
    expect(readLaunch(`https://a.example/?${query.toString()}`)).toMatchObject({
      endpoint: 'https://school.example/xapi/',
      actor,
    });
  });

  test('takes its token, reads the launch data, and sends its statements in order', async () => {
    const sent: { url: string; init: RequestInit }[] = [];
    const answerTo = (url: string): unknown => {
      if (url.endsWith('/token')) return { 'auth-token': 'abc' };
      if (url.includes('LMS.LaunchData'))
        return {
          launchMode: 'Normal',
          contextTemplate: {
            extensions: { 'https://w3id.org/xapi/cmi5/context/extensions/sessionid': 's1' },
          },
        };
      return {};
    };
    vi.stubGlobal('fetch', (url: string, init: RequestInit = {}) => {
      sent.push({ url, init });
      return Promise.resolve(new Response(JSON.stringify(answerTo(url))));
    });
    const launch = readLaunch(`https://a.example/?${query.toString()}`);
    if (launch === undefined) throw new Error('no launch');
    let now = 0;
    const reporter = cmi5Reporter(launch, () => now);
    reporter.report({
      answers: [{ id: '1.1', question: 'Which chord?', given: 'V7', right: true }],
      score: 1,
      complete: true,
    });
    now = 12.5;
    await vi.waitFor(() => {
      expect(sent.filter(({ url }) => url.endsWith('/statements')).length).toBe(3);
    });
    reporter.end();
    await vi.waitFor(() => {
      expect(sent.filter(({ url }) => url.endsWith('/statements')).length).toBe(4);
    });
    expect(sent[0]).toEqual({ url: 'https://school.example/token', init: { method: 'POST' } });
    const statements = sent
      .filter(({ url }) => url.endsWith('/statements'))
      .map(({ init }) => JSON.parse(String(init.body)) as Record<string, Record<string, unknown>>);
    // The form of a statement: xAPI 1.0.3, part two, by a validator of its own.
    expect(statements.flatMap(statement => validate(statement, ['statement']))).toEqual([]);
    // Order and verbs: cmi5, Quartz 1st edition, sections 9.3.1 to 9.3.9.
    expect(statements.map(({ verb }) => verb?.['id'])).toEqual([
      'http://adlnet.gov/expapi/verbs/initialized',
      'http://adlnet.gov/expapi/verbs/answered',
      'http://adlnet.gov/expapi/verbs/completed',
      'http://adlnet.gov/expapi/verbs/terminated',
    ]);
    const categories = statements.map(({ context }) =>
      (context?.['contextActivities'] as { category: { id: string }[] }).category.map(({ id }) =>
        id.replace(/.*\//, ''),
      ),
    );
    expect(categories).toEqual([['cmi5'], [], ['cmi5', 'moveon'], ['cmi5']]);
    for (const { context } of statements)
      expect(context).toMatchObject({
        registration: launch.registration,
        extensions: { 'https://w3id.org/xapi/cmi5/context/extensions/sessionid': 's1' },
      });
    expect(statements[3]?.['result']).toEqual({ duration: 'PT12.50S' });
    for (const { init } of sent.slice(1))
      expect(init.headers).toMatchObject({ Authorization: 'Basic abc', 'X-Experience-API-Version': '1.0.3' });
  });

  test('a platform that is gone stops nothing', async () => {
    vi.stubGlobal('fetch', () => Promise.reject(new TypeError('no network')));
    const launch = readLaunch(`https://a.example/?${query.toString()}`);
    if (launch === undefined) throw new Error('no launch');
    const reporter = cmi5Reporter(launch, () => 0);
    reporter.report({ answers: [], complete: true });
    await new Promise(resolve => setTimeout(resolve, 20));
    expect(() => {
      reporter.end();
    }).not.toThrow();
  });
});
