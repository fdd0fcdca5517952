import type { Plugin } from 'vite';

/**
 * The pages forbid inline styles (see walkthrough-html.ts). abcjs writes a few through attributes and one style element; the
 * same through the style object is allowed, and the element only serves dragging, which the pages do not offer.
 */
export function engraverWithoutInlineStyles(): Plugin {
  const expected = new Set(['svg.js', 'set-paper-size.js']);
  return {
    name: 'engraver-without-inline-styles',
    transform(code, id) {
      if (!id.includes('/abcjs/src/')) return null;
      const changed = code
        .replace(/\.setAttribute\((["'])style\1,\s*/g, '.style.cssText = (')
        .replace(/renderer\.paper\.insertStyles\(.*\);/, '');
      if (changed === code) return null;
      expected.delete(id.slice(id.lastIndexOf('/') + 1));
      return { code: changed, map: null };
    },
    buildEnd(error) {
      if (error === undefined && expected.size > 0)
        this.error(
          `abcjs no longer writes inline styles in ${[...expected].join(', ')}: this step is to be revised`,
        );
    },
  };
}
