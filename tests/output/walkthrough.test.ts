import { createHash } from 'node:crypto';
import { beforeAll, describe, expect, test } from 'vitest';
import { sourceText } from '../../src/diagnostics/index.js';
import type { WalkthroughInput } from '../../src/output/index.js';
import { buildWalkthrough } from '../../src/output/walkthrough.js';
import { readScore } from '../../src/score/index.js';
import type { PageData } from '../../src/timeline/index.js';
import { practiceLesson } from '../browser/practice-lesson.js';

const player = { script: 'const closing = "</script><!--";', style: 'p::after { content: "</style>" }' };
let input: WalkthroughInput;
let html: string;

const textOf = (bytes: Uint8Array | undefined): string =>
  new TextDecoder('utf-8', { fatal: true }).decode(bytes);
/** Megabytes are compared as such; told apart one by one they would take minutes. */
const isSame = (a: Uint8Array, b: Uint8Array | undefined): boolean =>
  Buffer.compare(a, b ?? Buffer.of()) === 0;
const block = (page: string, id: string): string =>
  new RegExp(`id="${id}">(.*?)</script>`, 's').exec(page)?.[1] ?? '';
const dataOf = (page: string): PageData => JSON.parse(block(page, 'page-data')) as PageData;
const build = (changed: Partial<WalkthroughInput>): string =>
  textOf(buildWalkthrough({ ...input, ...changed })[0]?.bytes);

beforeAll(async () => {
  input = await practiceLesson(player);
  html = build({});
});

