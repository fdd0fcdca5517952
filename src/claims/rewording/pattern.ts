/**
 * Stretches of a sentence that a turn of phrase is built around. Written out again here, and more loosely than the grammar has them: what
 * comes out is read by the grammar, which decides.
 */
const stretches = {
  place: String.raw`(?:(?:(?:the )?(?:[\w-]+ )?(?:beats?|half) (?:[\d.]+ )?(?:of|in) )?(?:bars?|measures?|mm?\.?|bb?\.) ?\d+[a-z]?(?: ?(?:-|–|to|through|and) ?\d+[a-z]?)?(?:,? (?:on )?beats? [\d.]+(?:-[\d.]+)?)?|the (?:first|second|third|fourth|last|final|opening|closing) (?:(?:\d+|two|three|four|six|eight|twelve|sixteen) )?(?:bars?|measures?|phrase|section|strain|half(?: of the piece)?)|the (?:last|final|first|opening|closing) (?:[\w-]+ )?(?:bar|measure)s?|the (?:whole |entire )?(?:piece|trio|minuet|introduction|development|coda))(?![\w-])`,
  range: String.raw`(?:(?:bars|measures|mm?\.) ?\d+[a-z]? ?(?:-|–|to|through) ?\d+[a-z]?|the (?:first|second|third|fourth|last|final|opening|closing) (?:(?:(?:\d+|two|three|four|six|eight|twelve|sixteen) )?(?:bars|measures)|phrase|section|strain|half(?: of the piece)?)|the (?:whole |entire )?(?:piece|trio|minuet|introduction|development|coda))(?![\w-])`,
  line: String.raw`(?:the |its )?(?:(?:top|upper|highest|lowest|middle|inner|vocal|voice|bass|lower|bottom|outer|solo|piano|melody|first|second|right|left) )?(?:soprano|alto|tenor|bass|bassline|melody|tune|theme|treble|voices?|parts?|hands?|basses|clarinet|oboe|horn|line|part|hand|accompaniment|violin|viola|cello|flute|piano)`,
  note: String.raw`[A-G](?:[#♯♭x]+|bb?(?![a-z])|[- ](?:sharp|flat|natural))?\d?(?![\p{L}\d])`,
  numeral: String.raw`[b♭#♯]?(?:VI{0,3}|I[VI]{0,2}|vi{0,3}|i[vi]{0,2})[°oø+]?(?:\d(?:\/\d)?)*(?:\/[b♭#♯]?[ivIV]+)?(?!\p{L})`,
  member: String.raw`(?:root|third|fifth|seventh|ninth|bass note|leading[- ](?:tone|note)|chordal seventh)`,
  tone: String.raw`(?:(?:un|)(?:accented )?(?:chromatic )?(?:upper |lower )?(?:passing|neighbou?r(?:ing)?|auxiliary|non-chord|non-harmonic|escape|nonharmonic|nonchord)(?: |-)(?:tone|note)|(?:\d-\d )?suspension|retardation|appoggiatura|anticipation|(?:upper |lower )?neighbou?r|(?:upper |lower )?auxiliary|échappée|cambiata|dissonance|pedal(?: point)?)`,
  chord: String.raw`(?:tonic|dominant|subdominant|supertonic|mediant|submediant|secondary dominant|applied dominant|augmented sixth|Neapolitan|six-four|diminished seventh|dominant seventh|leading-tone seventh)(?: chord| triad)?`,
  score: String.raw`(?:"[^"]+"|“[^”]+”)`,
  key: String.raw`[A-G](?:[#♯♭]|b(?![a-z])|[- ](?:sharp|flat))?[ -](?:major|minor)`,
  number: String.raw`(?:\d+|one|two|three|four|five|six|seven|eight|nine|ten|twelve|sixteen)`,
  word: String.raw`[\p{L}\d#♯♭°ø/+-]+`,
  words: String.raw`\S(?:.*?\S)??`,
  rest: String.raw`\S(?:.*\S)?`,
} as const;

const isStretch = (name: string): name is keyof typeof stretches => Object.hasOwn(stretches, name);

/** What a word becomes in a regular expression: any white space may stand where a space does, and `?` makes what it follows optional. */
const quoted = (words: string): string => words.replace(/[.*+^${}\\]/gu, '\\$&').replace(/ /gu, '\\s+');

/** A pattern, and the names of its stretches in the order of their groups. */
export interface Pattern {
  readonly expression: RegExp;
  readonly names: readonly string[];
}

/**
 * The regular expression of a turn of phrase:
 * - `(a|b c)` one of them, `[a|b]` one of them or none;
 * - `<place>` a stretch that comes back under the same name in what is meant, `<other place>` one more of its kind, and
 *   where a name stands twice the same words must;
 * - `^` and `$` the ends of the sentence.
 */
export function patternOf(said: string): Pattern {
  const names: string[] = [];
  const source = said
    .split(/(<[^>]+>|\[[^\]]*\] ?|[()|^$])/u)
    .map(part => {
      if (part.startsWith('<')) {
        const name = part.slice(1, -1);
        const kind = name.split(' ').at(-1) ?? '';
        if (!isStretch(kind)) throw new Error(`no such stretch: ${part}`);
        if (names.includes(name)) return `\\${String(names.indexOf(name) + 1)}`;
        names.push(name);
        return `(${stretches[kind]})`;
      }
      if (part.startsWith('['))
        return `(?:(?:${part.slice(1, part.indexOf(']')).split('|').map(quoted).join('|')})${part.endsWith(' ') ? '\\s+' : ''})?`;
      if (part === '(') return '(?:';
      return /^[)|^$]$/u.test(part) ? part : quoted(part);
    })
    .join('');
  return {
    expression: new RegExp(`(?<![\\p{L}\\d#♯♭'’/-])${source}(?![\\p{L}\\d'’])`, 'u'),
    names,
  };
}

/** A text with the first place where a pattern fits written as it is meant; `undefined` where it fits nowhere. */
export function rewritten(text: string, { expression, names }: Pattern, meant: string): string | undefined {
  const found = expression.exec(text);
  if (found === null) return undefined;
  const said = meant.replace(/<([^>]+)>/gu, (_, name: string) => found[names.indexOf(name) + 1] ?? '');
  return `${text.slice(0, found.index)}${said}${text.slice(found.index + found[0].length)}`
    .replace(/\s+/gu, ' ')
    .trim();
}
