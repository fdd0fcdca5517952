/**
 * Compares our reading of ABC scores with that of abc2midi (Debian package `abcmidi`), an independent reader: pitch and onset of
 * every note that is struck, in playing order. Run: npx tsx scripts/compare-with-abcmidi.ts FILE.abc ...
 * Exits with 1 when a note differs. Grace notes, ornaments and dynamics are left out: abc2midi performs them in its own way.
 *
 * Known differences, where abc2midi 4.84 does not follow the ABC standard 2.1 or the page:
 * - of two end repeats (`:|`) with no `|:` between them it plays the second part once, and one behind a double bar or the last of
 *   several endings it takes back too far; we repeat from the last double bar or end of repeat (section 4.8);
 * - it does not follow `!D.C.!` and the like (section 4.14) nor `propagate-accidentals` (section 11.3);
 * - of a chord of several lengths with a length of its own, `[C2E4]2`, it forgets the latter (section 4.17);
 * - it leaves out the octave of a clef such as `bass-8` where the voice has a `transpose=` as well (section 4.6);
 * - it strikes a note again that is tied into a second ending, and ends an accidental of a grace note with it, where on paper it
 *   stays in force to the bar line (common practice);
 * - under `K:HP` it plays F sharp and C sharp, which that key does not write (section 3.1.14).
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { BasicMIDI } from 'spessasynth_core';
import { sourceText } from '../src/diagnostics/index.js';
import {
  add,
  midiOf,
  printPitch,
  readScore,
  subtract,
  toNumber,
  zero,
  type Score,
} from '../src/score/index.js';

interface Struck {
  readonly key: number;
  /** Quarter notes from the start of the performance. */
  readonly quarters: number;
  readonly name: string;
}

/** abc2midi counts in 480 ticks a quarter note and rounds; two ticks are no difference. */
const tolerance = 2.5 / 480;
const mostShown = 12;

function struckByUs(score: Score): Struck[] {
  const byBar = new Map<number, (typeof score.notes)[number][]>();
  for (const note of score.notes) {
    if (note.grace || note.tiedFrom !== undefined) continue;
    byBar.set(note.bar, [...(byBar.get(note.bar) ?? []), note]);
  }
  let now = zero;
  return score.playingOrder.flatMap(({ bar: index }) => {
    const bar = score.bars[index];
    if (bar === undefined) return [];
    const start = now;
    now = add(now, bar.length);
    return (byBar.get(index) ?? []).map(note => ({
      key: midiOf(note.pitch),
      quarters: 4 * toNumber(add(start, subtract(note.onset, bar.start))),
      name: `${printPitch(note.pitch)} bar ${bar.label} voice ${note.voice}`,
    }));
  });
}

/** The same score without what abc2midi performs in its own way: ornaments, and chords struck as a slight arpeggio. */
const plain = (text: string): string =>
  text
    .replace(/!(?!D\.|d[ac]|fine|segno|coda)[^!\n]*!/g, '')
    .replace(/^(?![A-Za-z+%]:)(?!%).*$/gm, line => line.replace(/[~T](?=[\^_=]?[A-Ga-g[])/g, ''))
    .replace(/^X:.*$/m, '$&\n%%MIDI chordattack 0');

function struckByAbcmidi(text: string): Struck[] {
  const folder = mkdtempSync(join(tmpdir(), 'barwise-'));
  try {
    const abc = join(folder, 'score.abc');
    const midi = join(folder, 'score.mid');
    writeFileSync(abc, plain(text));
    execFileSync('abc2midi', [abc, '-o', midi, '-NGRA', '-NGUI', '-NFER', '-NFNP', '-silent'], {
      stdio: 'pipe',
      timeout: 60_000,
    });
    if (!existsSync(midi)) throw new Error('abc2midi finds no tune to play');
    const bytes = readFileSync(midi);
    const parsed = BasicMIDI.fromArrayBuffer(
      bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength),
    );
    return parsed.tracks.flatMap(track =>
      track.events
        .filter(event => (event.statusByte & 0xf0) === 0x90 && (event.data[1] ?? 0) > 0)
        .map(event => ({
          key: event.data[0] ?? 0,
          quarters: event.ticks / parsed.timeDivision,
          name: `key ${String(event.data[0])}`,
        })),
    );
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Pairs the notes of both readings; what is left on either side is a difference. */
function compareStruck(
  ours: readonly Struck[],
  theirs: readonly Struck[],
): { readonly onlyOurs: Struck[]; readonly onlyTheirs: Struck[] } {
  const waiting = new Map<number, Struck[]>();
  for (const note of theirs) waiting.set(note.key, [...(waiting.get(note.key) ?? []), note]);
  for (const notes of waiting.values()) notes.sort((a, b) => a.quarters - b.quarters);
  const onlyOurs = ours
    .toSorted((a, b) => a.quarters - b.quarters)
    .filter(note => {
      const notes = waiting.get(note.key) ?? [];
      const match = notes.findIndex(other => Math.abs(other.quarters - note.quarters) <= tolerance);
      if (match < 0) return true;
      notes.splice(match, 1);
      return false;
    });
  return { onlyOurs, onlyTheirs: [...waiting.values()].flat().sort((a, b) => a.quarters - b.quarters) };
}

let failed = false;
for (const file of process.argv.slice(2)) {
  const text = readFileSync(file, 'utf8');
  const ours = struckByUs(readScore(sourceText(file, text)).value);
  let theirs: Struck[];
  try {
    theirs = struckByAbcmidi(text);
  } catch (error) {
    failed = true;
    console.log(`NOT COMPARED  ${file}: ${error instanceof Error ? error.message : String(error)}`);
    continue;
  }
  const { onlyOurs, onlyTheirs } = compareStruck(ours, theirs);
  const equal = onlyOurs.length + onlyTheirs.length === 0;
  failed ||= !equal;
  console.log(
    `${equal ? 'equal' : 'DIFFERENT'}  ${file}: ${String(ours.length)} notes, abc2midi ${String(theirs.length)}`,
  );
  const show = (side: string, notes: readonly Struck[]): void => {
    for (const { name, quarters } of notes.slice(0, mostShown))
      console.log(`  only ${side}: ${name} at quarter ${quarters.toFixed(3)}`);
    if (notes.length > mostShown) console.log(`  ... and ${String(notes.length - mostShown)} more`);
  };
  show('here', onlyOurs);
  show('abc2midi', onlyTheirs);
}
process.exitCode = failed ? 1 : 0;
