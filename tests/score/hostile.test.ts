import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mostCharacters } from '../../src/score/index.js';
import { header, printFinding, read } from './reading.js';

/** Each row must end at once: a stall fails by the time limit of the test, not by a measurement. */
const rows: readonly (readonly [string, string, string])[] = [
  ['a voice that would reach the prototype of all objects', `${header}V:__proto__\nCDEF|`, 'S0003 5:1'],
  ['a voice with the name of an object method', `${header}[V:toString]CDEF|`, 'S0003 5:1'],
  ['a megabyte of spaces', `${header}C${' '.repeat(1e6)}D|`, 'S0001 1:1'],
  ['a megabyte of overlays', header + '&'.repeat(1e6), 'S0001 1:1'],
  ['a megabyte of parentheses', header + '('.repeat(1e6), 'S0001 1:1'],
  ['fifty megabytes of notes', 'C'.repeat(5e7), 'S0001 1:1'],
  ['a run of spaces', `${header}C${' '.repeat(50_000)}D|`, 'S0004 5:2'],
  ['tabs and spaces in turn', `${header}${'\t '.repeat(90_000)}C|`, 'S0004 5:1'],
  ['fields in brackets without a note', `${header}${'[K:G]'.repeat(20_000)}C|`, 'S0004 5:1'],
  ['slurs that never close', header + 'C(('.repeat(20_000), 'S0007 5:452'],
  ['grace notes that never close', header + 'C{'.repeat(20_000), 'S0009 5:202'],
  ['overlays over one bar', header + 'C&'.repeat(20_000), 'S0008 5:32'],
  [
    'ten thousand voices',
    header + Array.from({ length: 10_000 }, (_, voice) => `V:${String(voice)}\nC|\n`).join(''),
    'S0002 133:1',
  ],
  ['more notes than can be worked with', header + 'C'.repeat(399).concat('|').repeat(160), 'S0010 5:60001'],
  ['a chord of more notes than that', `${header}[${'CE'.repeat(30_001)}]|`, 'S0010 5:1'],
  ['a rest without end', `${header}Z999999999|C4|`, 'S0406 5:1'],
  [
    'lengths that have no common measure',
    header + [89, 83, 79, 73, 71, 67, 61, 59, 53, 47].map(p => `(${String(p)}:2:1C`).join(''),
    'S0005 1:1',
  ],
  ['repeats without end', `${header}${'C4|'.repeat(2000)}[1-99 C4:|`, 'S0408 5:1'],
  ['an ending of a thousand million passes', `${header}|:C4|[1-999999999 D4:|`, 'S0405 5:5'],
  ['a length without end', `${header}C${'9'.repeat(300)}|`, 'S0404 5:1'],
];

describe('a hostile score ends in a finding', () => {
  it.each(rows)('%s', (_, text, expected) => {
    expect(read(text).findings.map(printFinding)).toContain(expected);
    expect(Object.keys(Object.prototype)).toEqual([]);
  });

  it('reads text up to the limit', () => {
    const line = `CDEF|GABc| % ${'words '.repeat(40)}\n`;
    const text = header + line.repeat(Math.floor((mostCharacters - header.length) / line.length));
    expect(read(text).findings).toEqual([]);
  });
});

describe('any text', () => {
  const signs = fc.constantFrom(
    ...'CDEFGABcdefgabzxyZ0123456789/<>()[]{}|:-_^=,\'".!~&%\\ \n'.split(''),
    '[V:1]',
    '[V:2]',
    '[K:D]',
    '[M:3/4]',
    '[L:1/16]',
    '\nV:2\n',
    '\nw: a b\n',
    '(3',
    ':|2',
    '!D.C.!',
    'Q:1/4=60\n',
  );

  it('gives a score whose ranges lie inside the source, and never throws', () => {
    fc.assert(
      fc.property(fc.array(signs, { maxLength: 80 }), parts => {
        const text = header + parts.join('');
        const { score, findings } = read(text);
        const ranges = [...score.notes, ...score.rests, ...score.bars]
          .map(({ span }) => span)
          .concat(findings.flatMap(({ span }) => span ?? []));
        for (const { start, end } of ranges) {
          expect(start).toBeGreaterThanOrEqual(0);
          expect(end).toBeGreaterThanOrEqual(start);
          expect(end).toBeLessThanOrEqual(text.length + 1);
        }
        for (const note of score.notes)
          expect(text.slice(note.span.start, note.span.end)).toMatch(/^[\^_=]*[A-Ga-g][,']*[\d/]*$/);
      }),
      { numRuns: 400, seed: 20_240_917 },
    );
  });
});
