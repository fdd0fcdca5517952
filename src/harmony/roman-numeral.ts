import { plainSigns } from './plain-signs.js';

/** A Roman numeral as read. */
export interface RomanNumeral {
  /** `degree` for plain numerals; the named chords of the trade otherwise. */
  readonly kind:
    'degree' | 'Neapolitan' | 'Italian' | 'French' | 'German' | 'Swiss' | 'cadential' | 'common-tone';
  /** Semitones that a leading sharp or flat adds to the degree. */
  readonly alter: number;
  /** 1 to 7. */
  readonly degree: number;
  /** Upper case: major third above the root. */
  readonly upper: boolean;
  readonly quality: '' | 'o' | 'ø' | '+';
  /** `M` before the figures: major seventh. */
  readonly majorSeventh: boolean;
  readonly figures: Figures;
  /** The numeral after the slash: `V` in `V7/V`. */
  readonly target?: RomanNumeral;
}

/** Figured-bass signature in its short form; `''` is a triad in root position. */
export type Figures = '' | '6' | '64' | '7' | '65' | '43' | '42' | '9';

export interface UnreadNumeral {
  /** Offset of the character where reading stopped. */
  readonly at: number;
  readonly expected: readonly string[];
}

const degrees: Readonly<Record<string, number>> = { i: 1, ii: 2, iii: 3, iv: 4, v: 5, vi: 6, vii: 7 };
const degreeNames = ['I', 'II', 'III', 'IV', 'V', 'VI', 'VII'] as const;
const figuresRead: Readonly<Record<string, Figures>> = {
  '': '',
  '5': '',
  '53': '',
  '6': '6',
  '63': '6',
  '64': '64',
  '7': '7',
  '65': '65',
  '43': '43',
  '42': '42',
  '2': '42',
  '9': '9',
};
/** Figures printed for a named chord that stands without any: its usual bass (OMT, Chromatic Predominants). */
const usualFigures: Partial<Record<RomanNumeral['kind'], Figures>> = {
  Italian: '6',
  French: '43',
  German: '65',
  Swiss: '43',
};
/** Figures that each chord can bear: an Italian sixth has three tones, the other augmented sixths four. */
const figuresBorne: Readonly<Record<RomanNumeral['kind'], readonly Figures[]>> = {
  degree: ['', '6', '64', '7', '65', '43', '42', '9'],
  Neapolitan: ['', '6', '64', '7'],
  Italian: ['', '6', '64'],
  French: ['43', '7', '65', '42'],
  German: ['65', '7', '43', '42'],
  Swiss: ['43', '7', '65', '42'],
  cadential: ['', '64'],
  'common-tone': ['7', '65', '43', '42'],
};
/** Named chords by how they are written, in small letters, and the degree that they are counted from. */
const namedChords: Readonly<Record<string, Pick<RomanNumeral, 'kind' | 'degree'>>> = {
  n: { kind: 'Neapolitan', degree: 2 },
  it: { kind: 'Italian', degree: 4 },
  fr: { kind: 'French', degree: 4 },
  ger: { kind: 'German', degree: 4 },
  sw: { kind: 'Swiss', degree: 4 },
  cad: { kind: 'cadential', degree: 1 },
  ct: { kind: 'common-tone', degree: 2 },
};

const inversionOfFigures: Readonly<Record<Figures, number>> = {
  '': 0,
  '6': 1,
  '64': 2,
  '7': 0,
  '65': 1,
  '43': 2,
  '42': 3,
  '9': 0,
};

/** 0 root position to 3 third inversion. */
export const inversionOf = (numeral: RomanNumeral): number => inversionOfFigures[numeral.figures];

/** Figures of a chord with `tones` tones (3 triad, 4 seventh, 5 ninth) in an inversion. */
export function figuresFor(tones: number, inversion: number): Figures {
  if (tones === 3) return (['', '6', '64'] as const)[inversion] ?? '';
  if (tones === 5 && inversion === 0) return '9';
  return (['7', '65', '43', '42'] as const)[inversion] ?? '7';
}

/**
 * Reads a Roman numeral: case for quality, `o` or `°`, `ø`, `+`, `M`, figures with or without slash (`V65`, `V6/5`), applied
 * chords to any depth (`V7/V/V`), `N6`, `It6 Fr43 Ger65 Sw43`, `cad64`, `CTo7`, a leading sharp or flat. `{ at, expected }` for anything else.
 */
