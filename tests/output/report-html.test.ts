/** Reports as one HTML document. Their look is judged by eye and in tests/browser/report.test.ts; here stands what they must hold. */
import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { text } from 'node:stream/consumers';
import { JSDOM } from 'jsdom';
import { describe, expect, test } from 'vitest';
import { checkLessonFile } from '../../src/cli/check-lesson-file.js';
import { analysisFormats, checkFormats } from '../../src/output/index.js';
import type { CheckReport } from '../../src/output/index.js';
import { loadScore, scoreLibrary } from '../../src/workshop/index.js';
import { checkedLessons, plain } from './checked-lesson.js';

const parse = (html: string): Document => new JSDOM(html).window.document;
const page = async (report: CheckReport): Promise<Document> => parse(await checkFormats.html(report, plain));

/** What could run, or be fetched from elsewhere. */
const foreign = (document: Document): readonly string[] =>
  [...document.querySelectorAll('*')].flatMap(element =>
    [...element.attributes]
      .filter(({ name, value }) =>
        name === 'href' || name === 'src' || name === 'xlink:href'
          ? !/^(?:#|data:image\/)/.test(value)
          : /^on/.test(name),
      )
      .map(({ name, value }) => `${element.tagName} ${name}=${value}`),
  );

describe('the report of a lesson', () => {
  test('has every claim once, with number, words, verdict, code, reason and nearest statement', async () => {
    const report = await checkedLessons('fails-and-others');
    const document = await page(report);
    const shown = [...document.querySelectorAll('.verdict-note')].map(note => ({
      number: note.querySelector('.number')?.textContent,
      id: note.id,
      text: note.querySelector('.statement b')?.textContent,
      verdict: note.querySelector('.verdict')?.textContent.trim(),
      code: note.querySelector('code')?.textContent,
      nearest: note.querySelector('.nearest')?.lastChild?.textContent,
    }));
    const claims = report.lessons[0]?.claims ?? [];
    expect(claims.length).toBe(9);
    expect(shown).toEqual(
      claims.map(({ entry, verdict }, index) => ({
        number: String(index + 1),
        id: `claim-${String(index + 1)}`,
        text: entry.text,
        verdict: verdict.verdict,
        code: verdict.code,
        nearest: verdict.nearest,
      })),
    );
  });

  test('marks every note that decides a claim in the bars of its step, by the shape of its role', async () => {
    const report = await checkedLessons('fails-and-others');
    const document = await page(report);
    const [lesson] = report.lessons;
    const claim = lesson?.claims.findIndex(({ entry }) => entry.text === 'bar 3 is V7/ii') ?? -1;
    const evidence = lesson?.claims[claim]?.verdict.evidence ?? [];
    // One mark goes around the notes of a chord; its title names each of them.
    const shapes = (name: string): readonly (string | undefined)[] =>
      [...document.querySelectorAll(`.of-${String(claim + 1)} > .${name}`)].flatMap(mark =>
        (mark.querySelector('title')?.textContent ?? '')
          .split('\n')
          .map(() => mark.firstElementChild?.tagName),
      );
    const counted = (role: string): number =>
      evidence.filter(one => one.role === role && one.note !== undefined).length;
    // A, G and C sharp make A7 the chord, against E7.
    expect([counted('contradicts'), counted('supports')]).toEqual([3, 1]);
    expect(shapes('against')).toEqual(Array(counted('contradicts')).fill('path'));
    expect(shapes('for')).toEqual(Array(counted('supports')).fill('rect'));
    expect(shapes('aside')).toEqual(Array(counted('set aside')).fill('rect'));
  });

  test('puts the numbers of all claims on a note side by side, above everything that is drawn', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'barwise-numbers-'));
    const alternating = Array.from({ length: 8 }, () => ['I', 'V']).flat();
    const said = ['V', 'ii', 'I', 'vi', 'iii', 'IV', ...alternating].map(numeral => `bar 1 is ${numeral}`);
    try {
      writeFileSync(join(folder, 'one.abc'), 'X:1\nL:1/1\nM:4/4\nK:C\n[CEGc] | [DFA] |]\n');
      writeFileSync(
        join(folder, 'one.yaml'),
        `format: 1\ntitle: T\nscore: one.abc\nhome: C major\nsteps:\n  - title: S\n    claims: [${said.join(', ')}]\n`,
      );
      const { report } = await checkLessonFile(join(folder, 'one.yaml'), scoreLibrary(false));
      const document = await page({ lessons: [report] });
      const texts = [...document.querySelectorAll('.marks > text')];
      // Those that hold have none; more than two in a row are told together.
      expect(texts.map(({ textContent }) => textContent)).toEqual(['1 2 4–6 8 10 12 14 16 18 20 22']);
      const edge = Number(texts[0]?.closest('svg')?.getAttribute('viewBox')?.split(' ')[0]);
      expect(Number(texts[0]?.getAttribute('x'))).toBeGreaterThan(edge);
      const highest = Math.min(
        ...[...document.querySelectorAll('.system .marks path')].map(path =>
          Number(/^M\S+ (\S+?)l/.exec(path.getAttribute('d') ?? '')?.[1]),
        ),
      );
      expect(Number(texts[0]?.getAttribute('y'))).toBeLessThan(highest);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  test('numbers its lines by their first bar, and a pickup not at all', async () => {
    const { report } = await checkLessonFile('sample-lessons/mill-road.yaml', scoreLibrary(false));
    const document = await page({ lessons: [report] });
    const lines = [...document.querySelectorAll('#step-1 svg.system')];
    expect(lines.length).toBeGreaterThan(4);
    expect(lines[0]?.getAttribute('aria-label')).toMatch(/^the pickup and bars 1–\d$/u);
    for (const [index, line] of lines.entries()) {
      const named = /^bars? (\d+)/u.exec(line.getAttribute('aria-label') ?? '')?.[1];
      expect(line.querySelector('.bar-number')?.textContent).toBe(index === 0 ? undefined : named);
    }
  });

  test('sets real accidentals in claims, reasons, notes and marks', async () => {
    const document = await page(await checkedLessons('fails-and-others'));
    const set = [...document.querySelectorAll('.statement b, .why, .nearest, .evidence dd, .marks title')]
      .map(({ textContent }) => textContent)
      .join('\n');
    expect(set).toContain('C♯');
    expect(set.match(/\b[A-G](?:#|b)/g)).toBeNull();
  });

  test('links the words of the narration with their claims', async () => {
    const document = await page(await checkedLessons('fails-and-others'));
    const links = [...document.querySelectorAll('.narration .claim + .ref')];
    expect(links.map(link => [link.previousElementSibling?.className, link.getAttribute('href')])).toEqual([
      ['claim holds', '#claim-1'],
      ['claim fails', '#claim-2'],
      ['claim fails', '#claim-3'],
    ]);
  });

  test('names the hash of both files, byte for byte', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'barwise-hash-'));
    const score = readFileSync('tests/fixtures/check/all-hold/garden-gate.abc', 'utf8');
    const lesson = readFileSync('tests/fixtures/check/all-hold/lesson.yaml', 'utf8').replace(/\n/g, '\r\n');
    writeFileSync(join(folder, 'garden-gate.abc'), score);
    writeFileSync(join(folder, 'lesson.yaml'), `\uFEFF${lesson}`);
    const { report } = await checkLessonFile(join(folder, 'lesson.yaml'), scoreLibrary(false));
    rmSync(folder, { recursive: true });
    const document = await page({ lessons: [report] });
    const sha256 = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');
    expect([...document.querySelectorAll('.hash')].map(({ textContent }) => textContent)).toEqual([
      sha256(`\uFEFF${lesson}`),
      sha256(score),
    ]);
  });

  test('names the conventions in force and which of them the lesson sets', async () => {
    const document = await page(await checkedLessons('all-hold'));
    const facts = document.querySelector('footer .facts')?.textContent ?? '';
    expect(facts).toContain('seventh-on-I: major');
    expect(facts).toContain('cadence-names: US');
  });

  test.each([
    'score-missing',
    'score-is-no-music',
    'unreadable-claims',
    'lesson-errors-and-claims',
    'score-with-errors',
  ])('of %s tells the findings and holds what it can', async name => {
    const report = await checkedLessons(name);
    const document = await page(report);
    const codes = [...document.querySelectorAll('.findings code')].map(({ textContent }) => textContent);
    expect(codes).toEqual((report.lessons[0]?.diagnostics ?? []).map(({ code }) => code));
    expect(codes.length).toBeGreaterThan(0);
  });

  test('runs nothing and fetches nothing, whatever the lesson says', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'barwise-hostile-'));
    const evil = '<img src=x onerror=alert(1)><script>alert(2)</script>';
    writeFileSync(
      join(folder, 'evil.abc'),
      `X:1\nT:${evil}\nC:${evil}\nM:4/4\nL:1/4\nK:C\nV:1 name="${evil.replaceAll('"', '')}"\n"^${evil}"C E G c |]\nw: ${evil}\n`,
    );
    writeFileSync(
      join(folder, 'lesson.yaml'),
      `format: 1\ntitle: '${evil}'\nscore: evil.abc\nhome: C major\nsteps:\n  - title: '${evil}'\n    bars: 1\n    say: '${evil} [${evil}]{bar 1 is V}'\n    claims: ['${evil}', { claim: bar 1 is ii, accept: '${evil} it is' }]\n`,
    );
    const { report } = await checkLessonFile(join(folder, 'lesson.yaml'), scoreLibrary(false));
    rmSync(folder, { recursive: true });
    const document = await page({ lessons: [report] });
    expect(document.querySelector('h1')?.textContent).toBe(evil);
    expect(document.querySelectorAll('script, img, iframe, object, link:not([rel=icon])')).toHaveLength(0);
    expect(foreign(document)).toEqual([]);
    expect(document.querySelector('meta[http-equiv]')?.getAttribute('content')).toMatch(
      /^default-src 'none';/,
    );
  });

  test('is made of plain data, which one process can send to another', async () => {
    const report = await checkedLessons('fails-and-others', 'acceptances', 'score-missing');
    expect(structuredClone(report)).toEqual(report);
    expect(report.lessons.filter(({ subject }) => subject !== undefined)).toHaveLength(3);
  });

  test('of several lessons has one page, and numbers that go on', async () => {
    const document = await page(await checkedLessons('all-hold', 'fails-and-others'));
    const ids = [...document.querySelectorAll('[id]')].map(({ id }) => id);
    expect(document.querySelectorAll('article')).toHaveLength(2);
    expect(ids.filter((id, index) => id.startsWith('claim-') && ids.indexOf(id) !== index)).toEqual([]);
  });
});

