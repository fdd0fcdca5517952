import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { catalogue, lookUpCode } from '../../src/diagnostics/index.js';

const src = fileURLToPath(new URL('../../src/', import.meta.url));
const sources = readdirSync(src, { recursive: true, encoding: 'utf8' })
  .filter(path => path.endsWith('.ts') && !path.startsWith('diagnostics/catalogue/'))
  .map(path => readFileSync(src + path, 'utf8'));

/** Codes that stand as a string in the program itself. */
const used = new Set(
  sources.flatMap(text => [...text.matchAll(/'([LSHCTR]\d{4})'/g)].map(match => match[1] ?? '')),
);
const codes = Object.keys(catalogue);

describe('the catalogue of findings', () => {
  it('has every code that the program uses, and no other', () => {
    expect(sources.length).toBeGreaterThan(100);
    expect([...used].sort()).toEqual([...codes].sort());
  });

  it('has a name of its own for each code', () => {
    const names = Object.values(catalogue).map(({ name }) => name);
    expect(names.filter(name => !/^[a-zA-Z0-9]+(-[a-zA-Z0-9]+)*$/.test(name))).toEqual([]);
    // A name says what is wrong; the letter of the code says where it was noticed.
    const twice = codes.filter(
      (code, index) =>
        codes.findIndex((other, at) => names[at] === names[index] && other[0] === code[0]) !== index,
    );
    expect(twice).toEqual([]);
  });

  it('says in one sentence what each finding is', () => {
    const wrong = Object.entries(catalogue).filter(([, { summary }]) => !/^[^\n]{10,160}\.$/.test(summary));
    expect(wrong.map(([code]) => code)).toEqual([]);
  });

  it('explains each finding in complete sentences and well-formed Markdown', () => {
    const wrong = Object.entries(catalogue).filter(([, { explanation, summary }]) => {
      const prose = explanation.replace(/```[\s\S]*?```/g, '').trim();
      const fences = explanation.match(/^```/gm)?.length ?? 0;
      return prose.length < 30 || !/[.:)]$/.test(prose) || fences % 2 !== 0 || prose.startsWith(summary);
    });
    expect(wrong.map(([code]) => code)).toEqual([]);
  });

  it('shows an example for every finding about a lesson or a run', () => {
    const without = Object.entries(catalogue).filter(
      ([code, { explanation }]) =>
        /^[LR]/.test(code) && !/```\w+\n\S/.test(explanation) && !/```\w+\n\s+\S/.test(explanation),
    );
    expect(without.map(([code]) => code)).toEqual([]);
  });

  it('finds a code as it is typed', () => {
    expect(lookUpCode('l0301')?.name).toBe('broken-claim-mark');
    expect(lookUpCode('L9999')).toBeUndefined();
    expect(lookUpCode('__proto__')).toBeUndefined();
    expect(lookUpCode('constructor')).toBeUndefined();
  });
});
