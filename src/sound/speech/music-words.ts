import { digits } from './number-words.js';

/**
 * Words of one notation each, read on its own: `undefined` where the text is not such a notation. A single capital letter in the
 * result is the name of a letter, never the article. `,` is a short pause. The readings are common practice unless a source is named.
 */
export type Reading = readonly string[];

const accidentalWords: Readonly<Record<string, Reading>> = {
  '#': ['sharp'], '♯': ['sharp'], b: ['flat'], '♭': ['flat'], '##': ['double', 'sharp'], '♯♯': ['double', 'sharp'], x: ['double', 'sharp'],
  '𝄪': ['double', 'sharp'], bb: ['double', 'flat'], '♭♭': ['double', 'flat'], '𝄫': ['double', 'flat'], '♮': ['natural'], '=': ['natural'], '': [],
}; // prettier-ignore
const accidental = '(##|♯♯|bb|♭♭|[#♯b♭x𝄪𝄫♮=]?)';

const lineNames = ['', 'one-line', 'two-line', 'three-line', 'four-line', 'five-line'];

/** `C#` C sharp, `Bbb` B double flat, `C4` C four (octave as in scientific pitch notation), `c''` two-line C (Helmholtz). */
export function readNote(text: string): Reading | undefined {
  const helmholtz = new RegExp(`^([a-g])${accidental}(['’]{1,5})$`, 'u').exec(text);
  if (helmholtz !== null) {
    const [, letter = '', sign = '', strokes = ''] = helmholtz;
    return [
      ...(lineNames[strokes.length] ?? '').split('-'),
      letter.toUpperCase(),
      ...(accidentalWords[sign] ?? []),
    ];
  }
  const note = new RegExp(`^([A-G])${accidental}(-?\\d?)$`, 'u').exec(text);
  if (note === null) return undefined;
  const [, letter = '', sign = '', octave = ''] = note;
  return [
    letter,
    ...(accidentalWords[sign] ?? []),
    ...(octave.startsWith('-') ? ['minus'] : []),
    ...digits(octave),
  ];
}

const chordKinds: readonly (readonly [RegExp, Reading])[] = [
  [/^(maj7|M7|ma7|△7?|Δ7?)$/u, ['major', 'seven']],
  [/^(m7b5|m7♭5|ø7?|min7b5)$/u, ['half', 'diminished', 'seventh']],
  [/^(dim7|°7|o7)$/u, ['diminished', 'seventh']],
  [/^(dim|°|o)$/u, ['diminished']],
  [/^(aug|\+)$/u, ['augmented']],
  [/^(aug7|\+7)$/u, ['augmented', 'seven']],
  [/^(m|min)$/u, ['minor']],
  [/^(m7|min7)$/u, ['minor', 'seven']],
  [/^(m6|min6)$/u, ['minor', 'six']],
  [/^(m9|min9)$/u, ['minor', 'nine']],
  [/^(mM7|mmaj7|m\(maj7\))$/u, ['minor', 'major', 'seven']],
  [/^(maj9|M9)$/u, ['major', 'nine']],
  [/^(maj|M)$/u, ['major']],
  [/^sus4$/u, ['sus', 'four']],
  [/^sus2$/u, ['sus', 'two']],
  [/^7sus4$/u, ['seven', 'sus', 'four']],
  [/^add9$/u, ['add', 'nine']],
  [/^6$/u, ['six']],
  [/^7$/u, ['seven']],
  [/^9$/u, ['nine']],
  [/^11$/u, ['eleven']],
  [/^13$/u, ['thirteen']],
];

