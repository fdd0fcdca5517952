/**
 * Every character of a claim has its place in the source, in each of the five styles of a YAML scalar (YAML 1.2.2,
 * chapters 7.3 and 8.1). The lesson is written by the YAML library's own printer, so the styles are real ones.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Document, Scalar } from 'yaml';
import { sourceText } from '../../src/diagnostics/index.js';
import { readLesson } from '../../src/lesson/index.js';

const styles = ['PLAIN', 'QUOTE_SINGLE', 'QUOTE_DOUBLE', 'BLOCK_LITERAL', 'BLOCK_FOLDED'] as const;

function lessonWith(narration: string, style: (typeof styles)[number], lineWidth: number): string {
  const say = new Scalar(narration);
  say.type = style;
  const document = new Document({
    format: 1,
    title: 'Places',
    score: 'a.abc',
    home: 'C major',
    steps: [{ title: 'One', script: [{ say }] }],
  });
  return document.toString({ lineWidth });
}

const word = fc.constantFrom(
  'home',
  "it's",
  'V7',
  'C♯',
  'a "quoted" word',
  'back\\\\slash',
  '#ivo7',
  '𝄪',
  'one,',
  '— so',
);
const claim = fc.constantFrom(
  'bar 1 is I',
  'bar 2 is viio7/ii in F♯ minor',
  'bar 3 has "C#"',
  'bar 4 is #ivo7',
);
const piece = fc.oneof(
  word.map(text => ({ text, claim: undefined })),
  claim.map(text => ({ text: `[these words]{${text}}`, claim: text })),
);
const joint = fc.constantFrom(' ', '\n', '\n\n', '\n  ');

describe('places of claims', () => {
  it.each(styles)('are exact in style %s', style => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(piece, joint), { minLength: 1, maxLength: 12 }),
        fc.integer({ min: 20, max: 90 }),
        (pieces, width) => {
          const narration = pieces
            .map(([{ text }, after]) => text + after)
            .join('')
            .trim();
          const source = sourceText('lesson.yaml', lessonWith(narration, style, width));
          const { value } = readLesson(source);
          const wanted = pieces.flatMap(([one]) => one.claim ?? []);
          expect(value?.claims.map(({ text }) => text)).toEqual(wanted);
          for (const { text, offsets, span } of value?.claims ?? []) {
            expect(offsets).toHaveLength(text.length + 1);
            expect(span.start).toBe(offsets[0]);
            [...text.matchAll(/\S/g)].forEach(({ index }) => {
              const at = offsets[index] ?? -1;
              // An escaped quotation mark is found at its backslash.
              const found = source.text[at] === '\\' ? source.text[at + 1] : source.text[at];
              expect(found).toBe(text[index]);
            });
          }
        },
      ),
      { numRuns: 150 },
    );
  });
});
