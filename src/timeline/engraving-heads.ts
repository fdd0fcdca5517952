/** What is needed of a parsed tune: staves with their heads and the elements of their voices, line by line. */
interface VoiceElement {
  readonly el_type?: string;
  readonly startChar?: number;
  /** Of a bar line, a clef or a metre. */
  readonly type?: string;
  readonly startEnding?: string;
}
interface Staff {
  readonly voices?: VoiceElement[][];
  clef?: unknown;
  key?: unknown;
  meter?: unknown;
}
interface Line {
  readonly staff?: readonly Staff[];
  /** Room above, which begins a section as a heading does. */
  readonly vskip?: unknown;
}
interface Tune {
  readonly lines: readonly Line[];
}

/** What begins with a bar line, and the bar line that is left of it at the end of a line. */
const leftOf: Readonly<Record<string, string>> = {
  bar_left_repeat: 'bar_thin',
  bar_dbl_repeat: 'bar_right_repeat',
};

/** Where in the source a line begins. */
const beginning = ({ staff: staves = [] }: Line): number =>
  staves
    .flatMap(({ voices = [] }) => voices.flat())
    .find(({ el_type, startChar = -1 }) => el_type === 'note' && startChar >= 0)?.startChar ?? -1;

/** The staves with which the sections of a tune begin (a heading in the music begins one), by where in the source that is. */
function sectionsOf({ lines }: Tune): ReadonlyMap<number, readonly Staff[]> {
  const begins = lines.filter(
    (line, index) => lines[index - 1]?.staff === undefined || line.vskip !== undefined,
  );
  return new Map(begins.flatMap(line => (line.staff === undefined ? [] : [[beginning(line), line.staff]])));
}

/** A key as it stands at the head of a line, where nothing is cancelled. */
function withoutNaturals(key: unknown): unknown {
  if (typeof key !== 'object' || key === null || !('accidentals' in key)) return key;
  const accidentals = key.accidentals as readonly { readonly acc: string }[];
  return { ...key, accidentals: accidentals.filter(({ acc }) => acc !== 'natural') };
}

/** The head of the line after a staff: its own, and what changes in it. */
function headAfter({ clef, key, voices = [] }: Staff): Staff {
  const last = (kind: string): VoiceElement | undefined =>
    voices.flatMap(voice => voice.findLast(({ el_type }) => el_type === kind) ?? [])[0];
  return { clef: last('clef') ?? clef, key: withoutNaturals(last('key') ?? key) };
}

/** A repeat or an ending that begins with `voice` begins in its own line, not behind the line before. */
function moveBeginning(voice: VoiceElement[], before: VoiceElement[]): void {
  const last = before.at(-1);
  if (last?.el_type !== 'bar') return;
  const { startEnding, ...bar } = last;
  const left = leftOf[last.type ?? ''];
  if (startEnding === undefined && left === undefined) return;
  before.splice(-1, 1, left === undefined ? bar : { ...bar, type: left });
  voice.unshift({
    el_type: 'bar',
    type: left === undefined ? 'bar_invisible' : 'bar_left_repeat',
    ...(startEnding === undefined ? {} : { startEnding }),
  });
}

/**
 * What changes where a line begins is announced at the end of the line before: a clef before the bar line, key and metre after it
 * (Gould, Behind Bars, 2011, on clefs, key signatures and time signatures at the end of a system; from memory).
 */
function announce(changes: readonly VoiceElement[], before: VoiceElement[]): void {
  const isClef = ({ el_type }: VoiceElement): boolean => el_type === 'clef';
  const atBar = before.at(-1)?.el_type === 'bar' ? -1 : before.length;
  before.splice(atBar, 0, ...changes.filter(isClef).map(clef => ({ ...clef })));
  before.push(...changes.filter(change => !isClef(change)).map(change => ({ ...change })));
}

/** Clef and key that change where a line begins belong to its head. */
function moveChanges(staff: Staff, voice: VoiceElement[], before: VoiceElement[]): void {
  const firstNote = voice.findIndex(({ el_type }) => el_type === 'note');
  const opening = firstNote < 0 ? voice.splice(0) : voice.splice(0, firstNote);
  const changes = (...kinds: readonly string[]): readonly VoiceElement[] =>
    opening.filter(({ el_type = '' }) => kinds.includes(el_type));
  announce(changes('clef', 'key', 'meter'), before);
  const [clef, key] = [changes('clef').at(-1), changes('key').at(-1)];
  if (clef !== undefined) staff.clef = clef;
  if (key !== undefined) staff.key = withoutNaturals(key);
  voice.unshift(...opening.filter(({ el_type }) => el_type !== 'clef' && el_type !== 'key'));
}

/**
 * Sets the heads of lines right in a tune that was divided into lines anew. The engraving library keeps the clef that a section began
 * with, loses the metre and the key of a section under a heading, and leaves a repeat or an ending behind the line before its own.
 * @param written the same tune in the lines of its source
 */
export function setLineHeads(tune: Tune, written: Tune): void {
  const sections = sectionsOf(written);
  let before: readonly Staff[] = [];
  let heads: readonly Staff[] = [];
  for (const line of tune.lines) {
    const { staff: staves } = line;
    if (staves === undefined) continue;
    const section = sections.get(beginning(line));
    for (const [index, staff] of staves.entries()) {
      const { clef, key, meter } = (section ?? heads)[index] ?? {};
      if (clef !== undefined) staff.clef = clef;
      if (key !== undefined) staff.key = key;
      if (meter !== undefined) staff.meter = meter;
      if (section !== undefined) continue;
      for (const [at, voice] of (staff.voices ?? []).entries()) {
        const end = before[index]?.voices?.[at] ?? [];
        moveBeginning(voice, end);
        moveChanges(staff, voice, end);
      }
    }
    heads = staves.map(headAfter);
    before = staves;
  }
}
