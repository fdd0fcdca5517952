import { isUnread, parseRomanNumeral } from '../../harmony/index.js';
import type { RomanNumeral } from '../../harmony/index.js';
import { foreignToken, shapes } from '../grammar/index.js';
import type { Parser, Shape } from '../grammar/index.js';

const { inOrder, maybe, oneOf, oneOrMore, text } = shapes;

const named = (name: string, body: Shape): Shape => ({ kind: 'token', name, body });

const degree = named(
  'Degree',
  oneOf('VII', 'III', 'II', 'IV', 'VI', 'V', 'I', 'vii', 'iii', 'ii', 'iv', 'vi', 'v', 'i'),
);
const figures = named(
  'Figures',
  oneOf(
    '64',
    '65',
    '63',
    '43',
    '42',
    '53',
    '6/4',
    '6/5',
    '6/3',
    '4/3',
    '4/2',
    '5/3',
    '6',
    '7',
    '5',
    '2',
    '9',
  ),
);
const accidental = oneOf('bb', 'b', '##', '#', '♭', '♯');
const plain = inOrder(
  maybe(accidental),
  degree,
  maybe(oneOf('o', '°', 'ø', '+')),
  maybe(oneOf('M', 'maj')),
  maybe(figures),
);
const special = oneOf(
  inOrder(text('N'), maybe(oneOf('6', '64', '6/4'))),
  inOrder(text('It'), maybe(oneOf('6'))),
  inOrder(text('Fr'), maybe(oneOf('43', '4/3', '6'))),
  inOrder(text('Ger'), maybe(oneOf('65', '6/5', '6'))),
  inOrder(text('Sw'), maybe(oneOf('43', '4/3'))),
  'cad64',
  'Cad64',
);
export const numeralShape = inOrder(
  oneOf(special, plain),
  maybe(oneOrMore(inOrder(text('/'), maybe(accidental), degree))),
);

/** `V65/V`, `viio7/ii`, `N6`, `Ger65`, `cad64`. */
export const numeral: Parser<RomanNumeral> = foreignToken({
  name: 'RomanNumeral',
  label: 'a Roman numeral such as `V65/V`',
  shape: numeralShape,
  opens: /^[#b♯♭]*(?:[IViv]|N|It|Fr|Ger|Sw|[Cc]ad)/u,
  value: run => {
    const read = parseRomanNumeral(run);
    return isUnread(read) ? read : { value: read };
  },
});
