import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineText, offsetOf, placeOf, sourceText } from '../../src/diagnostics/index.js';

const text = fc
  .array(fc.constantFrom('a', 'é', '𝄪', '\n', '\r\n', '\r', '\t', ' '))
  .map(parts => parts.join(''));

describe('a source text', () => {
  it('has LF line ends and no byte order mark', () => {
    const source = sourceText('x', '\uFEFFa\r\nb\rc\nd');
    expect(source.text).toBe('a\nb\nc\nd');
    expect([1, 2, 3, 4, 5].map(line => lineText(source, line))).toEqual(['a', 'b', 'c', 'd', '']);
  });

  it('finds the place of an offset and the offset of a place', () => {
    fc.assert(
      fc.property(text, raw => {
        const source = sourceText('x', raw);
        for (let offset = 0; offset <= source.text.length; offset++) {
          const place = placeOf(source, offset);
          expect(offsetOf(source, place)).toBe(offset);
          // Counted by hand, as an editor does: lines by their ends, columns in UTF-16 units.
          const before = source.text.slice(0, offset).split('\n');
          expect(place).toEqual({ line: before.length, column: (before.at(-1) ?? '').length + 1 });
          expect(source.text.split('\n')[place.line - 1]).toBe(lineText(source, place.line));
        }
      }),
    );
  });

  it('clamps what lies outside', () => {
    const source = sourceText('x', 'ab\nc');
    expect(placeOf(source, -5)).toEqual({ line: 1, column: 1 });
    expect(placeOf(source, 99)).toEqual({ line: 2, column: 2 });
    expect(offsetOf(source, { line: 1, column: 99 })).toBe(2);
    expect(offsetOf(source, { line: 9, column: 1 })).toBe(4);
  });
});
