import type { Diagnostic, SourceText } from '../diagnostics/index.js';
import type { AbcText } from './abc-text.js';
import { findingAt } from './finding.js';
import { voiceIdOf } from './voice-fields.js';

/** Longest score text that is read, in UTF-16 code units: some 3,000 bars of piano music. */
export const mostCharacters = 200_000;
const mostVoices = 64;
/** The parser's time grows with the square of such a run; a line of music never needs one this long. */
const longestRun = new RegExp(String.raw`([ \t(&])\1{400}`);

/** What makes a text unfit for the parser before anything is taken apart. */
export function checkSize(source: SourceText): Diagnostic | undefined {
  const { text } = source;
  if (text.length > mostCharacters) {
    return findingAt(
      source,
      'S0001',
      'error',
      `the score is too large: ${String(text.length)} characters`,
      { start: 0, end: 1 },
      {
        notes: [`at most ${String(mostCharacters)} characters are read`],
        help: 'split the score into movements',
      },
    );
  }
  return checkRuns(source, text);
}

function checkRuns(source: SourceText, text: string): Diagnostic | undefined {
  const run = longestRun.exec(text);
  if (run === null) return undefined;
  const sign = run[1] === ' ' || run[1] === '\t' ? 'spaces' : `\`${run[1] ?? ''}\``;
  const range = { start: run.index, end: run.index + 1 };
  return findingAt(source, 'S0004', 'error', `more than 400 ${sign} stand in a row`, range, {
    help: 'take them out: they mean nothing',
  });
}

/** What makes the voices or the music code unfit for the parser. */
export function checkParts(source: SourceText, abc: AbcText): Diagnostic | undefined {
  const ids = new Set<string>();
  for (const field of abc.fields) {
    if (field.letter !== 'V') continue;
    const id = voiceIdOf(field);
    if (id in {}) {
      return findingAt(source, 'S0003', 'error', `\`${id}\` cannot be the name of a voice`, field, {
        notes: ['the engraver keeps the word for itself'],
        help: 'give the voice another name, for example `1` or `RH`',
      });
    }
    ids.add(id);
    if (ids.size > mostVoices) {
      return findingAt(
        source,
        'S0002',
        'error',
        `the score has more than ${String(mostVoices)} voices`,
        field,
        {
          help: 'leave out the voices that the lesson does not speak of',
        },
      );
    }
  }
  return checkRuns(source, abc.music);
}
