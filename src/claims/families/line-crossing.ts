import { midiOf, printPitch } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { map, sequence, word } from '../grammar/index.js';
import { together } from '../subjects/pair.js';
import type { Line } from '../subjects/line.js';
import { textureLines } from '../subjects/texture.js';
import { printVerb, verb } from '../terms/verb.js';
import { nothingSounds } from './judged.js';

/** A line that crosses any other. */
interface AnyCrossing {
  readonly any: true;
}

const another = map(
  sequence(
    word('another', 'any other', 'one of the other', 'any of the other'),
    word('voice', 'part', 'line', 'voices', 'parts', 'lines'),
  ),
  (): AnyCrossing => ({ any: true }),
);

/** Whether a line leaves its place among the others: claim I8 of the trade. A unison is no crossing. */
export const lineCrossingFamily = family<Line, AnyCrossing>({
  name: 'crossing of a line',
  examples: ['the right hand of bars 1-4 does not cross another voice'],
  phrases: [[verb('crosses', 'cross'), another]],
  print: (_, form) => `${printVerb('crosses', 'cross', form)} another voice`,
  check: ({ span, notes, name }, _, context): Finding<Line> => {
    const { score } = context.analysis;
    const voice = notes[0]?.note.voice;
    const lines = textureLines(score, span.range);
    const own = lines.findIndex(line => line.notes.some(({ note }) => note.voice === voice));
    if (voice === undefined || own < 0) return nothingSounds(name);
    const crossed = lines.flatMap((line, at) => {
      if (line.notes.some(({ note }) => note.voice === voice)) return [];
      // The line that stands higher in the score is taken for the upper one.
      const sign = at < own ? 1 : -1;
      const pair = together(notes, line.notes).find(
        ({ upper, lower }) => sign * (midiOf(upper.pitch) - midiOf(lower.pitch)) > 0,
      );
      return pair === undefined ? [] : [{ pair, other: line.name }];
    });
    const [first] = crossed;
    return {
      verdict: first === undefined ? 'fails' : 'holds',
      code: first === undefined ? 'C1062' : 'C1061',
      reason:
        first === undefined
          ? `${name} keeps its place among the lines`
          : `${name} crosses ${first.other}: ${printPitch(first.pair.upper.pitch)} against ${printPitch(first.pair.lower.pitch)}`,
      evidence: crossed
        .slice(0, 3)
        .flatMap(({ pair }) =>
          [pair.upper, pair.lower].map(note => noteEvidence('supports', note, 'crossed', context)),
        ),
      local: true,
    };
  },
});