describe('the report of an analysis', () => {
  const analysed = async (path: string): Promise<Document> => {
    const { analysis, diagnostics } = await loadScore(path);
    const scores = [{ file: path, diagnostics, ...(analysis === undefined ? {} : { analysis }) }];
    return parse(await text(analysisFormats.html(scores)));
  };

  test('labels every harmony under the staff and lists it in the table', async () => {
    const document = await analysed('tests/fixtures/check/all-hold/garden-gate.abc');
    const { analysis } = await loadScore('tests/fixtures/check/all-hold/garden-gate.abc');
    const chords = [...document.querySelectorAll('.harmonies tbody td.chord')].map(cell => cell.textContent);
    expect(chords).toHaveLength(analysis?.segments.length ?? -1);
    expect(document.querySelectorAll('.label.chord').length).toBeGreaterThanOrEqual(chords.length);
    // Bar 3 of the piece is A C# E G, V7/V in G major (Open Music Theory, Applied Chords), stacked from the root.
    const bar3 = [...document.querySelectorAll('.harmonies tbody tr')].find(
      row => row.firstElementChild?.textContent === '3',
    );
    expect(['.chord', '.stack', '.numeral'].map(part => bar3?.querySelector(part)?.textContent)).toEqual([
      'A7',
      'AC♯EG',
      'V7/V',
    ]);
  });

  test('labels stand under the note on which the harmony begins', async () => {
    const document = await analysed('tests/fixtures/check/all-hold/garden-gate.abc');
    const [first] = document.querySelectorAll('.system');
    const xs = [...(first?.querySelectorAll('.label.chord') ?? [])].map(label =>
      Number(/translate\(([\d.]+)/.exec(label.getAttribute('transform') ?? '')?.[1]),
    );
    expect(xs.length).toBeGreaterThan(1);
    expect(xs).toEqual([...xs].sort((a, b) => a - b));
  });

  test('writes nothing of its own into the music, and runs and fetches nothing', async () => {
    const document = await analysed('sample-lessons/long-table.abc');
    expect(foreign(document)).toEqual([]);
    expect(document.querySelectorAll('script')).toHaveLength(0);
  });

  test('of a score that is not there tells its findings', async () => {
    const document = await analysed('tests/fixtures/check/score-missing/nowhere.abc');
    expect(document.querySelectorAll('.findings li').length).toBeGreaterThan(0);
    expect(document.querySelectorAll('.harmonies')).toHaveLength(0);
  });
});
