import { transposed } from '../score/index.js';
import type { PitchClass } from '../score/index.js';
import { chord } from './chord.js';
import { degreeOf, degreeTone, key } from './key.js';
import type { Chord, ChordQuality, Key, TriadQuality } from './model.js';
import { inversionOf } from './roman-numeral.js';
import type { RomanNumeral } from './roman-numeral.js';

/** What a plain 7 on an upper-case numeral means, see `Conventions` of the claim language. */
export type SeventhConvention = 'major' | 'minor';

/**
 * Root of a plain numeral. In minor `vii`, `viio`, `viiø` stand on the raised seventh, `VII` on the natural one, `VI` on the natural
 * sixth (RomanText, When-in-Rome syntax). A flat before `III`, `VI` or `VII` in minor only confirms the natural degree, as teachers
 * write it to be safe; before `vii` it takes the raised seventh back.
 */
function rootOf(numeral: RomanNumeral, of: Key): PitchClass {
  const { degree, alter, upper } = numeral;
  if (of.mode === 'minor' && degree === 7 && !upper) return degreeTone(of, 7, alter + 1);
  if (of.mode === 'minor' && upper && alter === -1 && (degree === 3 || degree === 6 || degree === 7))
    return degreeTone(of, degree);
  return degreeTone(of, degree, alter);
}

function triadOf(numeral: RomanNumeral): TriadQuality {
  if (numeral.quality === 'o' || numeral.quality === 'ø') return 'diminished';
  if (numeral.quality === '+') return 'augmented';
  return numeral.upper ? 'major' : 'minor';
}

/** Whether the scale (natural minor in minor) has a major seventh above the root. */
function hasMajorSeventh(root: PitchClass, of: Key): boolean {
  const { degree } = degreeOf(of, root);
  const seventh = degreeTone(of, ((degree + 5) % 7) + 1);
  return seventh - root === 5;
}

function qualityOf(
  numeral: RomanNumeral,
  root: PitchClass,
  of: Key,
  convention: SeventhConvention,
): ChordQuality {
  const triad = triadOf(numeral);
  const { figures } = numeral;
  if (figures === '' || figures === '6' || figures === '64') return triad;
  if (figures === '9')
    return triad === 'major' && of.mode === 'minor' && degreeOf(of, root).degree === 5
      ? 'dominant minor ninth'
      : 'dominant ninth';
  switch (triad) {
    case 'major':
      return numeral.majorSeventh || (convention === 'major' && hasMajorSeventh(root, of))
        ? 'major seventh'
        : 'dominant seventh';
    case 'minor':
      return numeral.majorSeventh ? 'minor-major seventh' : 'minor seventh';
    case 'diminished':
      return numeral.quality === 'ø' ? 'half-diminished seventh' : 'diminished seventh';
    case 'augmented':
      return numeral.majorSeventh || hasMajorSeventh(root, of)
        ? 'augmented major seventh'
        : 'augmented seventh';
  }
}

/** The key that an applied numeral reads its target as: the target's root is the tonic, its case the mode. */
export function keyOfTarget(target: RomanNumeral, of: Key): Key {
  const inner = target.target === undefined ? of : keyOfTarget(target.target, of);
  const root = target.kind === 'Neapolitan' ? degreeTone(inner, 2, -1) : rootOf(target, inner);
  const diminished = target.quality === 'o' || target.quality === 'ø';
  return key(root, target.upper && !diminished ? 'major' : 'minor');
}

/**
 * The spelled chord that a numeral names in a key: tones stacked from the root, inversion from the figures.
 * Sources: Hutchinson, Music Theory for the 21st-Century Classroom, Roman Numeral Chord Symbols and Augmented Sixth Chords;
 * Open Music Theory, altered subdominants (N: lowered 2; It, Fr, Ger, Sw with lowered 6 and raised 4).
 */
export function realize(numeral: RomanNumeral, of: Key, convention: SeventhConvention = 'major'): Chord {
  if (numeral.target !== undefined) {
    const { target, ...plain } = numeral;
    return realize(plain, keyOfTarget(target, of), convention);
  }
  const inversion = inversionOf(numeral);
  switch (numeral.kind) {
    case 'degree': {
      const root = rootOf(numeral, of);
      return chord(root, qualityOf(numeral, root, of, convention), inversion);
    }
    case 'Neapolitan':
      return chord(degreeTone(of, 2, -1), numeral.figures === '7' ? 'major seventh' : 'major', inversion);
    case 'cadential':
      return chord(of.tonic, numeral.upper ? of.mode : 'minor', 2);
    case 'Italian':
      return chord(raisedFourth(of), 'Italian augmented sixth', inversion);
    case 'German':
      return chord(raisedFourth(of), 'German augmented sixth', inversion);
    case 'French':
      return chord(degreeTone(of, 2), 'French augmented sixth', inversion);
    case 'common-tone':
      return chord(degreeTone({ tonic: of.tonic, mode: 'major' }, 2, 1), 'diminished seventh', inversion);
    case 'Swiss':
      return chord(degreeTone(of, 2, 1), 'Swiss augmented sixth', inversion);
  }
}

const raisedFourth = (of: Key): PitchClass => transposed(of.tonic, 6);
