/** A piece of a numeral as it is set: on the line, small and raised, or small figures above one another. */
export type NumeralPart =
  | { readonly kind: 'line' | 'raised'; readonly text: string }
  | { readonly kind: 'stack'; readonly figures: readonly string[] };

const signs: Readonly<Record<string, string>> = { '#': '♯', '##': '♯♯', b: '♭', bb: '♭♭' };

/** Note letters with real accidentals: `F#m7b5/A` becomes `F♯m7♭5/A`, `Bb major` becomes `B♭ major`. */
export const withSigns = (text: string): string =>
  text
    .replace(
      /(?<![A-Za-z])([A-G])(##?|bb?)(?![a-z](?!im|ug|us))/g,
      (_, letter: string, sign: string) => letter + (signs[sign] ?? sign),
    )
    .replace(/[b#](?=\d)/g, sign => signs[sign] ?? sign);

/** The parts of a numeral in its plain form: `viio65/V` is vii, a raised °, 6 over 5, /V. */
export function numeralParts(roman: string): readonly NumeralPart[] {
  return roman.split('/').flatMap((numeral, index): readonly NumeralPart[] => {
    const slash = index === 0 ? '' : '/';
    const match = /^(bb?|##?)?([A-Za-z]+?)(o|ø|\+)?(M)?(\d*)$/.exec(numeral);
    if (match === null) return [{ kind: 'line', text: slash + numeral }];
    const [, sign = '', head = '', quality = '', major = '', figures = ''] = match;
    return [
      { kind: 'line', text: slash + (signs[sign] ?? sign) + head },
      ...(quality === '' ? [] : [{ kind: 'raised', text: quality === 'o' ? '°' : quality } as const]),
      ...(major === '' ? [] : [{ kind: 'line', text: major } as const]),
      ...(figures.length === 1 ? [{ kind: 'raised', text: figures } as const] : []),
      ...(figures.length > 1 ? [{ kind: 'stack', figures: [...figures] } as const] : []),
    ];
  });
}