describe('the walkthrough as files', () => {
  test('a page and its captions beside it, the same for the same lesson', () => {
    const files = buildWalkthrough(input);
    expect(files.map(({ name }) => name)).toEqual(['practice.html', 'practice.vtt']);
    expect(textOf(files[1]?.bytes)).toBe(input.captions);
    const again = buildWalkthrough(input);
    expect(again.map(({ name }) => name)).toEqual(files.map(({ name }) => name));
    expect(again.map(({ bytes }, at) => isSame(bytes, files[at]?.bytes))).toEqual([true, true]);
  });

  test('the page is one HTML document that points nowhere', () => {
    expect(html.startsWith('<!doctype html>\n<html lang="en">')).toBe(true);
    expect([...html.matchAll(/\b(?:src|href|action|data|poster|srcset)=(?!"data:)/g)]).toEqual([]);
    expect(html).not.toMatch(/url\((?!data:)/);
  });

  // Content Security Policy Level 3 (W3C working draft), section 8.3: the hash is that of the element's text.
  test('the policy allows this program and this style by their hashes, and nothing to be fetched', () => {
    const policy = (/Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1] ?? '').replaceAll(
      '&#39;',
      "'",
    );
    const sha = (text: string | undefined): string =>
      `'sha256-${createHash('sha256')
        .update(text ?? '')
        .digest('base64')}'`;
    const script = /<script>([\s\S]*?)<\/script>/.exec(html)?.[1];
    const style = /<style>([\s\S]*?)<\/style>/.exec(html)?.[1];
    expect(policy.split('; ')).toEqual([
      "default-src 'none'",
      `script-src ${sha(script)} 'wasm-unsafe-eval'`,
      `style-src ${sha(style)}`,
      'font-src data:',
      'img-src data:',
      "base-uri 'none'",
      "form-action 'none'",
    ]);
  });

  test('a closing tag inside the program or the style does not end it', () => {
    expect([...html.matchAll(/<\/style/g)]).toHaveLength(1);
    const script = /<script>([\s\S]*?)<\/script>/.exec(html)?.[1] ?? '';
    expect(new Function(`${script} return closing;`)()).toBe('</script><!--');
  });

  test('the sound bank and the clips come out byte for byte', () => {
    expect(isSame(Buffer.from(block(html, 'bank'), 'base64'), input.bank)).toBe(true);
    expect(dataOf(html).clips).toEqual(input.clips.map(({ say, skipSeconds }) => ({ say, skipSeconds })));
    input.clips.forEach((clip, index) => {
      expect(isSame(Buffer.from(block(html, `clip-${index}`), 'base64'), clip.file)).toBe(true);
    });
  });

  test('captions and data survive any text', async () => {
    const text = '</script><!-- \u2028\u2029 <b>&amp;"\'\\ 𝄪';
    const page = textOf(
      buildWalkthrough(await practiceLesson(player, { title: text, captions: `WEBVTT\n\n${text}` }))[0]
        ?.bytes,
    );
    expect(dataOf(page).title).toBe(text);
    expect(JSON.parse(block(page, 'captions'))).toBe(`WEBVTT\n\n${text}`);
    expect(page).toContain(
      `<title>&lt;/script&gt;&lt;!-- \u2028\u2029 &lt;b&gt;&amp;amp;&quot;&#39;\\ 𝄪</title>`,
    );
  });
});

describe('what the page is told', () => {
  test('every note with its spelled pitch, where it stands in the source', () => {
    const [score] = dataOf(html).scores;
    const notes = score?.notes ?? [];
    expect(notes).toHaveLength(readScore(sourceText('a', score?.abc ?? '')).value.notes.length);
    expect(
      notes
        .slice(0, 3)
        .map(({ pitch, onset, duration, bar, at }) => [pitch, onset, duration, bar, score?.abc.charAt(at)]),
    ).toEqual([
      ['A4', 0, 0.25, 0, 'A'],
      ['D3', 0.25, 0.25, 1, 'D'],
      ['D5', 0.25, 0.5, 1, 'd'],
    ]);
  });

  test('the harmony of every segment in the words of the trade', () => {
    const segments = dataOf(html).scores[0]?.segments.map(({ chord, roman, key, function: role }) => [
      chord,
      roman,
      key,
      role,
    ]);
    expect(segments?.[3]).toEqual(['A7', 'V7', 'D minor', 'dominant']);
    expect(segments?.[6]).toEqual(['C#dim/E', 'viio6', 'D minor', 'dominant']);
  });

  test('a beat is the unit of the metre, in compound metres three of them, or what the lesson says', async () => {
    const beats = (abc: string) =>
      practiceLesson(player, { abc }).then(
        lesson => dataOf(textOf(buildWalkthrough(lesson)[0]?.bytes)).scores[0]?.bars[0]?.beat,
      );
    const tune = (meter: string) =>
      `X:1\nT:t\nM:${meter}\nL:1/8\nK:C\nV:1\nC6|C6|C6|C6|C6|C6|C6|C6|C6|C6|C6|C6|C6|C6|C6|C6|]\n`;
    expect(await beats(tune('6/8'))).toBe(3 / 8);
    expect(await beats(tune('3/4'))).toBe(1 / 4);
    expect(await beats(tune('3/8'))).toBe(1 / 8);
    const lesson = { ...input.lesson, beat: { n: 1, d: 2 } };
    expect(dataOf(build({ lesson })).scores[0]?.bars[0]?.beat).toBe(1 / 2);
  });

  test('claims of words and questions are found by their path, the others stand under their step', () => {
    const { steps, claims } = dataOf(html);
    expect(claims.map(({ path, verdict }) => [path, verdict])).toEqual([
      ['steps/0/script/1/say/0', 'holds'],
      ['steps/0/script/1/say/1', 'holds'],
      ['steps/1/claims/0', 'arguable'],
      ['steps/1/script/2/because', 'holds'],
    ]);
    expect(steps.map(step => step.claims)).toEqual([[], [2], []]);
    expect(steps[1]?.script.find(action => action.kind === 'ask')).toMatchObject({ because: 3 });
  });

  test('steps name their bars by position; a step without bars is about the whole piece', () => {
    expect(dataOf(html).steps.map(({ firstBar, lastBar }) => [firstBar, lastBar])).toEqual([
      [0, 4],
      [5, 8],
      [9, 16],
    ]);
    const steps = input.lesson.steps.map(step => ({
      title: step.title,
      script: step.script,
      show: step.show,
      span: step.span,
    }));
    expect(dataOf(build({ lesson: { ...input.lesson, steps } })).steps[0]).toMatchObject({
      firstBar: 0,
      lastBar: 16,
    });
  });

  test('a lesson that changed has another id, so that what was kept for the old one is not mixed in', () => {
    const changed = { ...input.lesson, source: sourceText('practice.yaml', 'changed') };
    expect(dataOf(build({ lesson: changed })).id).not.toBe(dataOf(html).id);
  });
});
