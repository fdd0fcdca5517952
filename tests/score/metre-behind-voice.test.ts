/** A change of metre stands in every voice where it begins to hold, and nowhere else (ABC 2.1, sections 3.1.6 and 7; common practice). */
import abcjs from 'abcjs';
import { describe, expect, test } from 'vitest';
import { putMetres, withoutMetresBehindVoices } from '../../src/score/index.js';

interface Element {
  readonly el_type: string;
  readonly type?: string;
  readonly value?: readonly { readonly num: string; readonly den: string }[];
}

const metreText = ({ type = '', value = [] }: Omit<Element, 'el_type'>): string =>
  type === 'specified' ? value.map(({ num, den }) => `${num}/${den}`).join() : type;

function told(element: Element): string {
  if (element.el_type === 'note') return 'n';
  if (element.el_type === 'bar') return '|';
  return element.el_type === 'meter' ? metreText(element) : element.el_type;
}

/** Staff by staff in each line: the metre at its head, then its first voice. */
function staves(body: string): readonly string[] {
  const text = `X:1\nM:4/4\nL:1/4\nK:C\n${body}\n`;
  const { abc, metres } = withoutMetresBehindVoices(text);
  expect(abc).toHaveLength(text.length);
  const [tune] = abcjs.parseOnly(abc);
  putMetres(tune, metres);
  return tune.lines.flatMap(({ staff = [] }) =>
    staff.map(({ meter, voices = [] }) => {
      const head = meter === undefined ? '' : `${metreText(meter as unknown as Element)} = `;
      return head + ((voices[0] ?? []) as unknown as readonly Element[]).map(told).join(' ');
    }),
  );
}

const opening = 'V:1\nC4|\nV:2\nC4|\n';
const openingStaves = ['4/4 = n |', '4/4 = n |'];

describe('a metre behind the name of a voice', () => {
  test.each<[string, string, readonly string[]]>([
    [
      'inline, and the lines after it',
      `${opening}V:1\n[M:3/4]C3|\nV:2\n[M:3/4]z3|\nV:1\nC3|\nV:2\nC3|`,
      [...openingStaves, '3/4 n |', '3/4 n |', 'n |', 'n |'],
    ],
    [
      'on a line of its own',
      `${opening}V:1\nM:3/4\nC3|\nV:2\nM:3/4\nC3|\nV:1\nC3|\nV:2\nC3|`,
      [...openingStaves, '3/4 n |', '3/4 n |', 'n |', 'n |'],
    ],
    [
      'behind a key and a remark',
      `${opening}V:1\n[K:F] [M:C|] C4|\nV:2\n% left\nK:F\nM:C|\nC4|`,
      [...openingStaves, 'cut_time n |', 'cut_time n |'],
    ],
    [
      'additive',
      `${opening}V:1\n[M:(3+2)/8]C5/|\nV:2\n[M:3+2/8]C5/|`,
      [...openingStaves, '3+2/8 n |', '3+2/8 n |'],
    ],
    [
      'inline behind the voice',
      `${opening}[V:1] [M:3/4] C3|\n[V:2][M:3/4]C3|\n[V:1]C3|\n[V:2]C3|`,
      [...openingStaves, '3/4 n |', '3/4 n |', 'n |', 'n |'],
    ],
    ['that opens the piece inline', '[V:1] [M:3/4] C3|\n[V:2] [M:3/4] C3|', ['3/4 = n |', '3/4 = n |']],
    ['that opens the piece', 'V:1\n[M:3/4]C3|\nV:2\n[M:3/4]C3|', ['3/4 = n |', '3/4 = n |']],
    ['that is none', `${opening}V:1\n[M:x]C4|\nV:2\nC4|`, [...openingStaves, 'n |', 'n |']],
  ])('%s', (_, body, drawn) => {
    expect(staves(body)).toEqual(drawn);
  });
});
