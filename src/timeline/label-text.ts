/** How a piece of a label is set. */
export type LabelPart =
  | { readonly kind: 'text'; readonly text: string }
  /** Small and raised: the sign of a quality, a single figure. */
  | { readonly kind: 'raised'; readonly text: string }
  /** Small figures above one another, as in a figured bass. */
  | { readonly kind: 'stack'; readonly figures: readonly string[] };

const signs: Readonly<Record<string, string>> = { '##': '♯♯', '#': '♯', bb: '♭♭', b: '♭' };
const signOf = (ascii: string): string => signs[ascii] ?? ascii;

/** Letters of tones with real accidentals: `F#m7b5/A` becomes `F♯m7♭5/A`. For labels; an author's sentence stays as it is. */
export const withAccidentals = (text: string): string =>
  text
    .replace(
      /([A-G])(##|#|bb|b)(?!(?!m|dim|aug|sus)[a-z])/g,
      (_, letter: string, sign: string) => letter + signOf(sign),
    )
    .replace(/[b#](?=\d)/g, signOf);

/**
 * A chord by its printed name (`A7/G`) as it stands under a staff, with real signs. An augmented sixth is too long for its place there and
 * has the short name of the textbooks, with its bass: `Fr6/C`.
 */
export const chordLabel = (name: string): string =>
  withAccidentals(name.replace(/^(It|Fr|Ger)\w+ sixth on /u, '$16/'));

const figureParts = (digits: string): readonly LabelPart[] => {
  if (digits === '') return [];
  return digits.length === 1 ? [{ kind: 'raised', text: digits }] : [{ kind: 'stack', figures: [...digits] }];
};

/** A Roman numeral in its plain form (`viio65/V`) as it is printed: real signs, figures stacked. */
export function romanLabel(roman: string): readonly LabelPart[] {
  return roman.split('/').flatMap((numeral, index): readonly LabelPart[] => {
    const slash: readonly LabelPart[] = index === 0 ? [] : [{ kind: 'text', text: '/' }];
    const match = /^(bb?|##?)?([A-Za-z]+?)(o|ø|\+)?(M)?(\d*)$/.exec(numeral);
    if (match === null) return [...slash, { kind: 'text', text: numeral }];
    const [, sign = '', head = '', quality = '', major = '', digits = ''] = match;
    return [
      ...slash,
      {
        kind: 'text',
        text:
          (sign === 'b' || sign === '#' ? signOf(sign) : sign.replaceAll('b', '♭').replaceAll('#', '♯')) +
          head,
      },
      ...(quality === '' ? [] : [{ kind: 'raised', text: quality === 'o' ? '°' : quality } as const]),
      ...(major === '' ? [] : [{ kind: 'text', text: major } as const]),
      ...figureParts(digits),
    ];
  });
}

/** The figured bass alone that a numeral implies: `V65/V` gives 6 over 5. */
export function figuresOf(roman: string): readonly LabelPart[] {
  return figureParts(/\d+$/.exec(roman.split('/')[0] ?? '')?.[0] ?? '');
}
