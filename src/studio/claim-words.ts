import { readClaim } from '../claims/index.js';

/** What the window knows of the score, for an author who writes about it. */
export interface KnownScore {
  /** Labels of the bars, in order. */
  readonly bars: readonly string[];
  /** Names or ids of the voices. */
  readonly voices: readonly string[];
  /** What is heard in each bar, in order. */
  readonly heard: readonly HeardBar[];
}

export interface HeardBar {
  readonly label: string;
  readonly chords: readonly string[];
  readonly romans: readonly string[];
  readonly keys: readonly string[];
  /** Names of the sounding notes, without octave. */
  readonly notes: readonly string[];
}

export interface ClaimWord {
  readonly word: string;
  readonly about?: string;
}

const commonKeys: readonly string[] = [
  'C',
  'G',
  'D',
  'A',
  'E',
  'B',
  'F#',
  'F',
  'Bb',
  'Eb',
  'Ab',
  'Db',
].flatMap(tonic => [`${tonic} major`, `${tonic} minor`]);
const places: readonly string[] = ['bar ', 'bars ', 'the pickup', 'the last bar', 'the piece'];

/** The bar of which a claim speaks, as far as it is written. */
const barOf = (claim: string): string | undefined =>
  /\bbars? (?<label>\d+[a-z]?)/iu.exec(claim)?.groups?.['label'];

/**
 * Words with which a claim can go on.
 * @param before the claim as far as it stands before the word that is being written
 */
export function claimWords(before: string, score: KnownScore): readonly ClaimWord[] {
  // A sign that no claim contains makes the reader say what could have stood in its place.
  const read = readClaim(`${before}\u00a7`);
  if ('claim' in read || read.problem.at < before.length) return [];
  const here = barOf(before);
  /** What is heard in the bar that the claim speaks of, then elsewhere. */
  const heard = (what: 'chords' | 'romans' | 'keys' | 'notes'): readonly ClaimWord[] => {
    const [own, others] = [score.heard.filter(({ label }) => label === here), score.heard];
    const inBar = new Set(own.flatMap(bar => bar[what]));
    const all = new Set(others.flatMap(bar => bar[what]));
    return [
      ...[...inBar].map(word => ({ word, about: `heard in bar ${here ?? ''}` })),
      ...[...all].filter(word => !inBar.has(word)).map(word => ({ word, about: 'heard in the piece' })),
    ];
  };
  const { expected } = read.problem;
  const music = expected.flatMap((each): readonly ClaimWord[] => {
    if (each.startsWith('a Roman numeral')) return heard('romans');
    if (each.startsWith('a chord such')) return heard('chords');
    if (each.startsWith('a key ')) return [...heard('keys'), ...commonKeys.map(word => ({ word }))];
    return each.startsWith('a note ') ? heard('notes') : [];
  });
  const language = expected.flatMap((each): readonly ClaimWord[] => {
    if (each === 'a bar number') return score.bars.map(word => ({ word }));
    if (each.startsWith('a place ')) return places.map(word => ({ word }));
    if (/^a (?:Roman numeral|chord such|key|note) /u.test(each)) return [];
    const quoted = [...each.matchAll(/`([^`]+)`/gu)].map(([, word = '']) => word);
    // `a cadence such as `a half cadence`` offers its example; what is a word of the language stands alone.
    const about = each.includes(' such as ') ? { about: each.split(' such as ')[0] ?? each } : {};
    return quoted.map(word => ({ word, ...about }));
  });
  const words = [...music, ...language];
  const seen = new Set<string>();
  return words.filter(({ word }) => !seen.has(word) && seen.add(word));
}
