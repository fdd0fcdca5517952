/** Scores engraved for reports: every note stands where the staff wants it, whatever the passage. */
import { readFileSync, readdirSync } from 'node:fs';
import fc from 'fast-check';
import { beforeAll, describe, expect, test, vi } from 'vitest';
import { sourceText } from '../../src/diagnostics/index.js';
import { startEngraver } from '../../src/output/report/engraver.js';
import type { Engraver } from '../../src/output/report/engraver.js';
import { engravePassages } from '../../src/output/report/excerpts.js';
import { sharedGlyphs } from '../../src/output/report/glyphs.js';
import { lineEnds } from '../../src/output/report/line-ends.js';
import { pathExtent } from '../../src/output/report/path-extent.js';
import { readScore, toNumber } from '../../src/score/index.js';
import type { Score } from '../../src/score/index.js';

const read = (path: string): Score => readScore(sourceText(path, readFileSync(path, 'utf8'))).value;
const scores = ['sample-lessons', 'tests/fixtures/check/all-hold', 'tests/fixtures/score'].flatMap(folder =>
  readdirSync(folder)
    .filter(name => name.endsWith('.abc'))
    .map(name => `${folder}/${name}`),
);

let engraver: Engraver;
beforeAll(async () => {
  engraver = await startEngraver();
});

describe('a passage', () => {
  test.each(scores)('%s: every note of every line has its head, later ones further right', path => {
    const score = read(path);
    const [systems = []] = engravePassages(
      engraver,
      score,
      [{ firstBar: 0, lastBar: score.bars.length - 1 }],
      430,
    );
    expect(systems.flatMap(({ firstBar, lastBar }) => [firstBar, lastBar])).toEqual(
      systems.flatMap(({ firstBar }, index) => [
        firstBar,
        (systems[index + 1]?.firstBar ?? score.bars.length) - 1,
      ]),
    );
    for (const system of systems) {
      const notes = score.notes.filter(
        ({ bar, grace }) => !grace && bar >= system.firstBar && bar <= system.lastBar,
      );
      expect(notes.filter(({ id }) => !system.heads.has(id))).toEqual([]);
      // Heads that stand a second apart are set side by side, so neighbours in time are compared by voice.
      for (const voice of score.voices) {
        const xs = notes
          .filter(note => note.voice === voice.id)
          .map(({ id, onset }) => ({ onset: toNumber(onset), x: system.heads.get(id)?.x ?? 0 }));
        for (const [index, { onset, x }] of xs.entries()) {
          const next = xs[index + 1];
          if (next !== undefined && next.onset > onset) expect(next.x).toBeGreaterThan(x);
        }
      }
    }
  });

  test('higher notes stand higher, a step of the scale every half space (Open Music Theory, Notation of pitch)', () => {
    const score = readScore(
      sourceText('scale.abc', 'X:1\nM:4/4\nL:1/4\nK:C\nC D E F | G A B c | ^c =c _e g |]\n'),
    ).value;
    const [[system] = []] = engravePassages(engraver, score, [{ firstBar: 0, lastBar: 2 }], 900);
    const ys = score.notes.map(({ id }) => system?.heads.get(id)?.y ?? NaN);
    const steps = ys.slice(1).map((y, index) => Math.round((10 * ((ys[index] ?? 0) - y)) / 3.875) / 10);
    expect(steps).toEqual([1, 1, 1, 1, 1, 1, 1, 0, 0, 2, 2]);
  });

  test('begins and ends its lines with itself, though passages cut each other', () => {
    const score = read('sample-lessons/mill-road.abc');
    const passages = [
      { firstBar: 1, lastBar: 3 },
      { firstBar: 2, lastBar: 3 },
      { firstBar: 0, lastBar: 32 },
      { firstBar: 4, lastBar: 4 },
    ];
    const drawn = engravePassages(engraver, score, passages, 430);
    expect(drawn.map(systems => [systems[0]?.firstBar, systems.at(-1)?.lastBar])).toEqual(
      passages.map(({ firstBar, lastBar }) => [firstBar, lastBar]),
    );
  });

  test('is set for lines of its width, however long the rest of the piece is', () => {
    const score = read('sample-lessons/mill-road.abc');
    const passages = [4, 29].map(bar => ({ firstBar: bar, lastBar: bar }));
    for (const [system, ...others] of engravePassages(engraver, score, passages, 430)) {
      expect(others).toEqual([]);
      expect(system?.staves.right).toBeLessThan(440);
    }
  });

  test('has the metre in both staves where the piece begins, under two titles too', () => {
    const text = readFileSync('sample-lessons/mill-road.abc', 'utf8');
    const paths = (abc: string): readonly number[] => {
      const score = readScore(sourceText('mill-road.abc', abc)).value;
      const [systems = []] = engravePassages(engraver, score, [{ firstBar: 0, lastBar: 12 }], 430);
      return systems.map(({ markup }) => markup.match(/<path/g)?.length ?? 0);
    };
    const without = paths(text.replace('M:3/4', 'M:none'));
    expect(without.length).toBeGreaterThan(1);
    expect(paths(text)).toEqual(without.map((count, line) => (line === 0 ? count + 4 : count)));
  });

  test('a hairpin that ends with the first note of a line does not reach into the margin', () => {
    const abc = 'X:1\nM:3/4\nL:1/4\nK:C\nC D !<(!E|!<)!F G A|]\n';
    const hairpins = engraver
      .engrave(abc, 430, [[0]])
      .map(({ markup }) => markup.match(/d="M [^LM"]+L [^LM"]+M [^LM"]+L [^LM"]+"/g) ?? []);
    expect(hairpins.map(({ length }) => length)).toEqual([1, 0]);
  });

  test('prints nothing of its own, which would end in the report', () => {
    const printed = vi.spyOn(console, 'log');
    // The engraver has no sign for a note of 32 whole notes and says so to its makers.
    engraver.engrave('X:1\nM:none\nL:1/1\nK:C\nC32 C|]\n', 430, [[]]);
    expect(printed.mock.calls).toEqual([]);
    printed.mockRestore();
  });

  test('leaves no browser behind in the program', () => {
    expect(['window', 'document'].filter(name => name in globalThis)).toEqual([]);
  });
});