export function parseRomanNumeral(written: string): RomanNumeral | UnreadNumeral {
  const text = plainSigns(written);
  const read = (from: number): RomanNumeral | UnreadNumeral => {
    const rest = text.slice(from);
    const head = /^(b{1,2}|#{1,2})?(VII|vii|III|iii|VI|vi|IV|iv|II|ii|I|i|V|v)(?![IiVvt])/u.exec(rest);
    const named = /^(bb|b|##|#)?(N|It|Fr|Ger|Sw|[Cc]ad|CT|Ct|ct)/u.exec(rest);
    let numeral: Omit<RomanNumeral, 'figures' | 'target' | 'quality' | 'majorSeventh'>;
    let at: number;
    if (head !== null) {
      const sign = head[1] ?? '';
      const name = head[2] ?? '';
      numeral = {
        kind: 'degree',
        alter: sign.startsWith('b') ? -sign.length : sign.length,
        degree: degrees[name.toLowerCase()] ?? 1,
        upper: name === name.toUpperCase(),
      };
      at = from + head[0].length;
    } else if (named !== null) {
      const chord = namedChords[(named[2] ?? '').toLowerCase()];
      if (chord === undefined || (named[1] !== undefined && chord.kind !== 'cadential'))
        return { at: from, expected: ['a Roman numeral I to VII'] };
      numeral = { ...chord, alter: 0, upper: named[1] === undefined };
      at = from + named[0].length;
    } else {
      return {
        at: from,
        expected: ['a Roman numeral I to VII', 'N6', 'It6', 'Fr43', 'Ger65', 'cad64', 'CTo7'],
      };
    }
    const mark = /^(o|ø|\/o|\+)?(Maj|maj|M)?((?:\+)?(?:\d(?:\/(?=\d))?)*)/u.exec(text.slice(at));
    const sign = mark?.[1] ?? '';
    const digits = (mark?.[3] ?? '').replace(/[/+]/g, '');
    const usual = usualFigures[numeral.kind];
    const figures =
      usual === undefined
        ? figuresRead[digits]
        : digits === '' || digits === '6'
          ? usual
          : // A lone 5 is more likely a 6 or 65 gone wrong than the rare root position.
            digits === '5'
            ? undefined
            : figuresRead[digits];
    const borne = figuresBorne[numeral.kind];
    if (figures === undefined || !borne.includes(figures)) {
      const names = borne.filter(each => each !== '');
      return {
        at: at + sign.length + (mark?.[2] ?? '').length,
        expected: [
          `figures ${[names.slice(0, -1).join(', '), ...names.slice(-1)].filter(Boolean).join(' or ')}`,
        ],
      };
    }
    at += mark?.[0].length ?? 0;
    const own = {
      ...numeral,
      quality: (numeral.kind !== 'degree' ? '' : sign === '/o' ? 'ø' : sign) as RomanNumeral['quality'],
      majorSeventh: mark?.[2] !== undefined,
      figures: numeral.kind === 'cadential' ? ('64' as const) : figures,
    };
    if (at === text.length) return own;
    if (text[at] !== '/')
      return {
        at,
        expected: ['figures', '`/` and the numeral that the chord is applied to', 'the end of the numeral'],
      };
    const target = read(at + 1);
    return 'expected' in target ? target : { ...own, target };
  };
  return read(0);
}

export const isUnread = (result: RomanNumeral | UnreadNumeral): result is UnreadNumeral =>
  'expected' in result;

/** The numeral in the plain form that `parseRomanNumeral` reads: `viio7/V`, `bVI`, `Ger65`. */
export function printRomanNumeral(of: RomanNumeral): string {
  const signs = of.alter < 0 ? 'b'.repeat(-of.alter) : '#'.repeat(of.alter);
  const name = degreeNames[of.degree - 1] ?? 'I';
  const head = {
    degree: signs + (of.upper ? name : name.toLowerCase()) + of.quality + (of.majorSeventh ? 'M' : ''),
    Neapolitan: 'N',
    Italian: 'It',
    French: 'Fr',
    German: 'Ger',
    Swiss: 'Sw',
    cadential: of.upper ? 'cad' : 'bcad',
    'common-tone': 'CTo',
  }[of.kind];
  // Plain `It` is read with its usual bass, so that root position has to be written out.
  const figures = of.kind === 'Italian' && of.figures === '' ? '53' : of.figures;
  return head + figures + (of.target === undefined ? '' : `/${printRomanNumeral(of.target)}`);
}
