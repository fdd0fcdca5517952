import type { AbcText, Field } from './abc-text.js';
import type { Voice, VoiceId } from './model.js';

/** What a `V:` or `K:` field says about the staff of a voice. */
export interface StaffProperties {
  readonly clef?: string;
  readonly name?: string;
  /** Octaves added by `octave=`. */
  readonly octave?: number;
  /** Semitones added by `transpose=`. */
  readonly transpose?: number;
}

const property = /([A-Za-z-]+)\s*=\s*(?:"([^"]*)"|(\S+))|(\S+)/g;
const clefName = /^(treble|alto|tenor|bass|perc|none|[GFC][1-5])([+-](?:8|15))?/;

/** Reads clef, name, octave and transposition out of the words of a field. */
export function readStaffProperties(words: string): StaffProperties {
  const found: { -readonly [K in keyof StaffProperties]: StaffProperties[K] } = {};
  for (const [, key, quoted, plain, bare] of words.matchAll(property)) {
    const value = quoted ?? plain ?? '';
    if (key === 'clef' || (key === undefined && bare !== undefined && clefName.test(bare))) {
      const name = clefName.exec(key === 'clef' ? value : (bare ?? ''))?.[0];
      if (name !== undefined) found.clef = name;
    } else if (key === 'name' || key === 'nm') found.name = value;
    else if (key === 'octave' && /^[+-]?\d$/.test(value)) found.octave = Number(value);
    else if (key === 'transpose' && /^[+-]?\d{1,2}$/.test(value)) found.transpose = Number(value);
  }
  return found;
}

/** Octaves that a clef such as `treble-8` adds to the sound (ABC 2.1, section 4.6). */
export function octavesOfClef(clef: string): number {
  const sign = /([+-])(8|15)$/.exec(clef);
  return sign === null ? 0 : (sign[1] === '+' ? 1 : -1) * (sign[2] === '15' ? 2 : 1);
}

/** The voice that a `V:` field names. */
export const voiceIdOf = (field: Field): VoiceId => (/^\s*(\S+)/.exec(field.value)?.[1] ?? '1') as VoiceId;

/** The words of a `V:` field after its id. */
export const wordsAfterId = (field: Field): string => field.value.replace(/^\s*\S+/, '');

/** The staves of a `%%score` or `%%staves` directive, each with its voices (ABC 2.1, section 7.3). */
export function readStaves(layout: string): readonly (readonly string[])[] {
  const staves: string[][] = [];
  let shared: string[] | undefined;
  for (const [token] of layout.matchAll(/[()]|[^\s()[\]{}|*]+/g)) {
    if (token === '(') staves.push((shared = []));
    else if (token === ')') shared = undefined;
    else if (shared !== undefined) shared.push(token);
    else staves.push([token]);
  }
  return staves;
}

const layoutOf = (field: Field): string | undefined =>
  field.letter === '%' || field.letter === 'I'
    ? /^\s*(?:score|staves)\s+(.*)$/.exec(field.value)?.[1]
    : undefined;

/** All voices of the score from the top staff down; a score without `V:` has the one voice `1`. */
export function readVoices(abc: AbcText): readonly Voice[] {
  const properties = new Map<string, StaffProperties>();
  const key = abc.fields.find(field => field.letter === 'K');
  const common = key === undefined ? {} : readStaffProperties(key.value);
  for (const field of abc.fields) {
    if (field.letter !== 'V') continue;
    const id = voiceIdOf(field);
    properties.set(id, { ...common, ...properties.get(id), ...readStaffProperties(wordsAfterId(field)) });
  }
  if (properties.size === 0) properties.set('1', common);
  const layout = abc.fields.map(layoutOf).find(text => text !== undefined);
  const staves = layout === undefined ? [] : readStaves(layout);
  const placed = new Set(staves.flat());
  const rest = [...properties.keys()].filter(id => !placed.has(id)).map(id => [id]);
  return [...staves, ...rest].flatMap((ids, staff) =>
    ids
      .filter(id => properties.has(id))
      .map(id => ({
        id: id as VoiceId,
        name: properties.get(id)?.name ?? '',
        staff,
        clef: properties.get(id)?.clef ?? 'treble',
      })),
  );
}