/** Tones that are altered or added: `b9`, `(#11)`, `b5b9`. */
function readAlterations(text: string): Reading | undefined {
  const bare = text.replace(/[(),]/gu, '');
  const tones = [...bare.matchAll(/([#♯b♭])(5|9|11|13)/gu)];
  if (bare === '' || tones.map(([tone]) => tone).join('') !== bare) return undefined;
  return tones.flatMap(([, sign = '', number = '']) => [
    ...(accidentalWords[sign] ?? []),
    ...(numberNames[number] ?? []),
  ]);
}

const numberNames: Readonly<Record<string, Reading>> = {
  '5': ['five'], '9': ['nine'], '11': ['eleven'], '13': ['thirteen'],
}; // prettier-ignore

/** What a chord is besides its root: `m7`, `7b9`, `maj7#11`. */
function readChordKind(kind: string): Reading | undefined {
  const whole = chordKinds.find(([pattern]) => pattern.test(kind))?.[1];
  if (whole !== undefined) return whole;
  const [, base = '', tail = ''] = /^([^#♯b♭(]*)(.*)$/u.exec(kind) ?? [];
  const plainKind = chordKinds.find(([pattern]) => pattern.test(base))?.[1];
  const altered = readAlterations(tail);
  return plainKind === undefined || altered === undefined ? undefined : [...plainKind, ...altered];
}

/** `Am7` A minor seven, `C#dim7` C sharp diminished seventh, `C/E` C over E. A root alone is a note name, not read here. */
export function readChordSymbol(text: string): Reading | undefined {
  if (text === 'N.C.' || text === 'N.C' || text === 'NC') return ['no', 'chord'];
  const match = new RegExp(`^([A-G])([#♯b♭]?)([^/]*)(?:/([A-G])([#♯b♭]?))?$`, 'u').exec(text);
  if (match === null) return undefined;
  const [, root = '', sign = '', kind = '', bass, bassSign = ''] = match;
  const words = kind === '' ? [] : readChordKind(kind);
  if (words === undefined || (kind === '' && bass === undefined)) return undefined;
  const over = bass === undefined ? [] : ['over', bass, ...(accidentalWords[bassSign] ?? [])];
  return [root, ...(accidentalWords[sign] ?? []), ...words, ...over];
}

const romanNumbers: Readonly<Record<string, string>> = {
  i: 'one', ii: 'two', iii: 'three', iv: 'four', v: 'five', vi: 'six', vii: 'seven',
}; // prettier-ignore
const figureWords: Readonly<Record<string, Reading>> = {
  '': [], '6': ['six'], '64': ['six', 'four'], '6/4': ['six', 'four'], '65': ['six', 'five'], '6/5': ['six', 'five'], '43': ['four', 'three'],
  '4/3': ['four', 'three'], '42': ['four', 'two'], '4/2': ['four', 'two'], '2': ['four', 'two'], '7': ['seven'], '9': ['nine'], '53': ['five', 'three'],
  '5/3': ['five', 'three'], '64-53': ['six', 'four', 'to', 'five', 'three'], '6/4-5/3': ['six', 'four', 'to', 'five', 'three'],
  '8/6/4-7/5/3': ['eight', 'six', 'four', 'to', 'seven', 'five', 'three'], '6-5': ['six', 'to', 'five'],
}; // prettier-ignore
const numeralQuality: Readonly<Record<string, readonly [string, string]>> = {
  // Triad, seventh chord.
  '°': ['diminished', 'diminished seventh'], o: ['diminished', 'diminished seventh'], ø: ['half-diminished', 'half-diminished seventh'],
  '+': ['augmented', 'augmented seven'], M: ['major', 'major seven'], '': ['', ''],
}; // prettier-ignore

/** Special chords. `It+6` and `It6` are the same. */
const specialChords: readonly (readonly [RegExp, string])[] = [
  [/^N6$/u, 'Neapolitan sixth'],
  [/^It\+?6$/u, 'Italian augmented sixth'],
  [/^Fr\+?(6|43|4\/3)$/u, 'French augmented sixth'],
  [/^Ger\+?(6|65|6\/5)$/u, 'German augmented sixth'],
  [/^[Cc]ad(64|6\/4)$/u, 'cadential six-four'],
  [/^(CT|Ct|ct)[o°](7|65|6\/5|43|4\/3|42|4\/2)$/u, 'common-tone diminished seventh'],
  [/^V\(?(64-53|6\/4-5\/3)\)?$/u, 'cadential six-four'],
];

const plain = (phrase: string): Reading =>
  phrase
    .toLowerCase()
    .split(/[ -]/u)
    .filter(word => word !== '');

/** The one chord of a numeral, before any slash of an applied chord. */
function readOneNumeral(text: string): Reading | undefined {
  const special = specialChords.find(([pattern]) => pattern.test(text));
  if (special !== undefined) return plain(special[1]);
  const match = /^([#♯b♭]?)(VII|VI|IV|V|III|II|I|vii|vi|iv|v|iii|ii|i)([°oø+M]?)(.*)$/u.exec(text);
  if (match === null) return undefined;
  const [, sign = '', roman = '', quality = '', figure = ''] = match;
  const [, plainFigure = '', altered = ''] = /^(7|9|)([(#♯b♭].*)$/u.exec(figure) ?? ['', figure];
  const tones = altered === '' ? [] : readAlterations(altered);
  const plainWords = figureWords[plainFigure];
  if (plainWords === undefined || tones === undefined) return undefined;
  const figures = [...plainWords, ...tones];
  const [triad, seventh] = numeralQuality[quality] ?? ['', ''];
  const isSeventh = plainFigure === '7' && quality !== '';
  const tail = isSeventh ? [...plain(seventh), ...tones] : [...plain(triad), ...figures];
  return [...(accidentalWords[sign] ?? []), romanNumbers[roman.toLowerCase()] ?? '', ...tail];
}

/**
 * A Roman numeral with figures: `V65` five six five, `V7/V` five seven of five, `vii°7/ii` seven diminished seventh of two. The slash of
 * an applied chord is read "of" (R. Hutchinson, Music Theory for the 21st-Century Classroom: "V65 of V"; Open Music Theory: "seven of five").
 */
export function readNumeral(text: string): Reading | undefined {
  // `/o` is `ø` in plain text (RomanText, https://github.com/MarkGotham/When-in-Rome, syntax.md).
  const parts = text.replace(/(?<=^[#♯b♭]?(?:vii|vi|iv|v|iii|ii|i))\/o/u, 'ø').split('/');
  // A slash between two digits belongs to the figures.
  const chords: string[] = [];
  for (const part of parts) {
    const before = chords.at(-1);
    if (before !== undefined && /\d$/u.test(before) && /^\d/u.test(part))
      chords[chords.length - 1] = `${before}/${part}`;
    else chords.push(part);
  }
  const readings = chords.map(readOneNumeral);
  if (readings.some(reading => reading === undefined)) return undefined;
  return readings.flatMap((reading, index) => (index === 0 ? (reading ?? []) : ['of', ...(reading ?? [])]));
}

/** True for a numeral that could not be anything else: two letters or more, or one with a figure, a quality or a slash. */
export const isPlainNumeral = (text: string): boolean =>
  /^[#♯b♭]?([ivIV]{2,}|[VvIi](?=[\d°oø+/M(]))/u.test(text) && readNumeral(text) !== undefined;

const intervalQuality: Readonly<Record<string, string>> = {
  P: 'perfect',
  M: 'major',
  m: 'minor',
  d: 'diminished',
  A: 'augmented',
};
const intervalNumber = [
  '',
  'unison',
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'octave',
  'ninth',
  'tenth',
];

/** `P5` perfect fifth, `m7` minor seventh. `A4` may also be a pitch: the caller decides. */
export function readInterval(text: string): Reading | undefined {
  const match = /^([PMmdA])([1-9]|10)$/u.exec(text);
  const number = intervalNumber[Number(match?.[2])];
  if (match === null || number === undefined) return undefined;
  const perfect = [1, 4, 5, 8].includes(Number(match[2]));
  if ((match[1] === 'P') !== perfect && 'PMm'.includes(match[1] ?? '')) return undefined;
  return [intervalQuality[match[1] ?? ''] ?? '', number];
}

/** `4-3` four three: a suspension figure. Source of the list: Open Music Theory, "Embellishing tones"; 6-5 from Hutchinson. */
export const isSuspensionFigure = (text: string): boolean =>
  /^(9-8|7-6|4-3|2-3|6-5|9–8|7–6|4–3|2–3|6–5)$/u.test(text);

/** `3/4` three four, `6/8` six eight: a metre, or the figures of a chord; both are read number by number. */
export function readMeter(text: string): Reading | undefined {
  const match = /^(\d{1,2})\/(1|2|4|8|16|32)$/u.exec(text);
  if (match === null) return undefined;
  const spoken: Readonly<Record<string, string>> = {
    '16': 'sixteen',
    '32': 'thirty-two',
    '12': 'twelve',
    '10': 'ten',
    '15': 'fifteen',
  };
  return [match[1] ?? '', match[2] ?? ''].flatMap(number =>
    plain(spoken[number] ?? digits(number).join(' ')),
  );
}
