/** Narration: `[words]{claim}` in Markdown (CommonMark 0.31.2, https://spec.commonmark.org/0.31.2/). */
import { JSDOM } from 'jsdom';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readNarration } from '../../src/lesson/narration.js';

const read = (markdown: string) => readNarration(markdown, claim => `say/${claim}`);

/** Text of a page as an HTML parser sees it, white space folded. */
function shown(html: string): string {
  const { document } = new JSDOM(`<!doctype html><body>${html}`).window;
  for (const block of document.querySelectorAll('p, li')) block.append(' ');
  return (document.body.textContent ?? '').replace(/\s+/g, ' ').trim();
}

describe('narration', () => {
  it('finds words and claims, with offsets into the plain text', () => {
    const { text, claims } = read(
      'Bar 3 is [the dominant **of** the dominant]{bar 3 is\n  V7/V}, *not* home.\n\nNext.',
    );
    expect(text).toBe('Bar 3 is the dominant of the dominant, not home.\n\nNext.');
    expect(
      claims.map(({ words, text: claim, from, to }) => ({ words, claim, cut: text.slice(from, to) })),
    ).toEqual([
      {
        words: 'the dominant of the dominant',
        claim: 'bar 3 is V7/V',
        cut: 'the dominant of the dominant',
      },
    ]);
  });

  it('marks the words in the HTML with the path of their claim', () => {
    expect(read('[One]{bar 1 is I}, [two *a*]{bar 2 is V}').html).toBe(
      '<p><span class="claim" data-claim="say/0">One</span>, <span class="claim" data-claim="say/1">two <em>a</em></span></p>\n',
    );
  });

  it('counts claims through paragraphs and lists', () => {
    const { claims, html } = read('[a]{bar 1 is I}\n\n- [b]{bar 2 is I}\n- [c]{bar 3 is I}');
    expect(claims.map(claim => claim.text)).toEqual(['bar 1 is I', 'bar 2 is I', 'bar 3 is I']);
    expect([...html.matchAll(/data-claim="([^"]*)"/g)].map(match => match[1])).toEqual([
      'say/0',
      'say/1',
      'say/2',
    ]);
  });

  it.each([
    ['HTML is text', '<img src=x onerror=alert(1)> & [a]{bar 1 is I}'],
    ['a script is text', '<script>alert(1)</script>'],
    ['a dangerous link is text', '[x](javascript:alert(1)) [y](data:text/html,z) [z](vbscript:x)'],
    ['HTML in words is text', '[<b onclick="x">words</b>]{bar 1 is I}'],
    ['quotes in a claim stay in the claim', '[a]{" onmouseover="alert(1)}'],
    ['entities are characters', '&lt;b&gt; &amp; &quot; [&lt;i&gt;]{bar 1 is I}'],
    ['code is text', '`<b>` and `[a]{b}`'],
    ['a heading is not spoken', '# Not a heading'],
  ])('%s', (_, markdown) => {
    const { html, text } = read(markdown);
    const { document } = new JSDOM(`<!doctype html><body>${html}`).window;
    const names = [...document.body.querySelectorAll('*')].map(element => element.tagName.toLowerCase());
    expect(
      names.filter(
        name => !['p', 'span', 'em', 'strong', 'code', 'ul', 'ol', 'li', 'a', 'br'].includes(name),
      ),
    ).toEqual([]);
    expect(
      [...document.body.querySelectorAll('*')]
        .flatMap(element => element.getAttributeNames())
        .filter(name => /^on/.test(name)),
    ).toEqual([]);
    expect(document.querySelectorAll('a')).toHaveLength(0);
    expect(shown(html)).toBe(text.replace(/\s+/g, ' ').trim());
  });

  it('lets a link to a web page through', () => {
    expect(read('[a](https://example.org/?q="x")').html).toBe(
      '<p><a href="https://example.org/?q=%22x%22" rel="noopener noreferrer">a</a></p>\n',
    );
  });

  it('shows the same text as HTML and as plain text, whatever is written', () => {
    const piece = fc.constantFrom(
      '[',
      ']',
      '{',
      '}',
      '(',
      ')',
      '*',
      '**',
      '`',
      '\\',
      '<',
      '>',
      '&',
      '!',
      '\n',
      '\n\n',
      '- ',
      '1. ',
      ' ',
      '  ',
      '#',
      'a',
      'bar 1 is I',
      '[words]{bar 1 is I}',
      '[x](https://example.org)',
      '&amp;',
      '"',
      "'",
      '♯',
      '𝄪',
      '\t',
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 30 }), pieces => {
        const markdown = pieces.join('');
        const { html, text, claims } = read(markdown);
        expect(shown(html)).toBe(text.replace(/\s+/g, ' ').trim());
        for (const claim of claims) {
          expect(text.slice(claim.from, claim.to)).toBe(claim.words);
          expect(claim.offsets).toHaveLength(claim.text.length + 1);
          const behind = [...claim.text].map((char, index) =>
            char === ' ' ? ' ' : markdown[claim.offsets[index] ?? -1],
          );
          expect(behind.join('')).toBe(claim.text);
        }
      }),
      { numRuns: 500 },
    );
  });
});
