/** The laws of a three-way merge: S. Khanna, K. Kunal and B. Pierce, "A Formal Investigation of Diff3", FSTTCS 2007, sections 2 and 3. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineEndOf, withLineEnd, withLineFeeds } from '../../src/studio/line-ends.js';
import { lineChanges } from '../../src/studio/line-changes.js';
import { conflictsOf, mergeLines, mergedText } from '../../src/studio/merge-lines.js';

/** Few different lines, so that texts share many of them; the names of members of every object among them. */
const text = fc
  .array(fc.constantFrom('a', 'b', 'c', '', '- wait: 1 s', 'constructor', '__proto__'), { maxLength: 14 })
  .map(lines => lines.join('\n'));

describe('a merge of two texts', () => {
  it('takes the one change where the other side has changed nothing', () => {
    fc.assert(
      fc.property(text, text, (before, changed) => {
        expect(mergeLines(before, changed, before).map(({ kind }) => kind)).not.toContain('conflict');
        expect(mergedText(mergeLines(before, changed, before))).toBe(changed);
        expect(mergedText(mergeLines(before, before, changed))).toBe(changed);
      }),
    );
  });

  it('takes a change that both sides have made alike', () => {
    fc.assert(
      fc.property(text, text, (before, changed) => {
        const parts = mergeLines(before, changed, changed);
        expect(conflictsOf(parts)).toEqual([]);
        expect(mergedText(parts)).toBe(changed);
      }),
    );
  });

  it('takes changes at places apart from both sides', () => {
    // Khanna, Kunal and Pierce, section 2: chunks of the three texts between which all three agree.
    const before = ['title: Old', 'home: G major', 'steps:', '  - title: One', '    bars: 1-4'].join('\n');
    const here = before.replace('Old', 'New');
    const onDisk = `${before.replace('1-4', '1-8')}\n    claims:\n      - bar 1 is I`;
    expect(mergeLines(before, here, onDisk).map(({ kind }) => kind)).not.toContain('conflict');
    expect(mergedText(mergeLines(before, here, onDisk))).toBe(onDisk.replace('Old', 'New'));
  });

  it('asks about lines that both sides have changed in different ways, with the number of the line', () => {
    const parts = mergeLines('one\ntwo\nthree\nfour', 'one\n2\nthree\nfour', 'one\nzwei\nthree\nvier');
    expect(conflictsOf(parts)).toEqual([
      { kind: 'conflict', here: ['2'], onDisk: ['zwei'], before: ['two'], line: 2 },
    ]);
    expect(mergedText(parts, ['here'])).toBe('one\n2\nthree\nvier');
    expect(mergedText(parts, ['onDisk'])).toBe('one\nzwei\nthree\nvier');
    expect(mergedText(parts, ['both'])).toBe('one\n2\nzwei\nthree\nvier');
    expect(mergedText(parts)).toBe('one\n2\nthree\nvier');
  });

  it('asks about every difference where the common text is not known', () => {
    fc.assert(
      fc.property(text, text, (here, onDisk) => {
        const parts = mergeLines(undefined, here, onDisk);
        const all = conflictsOf(parts);
        expect(
          mergedText(
            parts,
            all.map(() => 'here'),
          ),
        ).toBe(here);
        expect(
          mergedText(
            parts,
            all.map(() => 'onDisk'),
          ),
        ).toBe(onDisk);
        for (const { here: lines, line } of all)
          expect(here.split('\n').slice(line - 1, line - 1 + lines.length)).toEqual(lines);
      }),
    );
  });

  it('loses no line that one side has written', () => {
    const count = (lines: readonly string[], line: string): number =>
      lines.filter(other => other === line).length;
    fc.assert(
      fc.property(text, text, text, (before, here, onDisk) => {
        const parts = mergeLines(before, here, onDisk);
        const shown = parts.flatMap(part =>
          part.kind === 'lines' ? part.lines : [...part.here, ...part.onDisk],
        );
        const old = before.split('\n');
        for (const side of [here.split('\n'), onDisk.split('\n')])
          for (const line of new Set(side))
            if (count(old, line) === 0) expect(count(shown, line)).toBeGreaterThanOrEqual(count(side, line));
      }),
    );
  });

  it('is done at once for a long text', () => {
    const long = Array.from({ length: 60_000 }, (_, n) =>
      n % 3 === 0 ? '- wait: 1 s' : `line ${String(n)}`,
    );
    const [here, onDisk] = [[...long], [...long]];
    here[200] = 'mine';
    onDisk[900] = 'theirs';
    const merged = mergedText(mergeLines(long.join('\n'), here.join('\n'), onDisk.join('\n')));
    expect([merged.includes('\nmine\n'), merged.includes('\ntheirs\n')]).toEqual([true, true]);
  });
});

describe('the changes from one text to another', () => {
  it('lead to it, and leave equal lines alone', () => {
    fc.assert(
      fc.property(text, text, (from, to) => {
        const changes = lineChanges(from, to);
        const changed = changes.reduceRight(
          (all, change) => all.slice(0, change.from) + change.insert + all.slice(change.to),
          from,
        );
        expect(changed).toBe(to);
        for (const [index, change] of changes.entries())
          expect(change.from).toBeGreaterThanOrEqual(changes[index - 1]?.to ?? 0);
      }),
    );
    expect(lineChanges('a\nb\nc', 'a\nx\nc')).toEqual([{ from: 2, to: 4, insert: 'x\n' }]);
  });
});

describe('line ends', () => {
  it.each([
    ['a\r\nb\r\n', '\r\n'],
    ['a\nb\n', '\n'],
    ['a\r\nb\nc\n', '\n'],
    ['a', '\n'],
  ] as const)('of %j are %j', (file, end) => {
    expect(lineEndOf(file)).toBe(end);
  });

  it('go back into the file as they came', () => {
    fc.assert(
      fc.property(text, fc.constantFrom('\n', '\r\n'), (lines, end) => {
        const file = withLineEnd(lines, end);
        expect(withLineEnd(withLineFeeds(file), lineEndOf(file))).toBe(file);
      }),
    );
  });
});
