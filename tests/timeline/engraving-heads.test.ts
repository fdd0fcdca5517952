/**
 * Lines of a score that is divided anew: what stands at their heads and ends. A metre is drawn where it begins to hold, clef and key at the head of
 * every line (common practice).
 */
import abcjs from 'abcjs';
import type { TuneObject } from 'abcjs';
import { describe, expect, test } from 'vitest';
import { setLineHeads } from '../../src/timeline/engraving-heads.js';

interface Element {
  readonly el_type: string;
  readonly type?: string;
  readonly startEnding?: string;
  readonly endEnding?: boolean;
  readonly accidentals?: readonly { readonly acc: string; readonly note: string }[];
  readonly value?: readonly { readonly num: string; readonly den: string }[];
}

const signs: Readonly<Record<string, string>> = {
  bar_thin: '|',
  bar_thin_thin: '||',
  bar_thin_thick: '|]',
  bar_left_repeat: '|:',
  bar_right_repeat: ':|',
  bar_invisible: '',
};
const keyText = ({ accidentals = [] }: Pick<Element, 'accidentals'>): string =>
  `(${accidentals.map(({ acc, note }) => `${acc} ${note.toLowerCase()}`).join(', ')})`;
const meterText = ({ value = [] }: Pick<Element, 'value'>): string =>
  value.map(({ num, den }) => `${num}/${den}`).join();

function told(element: Element): string {
  switch (element.el_type) {
    case 'note':
      return 'n';
    case 'bar':
      return `${signs[element.type ?? ''] ?? element.type ?? ''}${element.endEnding === true ? '$' : ''}${element.startEnding === undefined ? '' : `[${element.startEnding}`}`;
    case 'key':
      return keyText(element);
    case 'meter':
      return meterText(element);
    case 'clef':
      return element.type ?? '';
    default:
      return element.el_type;
  }
}

interface Staff {
  readonly clef: { readonly type: string };
  readonly key: Pick<Element, 'accidentals'>;
  readonly meter?: Pick<Element, 'value'>;
  readonly voices: readonly (readonly Element[])[];
}

/** The upper staff of each line: clef, key and metre at its head, then what stands in it. */
function linesOf(abc: string, lineBreaks: readonly (readonly number[])[]): readonly string[] {
  const parse = (options = {}): TuneObject => {
    const [tune] = abcjs.parseOnly(abc, options);
    if (tune === undefined) throw new Error('no tune');
    return tune;
  };
  const tune = parse({ lineBreaks });
  setLineHeads(tune, parse());
  const staves = tune.lines.flatMap(line => line.staff?.[0] ?? []) as unknown as readonly Staff[];
  return staves.map(({ clef, key, meter, voices: [voice = []] }) => {
    const heads = [clef.type, keyText(key), ...(meter === undefined ? [] : [meterText(meter)])];
    return [...heads, '=', ...voice.map(told)].join(' ');
  });
}

const head = 'X:1\nT:One\nM:3/4\nL:1/4\nK:C\n';

describe('the head of a line', () => {
  test.each<[string, string, readonly (readonly number[])[], readonly string[]]>([
    [
      'a second title keeps the metre',
      'X:1\nT:One\nT:Two\nM:3/4\nL:1/4\nK:C\nCDE|FGA|]\n',
      [[0]],
      ['treble () 3/4 = n n n |', 'treble () = n n n |]'],
    ],
    [
      'a section under a heading has its own key and metre, though the key changed before',
      `${head}CDE|[K:G]FGA|\nT:Second\nM:4/4\nK:D\nDEFG|GFED|]\n`,
      [[], [0]],
      [
        'treble () 3/4 = n n n | (sharp f) n n n |',
        'treble (sharp f, sharp c) 4/4 = n n n n |',
        'treble (sharp f, sharp c) = n n n n |]',
      ],
    ],
    [
      'a clef holds in the lines after it',
      `${head}CDE|C[K:clef=bass]DE|F,G,A,|A,G,F,|]\n`,
      [[1, 2]],
      ['treble () 3/4 = n n n | n bass n n |', 'bass () = n n n |', 'bass () = n n n |]'],
    ],
    [
      'what changes with a line is announced before it',
      `${head}CDE|[K:F][M:2/4][K:clef=bass]CD|[K:C]ED|FE|]\n`,
      [[0, 1]],
      [
        'treble () 3/4 = n n n bass | (flat b) 2/4',
        'bass (flat b) = 2/4 n n | (natural b)',
        'bass () = n n | n n |]',
      ],
    ],
  ])('%s', (_, abc, lineBreaks, lines) => {
    expect(linesOf(abc, lineBreaks)).toEqual(lines);
  });
});

// ABC 2.1, section 4.9, First and second repeats.
describe('what begins with a line stands in it', () => {
  test.each<[string, string, readonly (readonly number[])[], readonly string[]]>([
    [
      'endings',
      `${head}|:CDE|FGA|1 CDE:|2 EDC|]\n`,
      [[2, 3]],
      ['treble () 3/4 = |: n n n | n n n |', 'treble () = [1 n n n :|$', 'treble () = [2 n n n |]$'],
    ],
    [
      'a repeat',
      `${head}CDE|FGA|:CDE:|EDC|]\n`,
      [[1, 2]],
      ['treble () 3/4 = n n n | n n n |', 'treble () = |: n n n :|', 'treble () = n n n |]'],
    ],
    [
      'two repeats side by side',
      `${head}|:CDE|FGA::CDE|EDC:|\n`,
      [[2]],
      ['treble () 3/4 = |: n n n | n n n :|', 'treble () = |: n n n | n n n :|'],
    ],
  ])('%s', (_, abc, lineBreaks, lines) => {
    expect(linesOf(abc, lineBreaks)).toEqual(lines);
  });
});
