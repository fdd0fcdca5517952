import { printChord, printKey } from '../harmony/index.js';
import type { Analysis, Segment } from '../harmony/index.js';
import { choirPart, printPitch, toNumber } from '../score/index.js';
import type { Bar } from '../score/index.js';
import type { PageScore, PageSegment } from './page-data.js';

function segmentData(segment: Segment): PageSegment {
  return {
    start: toNumber(segment.start),
    end: toNumber(segment.end),
    chord: printChord(segment.chord),
    roman: segment.roman,
    key: printKey(segment.key),
    function: segment.function,
    nonChordTones: segment.nonChordTones.map(({ note, kind, figure }) => ({
      note,
      kind,
      ...(figure === undefined ? {} : { figure }),
    })),
  };
}

/** Compound metres (6/8, 9/8, 12/8 ...) count dotted units, the others their written unit. */
function beatOf({ meter }: Bar, override: number | undefined): number {
  if (override !== undefined) return override;
  return meter.beats > 3 && meter.beats % 3 === 0 ? 3 / meter.unit : 1 / meter.unit;
}

/**
 * A score with its analysis as a page shows it.
 * @param path as the lesson names it
 * @param beat note value of one beat, where the lesson sets its own
 * @param programOf the instrument of a voice: General MIDI level 1 program number, 0-based
 */
export function pageScore(
  path: string,
  analysis: Analysis,
  beat: number | undefined,
  programOf: (voice: string) => number,
): PageScore {
  const { score, ...reading } = analysis;
  const voices = new Map(score.voices.map((voice, index) => [voice.id, index]));
  return {
    path,
    title: score.title,
    composer: score.composer,
    abc: score.source.text,
    voices: score.voices.map(voice => ({
      id: voice.id,
      name: choirPart(voice, score) ?? voice.name,
      staff: voice.staff,
      program: programOf(voice.id),
    })),
    notes: score.notes.map(note => ({
      pitch: printPitch(note.pitch),
      onset: toNumber(note.onset),
      duration: toNumber(note.duration),
      voice: voices.get(note.voice) ?? 0,
      bar: note.bar,
      at: note.span.start,
    })),
    bars: score.bars.map(bar => ({
      label: bar.label,
      start: toNumber(bar.start),
      length: toNumber(bar.length),
      beat: beatOf(bar, beat),
      startsAt: toNumber(bar.startsAt),
      from: bar.span.start,
      to: bar.span.end,
    })),
    segments: analysis.segments.map(segmentData),
    reading,
  };
}