describe('line ends', () => {
  const bars = fc.array(fc.integer({ min: 20, max: 200 }), { minLength: 1, maxLength: 60 });

  test('put every bar on one line, in order, and none too full', () => {
    fc.assert(
      fc.property(bars, fc.integer({ min: 200, max: 900 }), (widths, room) => {
        const ends = lineEnds(widths, room);
        expect(ends.at(-1)).toBe(widths.length - 1);
        expect(ends).toEqual([...new Set(ends)].sort((a, b) => a - b));
        for (const [index, end] of ends.entries()) {
          const line = widths.slice((ends[index - 1] ?? -1) + 1, end + 1);
          const full = line.reduce((sum, width) => sum + width, 0);
          expect(line.length === 1 || full <= room / 0.86).toBe(true);
        }
      }),
      { seed: 11 },
    );
  });

  test('are even: eight equal bars in room for five make two lines of four', () => {
    expect(lineEnds(Array<number>(8).fill(100), 500)).toEqual([3, 7]);
  });
});

describe('a path', () => {
  // The commands as SVG 2 defines them, chapter 9.3.
  test.each([
    ['M 10 20 L 30 5', { left: 10, top: 5, right: 30, bottom: 20 }],
    ['M10,20l5-10h7v40z', { left: 10, top: 10, right: 22, bottom: 50 }],
    ['M0 0c1 2 3 4 5 6', { left: 0, top: 0, right: 5, bottom: 6 }],
    ['M1 1m2 2l-9 0', { left: -6, top: 1, right: 3, bottom: 3 }],
    ['M0 0a5 5 0 0 1 10 10', { left: 0, top: 0, right: 10, bottom: 10 }],
    ['', undefined],
  ])('%s', (path, extent) => {
    expect(pathExtent(path)).toEqual(extent);
  });
});

describe('shared glyphs', () => {
  test('are drawn where they stood, and kept once', () => {
    const { share, definitions } = sharedGlyphs();
    const drawn = share(
      '<path d="M 5 6c1 1 2 2 3 3z" fill="none"></path><path d="M 7 8c1 1 2 2 3 3z"></path><path d="M 1 1 L 5 5"></path>',
    );
    expect(drawn).toBe(
      '<use href="#g1" x="5" y="6" fill="none"/><use href="#g1" x="7" y="8"/><path d="M 1 1 L 5 5"></path>',
    );
    expect(definitions()).toContain('<defs><path id="g1" d="M0 0c1 1 2 2 3 3z"/></defs>');
  });
});
