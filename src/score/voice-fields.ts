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
/** Clefs of ABC 2.1, section 4.6; a clef may be named or given as its letter and line. */
const clefName = /^(?:treble|alto|tenor|bass|perc|none|[GFC][1-5])(?:[+-](?:8|15))?$/;

/** Reads clef, name, octave and transposition out of the words of a field (ABC 2.1, sections 4.6 and 7.1). */
export function readStaffProperties(words: string): StaffProperties {
  const found: { -readonly [K in keyof StaffProperties]: StaffProperties[K] } = {};
  for (const [, key, quoted, plain, bare] of words.matchAll(property)) {
    const value = quoted ?? plain ?? bare ?? '';
    if ((key === 'clef' || key === undefined) && clefName.test(value)) found.clef = value;
    else if (key === 'name' || key === 'nm') found.name = value;
    else if (key === 'octave' && /^[+-]?\d$/.test(value)) found.octave = Number(value);
    else if (key === 'transpose' && /^[+-]?\d{1,2}$/.test(value)) found.transpose = Number(value);
  }
  return found;
}

/** Octaves that a clef such as `treble-8` adds to what sounds (ABC 2.1, section 4.6). */
export function octavesOfClef(clef: string): number {
  const sign = /([+-])(8|15)$/.exec(clef);
  return sign === null ? 0 : (sign[1] === '+' ? 1 : -1) * (sign[2] === '15' ? 2 : 1);
}

/** The id of a voice as the source names it. */
const voiceId = (name: string): VoiceId => name as VoiceId;

/** The voice that a `V:` field names. */
export const voiceIdOf = (field: Field): VoiceId => voiceId(/^\s*(\S+)/.exec(field.value)?.[1] ?? '1');

/** The id of layer n of a voice: the voice itself or its nth overlay. */
export const layerId = (voice: VoiceId, layer: number): VoiceId =>
  layer === 0 ? voice : voiceId(`${voice}&${String(layer)}`);

/** The words of a `V:` field after its id. */
export const wordsAfterId = (field: Field): string => field.value.replace(/^\s*\S+/, '');

/** A `%%score` or `%%staves` directive: the staves from the top, each with the names of its voices (ABC 2.1, section 11.1). */
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

/** The layout directive of the tune; the first one where the tune has several. */
export function layoutOf(
  abc: AbcText,
): { readonly field: Field; readonly staves: readonly (readonly string[])[] } | undefined {
  for (const field of abc.fields) {
    const layout =
      field.letter === '%' || field.letter === 'I'
        ? /^\s*(?:score|staves)\s+(.*)$/.exec(field.value)?.[1]
        : undefined;
    if (layout !== undefined) return { field, staves: readStaves(layout) };
  }
  return undefined;
}

/** All voices of the tune from the top staff down; a tune without `V:` has the one voice `1`. */
export function readVoices(abc: AbcText): readonly Voice[] {
  const common = readStaffProperties(abc.fields.find(field => field.letter === 'K')?.value ?? '');
  const named = new Map<string, StaffProperties>();
  for (const field of abc.fields) {
    if (field.letter !== 'V') continue;
    const id = voiceIdOf(field);
    named.set(id, { ...common, ...named.get(id), ...readStaffProperties(wordsAfterId(field)) });
  }
  if (named.size === 0) named.set('1', common);
  const laidOut = (layoutOf(abc)?.staves ?? [])
    .map(ids => ids.filter(id => named.has(id)))
    .filter(ids => ids.length > 0);
  const placed = new Set(laidOut.flat());
  const others = [...named.keys()].filter(id => !placed.has(id)).map(id => [id]);
  const seen = new Set<string>();
  return [...laidOut, ...others].flatMap((ids, staff) =>
    ids.flatMap((id): Voice[] => {
      if (seen.has(id)) return [];
      seen.add(id);
      const { name = '', clef = 'treble' } = named.get(id) ?? {};
      return [{ id: voiceId(id), name, staff, clef }];
    }),
  );
}
