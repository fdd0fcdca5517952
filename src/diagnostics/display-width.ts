/**
 * Characters that take two columns of a terminal: the wide and full-width classes of UAX #11 by their scripts, and
 * emoji that are pictures by default (UTS #51).
 */
const wide =
  /^[\p{Script=Han}\p{Script=Hangul}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Bopomofo}\p{Script=Yi}\u3000-\u303E\uFE30-\uFE6F\uFF01-\uFF60\uFFE0-\uFFE6]|\p{Emoji_Presentation}|\uFE0F/u;
const plainAscii = /^[\x20-\x7e]*$/;
/** Marks that sit on another character, and characters that show nothing. */
const noWidth = /^[\p{Mark}\u200B-\u200D\u2060\uFEFF]+$/u;

/** Made when a text needs it: most are plain ASCII, and loading the tables of Unicode takes time. */
let segmenter: Intl.Segmenter | undefined;

/** The characters as a reader counts them, each with its UTF-16 offset and its width in columns of a terminal. */
export function graphemes(
  text: string,
): readonly { readonly text: string; readonly offset: number; readonly width: number }[] {
  if (plainAscii.test(text)) return Array.from(text, (char, offset) => ({ text: char, offset, width: 1 }));
  segmenter ??= new Intl.Segmenter('en', { granularity: 'grapheme' });
  return Array.from(segmenter.segment(text), ({ segment, index }) => ({
    text: segment,
    offset: index,
    width: noWidth.test(segment) ? 0 : wide.test(segment) ? 2 : 1,
  }));
}

/** Columns that a text takes in a terminal. */
export function displayWidth(text: string): number {
  if (plainAscii.test(text)) return text.length;
  return graphemes(text).reduce((sum, { width }) => sum + width, 0);
}

/**
 * Control and direction characters made visible, so that text from a file can neither command the terminal nor show
 * its parts in another order than it has.
 */
export function harmless(text: string): string {
  return text.replace(/[\u0000-\u0008\u000B-\u001F\u007F-\u009F\u202A-\u202E\u2066-\u2069]/g, '\uFFFD');
}

/** Breaks a text into lines of at most `width` columns, at spaces; a longer word keeps its own line. */
export function wrap(text: string, width: number): readonly string[] {
  return text.split('\n').flatMap(paragraph => {
    const lines: string[] = [];
    let line = '';
    for (const word of paragraph.split(' ')) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (line !== '' && displayWidth(longer) > width) {
        lines.push(line);
        line = word;
      } else line = longer;
    }
    return [...lines, line];
  });
}
