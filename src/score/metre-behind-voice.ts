import { hidden } from './abc-text.js';
import { isFree, readMeter } from './meter.js';

/** A change of metre directly behind the name of a voice that begins a line; `end` is where its field ends. */
interface MetreBehindVoice {
  readonly end: number;
  readonly value: string;
}

/** A score for the engraver, each sign still in its place, and the metres that were taken out of it. */
export interface EngraverText {
  readonly abc: string;
  readonly metres: readonly MetreBehindVoice[];
}

interface VoiceElement {
  readonly el_type?: string;
  /** Blanks in front of a note may belong to it. */
  readonly startChar?: number;
  readonly endChar?: number;
}

/** What is needed of a parsed tune: staves with the elements of their voices, line by line. */
interface Staff {
  readonly voices?: VoiceElement[][];
  /** Where it stands at the head of the staff. */
  meter?: unknown;
}
interface Tune {
  readonly lines: readonly { readonly staff?: readonly Staff[] }[];
}

/** `V:1` and a new line, or `[V:1]`, then other fields and remarks, then `[M:3/4]` or a line `M:3/4`. */
const behindVoice =
  /^((?:V:.*\n(?:(?:%|[A-LN-Z]:).*\n)*|\[V:[^\]\n]*\])(?:[ \t]*\[[A-LN-Z]:[^\]\n]*\])*[ \t]*)(?:\[M:([^\]\n]*)\]|(?<=\n)M:([^%\n]*).*$)/gm;
/** Before it nothing is a change: the field that ends the header (ABC 2.1, section 2.2.3). */
const headerEnd = /^K:.*$/m;

/**
 * Takes out of a score the changes of metre that the engraving library gets wrong: behind the name of a voice it
 * keeps them for the line after the next, or for the other staff.
 */
export function withoutMetresBehindVoices(abc: string): EngraverText {
  const header = headerEnd.exec(abc);
  const bodyStart = header === null ? 0 : header.index + header[0].length;
  const metres: MetreBehindVoice[] = [];
  // A match that began among the voices of the header would reach into the body.
  const body = abc
    .slice(bodyStart)
    .replace(
      behindVoice,
      (all: string, before: string, inline: string | undefined, line: string | undefined, at: number) => {
        const value = (inline ?? line ?? '').trim();
        const meter = readMeter(value);
        if (meter === undefined || isFree(meter)) return all;
        metres.push({ end: bodyStart + at + all.length, value });
        const field = all.slice(before.length);
        return before + (inline === undefined ? hidden(field) : ' '.repeat(field.length));
      },
    );
  return { abc: abc.slice(0, bodyStart) + body, metres };
}

/** The signs that stand for a metre (common practice) by the names of the engraving library. */
const signs: Readonly<Record<string, string>> = { C: 'common_time', 'C|': 'cut_time' };

/** A metre as the engraving library lists it. */
function listed(value: string): object {
  if (signs[value] !== undefined) return { type: signs[value] };
  const [num, den] = value.replace(/[\s()]/g, '').split('/');
  return { type: 'specified', value: [{ num, den }] };
}

/** Puts into the parsed tune the metres that were taken out of its text, each in front of the note that it stands in front of there. */
export function putMetres(tune: Tune, metres: readonly MetreBehindVoice[]): void {
  const staves = tune.lines.flatMap(({ staff = [] }, line) => staff.map(one => ({ staff: one, line })));
  const firstLine = staves[0]?.line;
  for (const { end, value } of metres) {
    const places = staves.flatMap(({ staff, line }) =>
      (staff.voices ?? []).flatMap(voice => {
        const at = voice.findIndex(({ endChar = -1 }) => endChar > end);
        const start = voice[at]?.startChar;
        return start === undefined ? [] : [{ staff, line, voice, at, start }];
      }),
    );
    const [nearest] = places.sort((a, b) => a.start - b.start);
    if (nearest === undefined) continue;
    const opensPiece =
      nearest.line === firstLine &&
      !nearest.voice.slice(0, nearest.at).some(({ el_type }) => el_type === 'note' || el_type === 'bar');
    if (opensPiece) nearest.staff.meter = listed(value);
    else nearest.voice.splice(nearest.at, 0, { el_type: 'meter', ...listed(value) });
  }
}
