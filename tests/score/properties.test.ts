import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  add,
  compare,
  equals,
  fraction,
  metricalWeight,
  midiOf,
  onsetAt,
  placeAt,
  printFraction,
  soundingUntil,
  zero,
  type Fraction,
  type Score,
} from '../../src/score/index.js';
import { read } from './reading.js';

/** Seeds are fixed so that a failure can be run again. */
const settings = { seed: 31_415_926, numRuns: 150 };

const noteNames = fc.constantFrom(
  'C',
  'D',
  'E',
  'F',
  'G',
  'A',
  'B',
  'c',
  '^f',
  '_B',
  '=e',
  'z',
  '[CE]',
  '[Ace]',
);
/** Ways to fill a quarter when the unit is an eighth. */
const quarter = fc.oneof(
  noteNames.map(name => `${name}2`),
  fc.tuple(noteNames, noteNames).map(pair => pair.join('')),
  fc.tuple(noteNames, noteNames).map(pair => pair.join('>')),
  fc.tuple(noteNames, noteNames, noteNames).map(three => `(3${three.join('')}`),
  fc.tuple(noteNames, noteNames, noteNames, noteNames).map(four => four.map(name => `${name}/`).join('')),
);

interface Piece {
  readonly text: string;
  readonly beats: number;
  readonly bars: number;
  readonly pickup: number;
  readonly voices: number;
}

/** Well-formed pieces: voices of equal bars, with or without a pickup, repeats around some of the bars. */
const piece: fc.Arbitrary<Piece> = fc
  .record({
    beats: fc.integer({ min: 2, max: 5 }),
    bars: fc.integer({ min: 2, max: 6 }),
    voices: fc.integer({ min: 1, max: 3 }),
  })
  .chain(({ beats, bars, voices }) =>
    fc
      .record({
        pickup: fc.integer({ min: 0, max: beats - 1 }),
        opening: fc.array(fc.boolean(), { minLength: bars, maxLength: bars }),
        closing: fc.array(fc.boolean(), { minLength: bars, maxLength: bars }),
        music: fc.array(
          fc.array(fc.array(quarter, { minLength: beats, maxLength: beats }), {
            minLength: bars + 1,
            maxLength: bars + 1,
          }),
          {
            minLength: voices,
            maxLength: voices,
          },
        ),
      })
      .map(({ pickup, opening, closing, music }) => {
        const voice = (parts: readonly (readonly string[])[], index: number): string => {
          const first = pickup === 0 ? '' : `${(parts[bars] ?? []).slice(0, pickup).join(' ')}|`;
          const rest = parts
            .slice(0, bars)
            .map(
              (bar, at) =>
                `${opening[at] === true ? '|:' : ''}${bar.join(' ')}${closing[at] === true ? ':|' : '|'}`,
            );
          return `V:${String(index + 1)}\n${first}${rest.join('')}\n`;
        };
        return {
          text: `X:1\nM:${String(beats)}/4\nL:1/8\nK:G\n${music.map(voice).join('')}`,
          beats,
          bars,
          pickup,
          voices,
        };
      }),
  );

const sum = (lengths: readonly Fraction[]): Fraction => lengths.reduce(add, zero);
const onsets = (score: Score): readonly Fraction[] =>
  [...score.notes, ...score.rests].map(({ onset }) => onset);

describe('a well-formed piece', () => {
  it('has bars that add up to the piece, and voices that fill them', () => {
    fc.assert(
      fc.property(piece, ({ text, beats, bars, pickup, voices }) => {
        const { score, findings } = read(text);
        expect(findings).toEqual([]);
        expect(score.bars.length).toBe(bars + (pickup > 0 ? 1 : 0));
        expect(score.voices.length).toBe(voices);
        expect(score.length).toEqual(fraction(beats * bars + pickup, 4));
        expect(sum(score.bars.map(bar => bar.length))).toEqual(score.length);
        for (const { id } of score.voices) {
          const chords = new Map(
            score.notes
              .filter(note => note.voice === id)
              .map(note => [printFraction(note.onset), note.duration]),
          );
          const rests = score.rests.filter(rest => rest.voice === id).map(rest => rest.duration);
          expect(sum([...chords.values(), ...rests])).toEqual(score.length);
        }
      }),
      settings,
    );
  });

  it('puts every note into its bar, in order', () => {
    fc.assert(
      fc.property(piece, ({ text }) => {
        const { score } = read(text);
        for (const [index, note] of score.notes.entries()) {
          const bar = score.bars[note.bar];
          expect(note.id).toBe(index);
          expect(
            bar !== undefined &&
              compare(bar.start, note.onset) <= 0 &&
              compare(note.onset, add(bar.start, bar.length)) < 0,
          ).toBe(true);
          const next = score.notes[index + 1];
          if (next !== undefined)
            expect(
              compare(note.onset, next.onset) || midiOf(note.pitch) - midiOf(next.pitch),
            ).toBeLessThanOrEqual(0);
        }
      }),
      settings,
    );
  });

  it('is played whole, from its first bar on, each bar as often as counted', () => {
    fc.assert(
      fc.property(piece, ({ text }) => {
        const { bars, playingOrder } = read(text).score;
        expect(new Set(playingOrder.map(({ bar }) => bar)).size).toBe(bars.length);
        expect(playingOrder[0]).toEqual({ bar: 0, pass: 0 });
        expect(playingOrder.at(-1)?.bar).toBe(bars.length - 1);
        const count = new Map<number, number>();
        for (const [index, { bar, pass }] of playingOrder.entries()) {
          expect(pass).toBe(count.get(bar) ?? 0);
          count.set(bar, pass + 1);
          const before = playingOrder[index - 1];
          // Music goes on to the next bar or back, never ahead where there are no endings.
          if (before !== undefined) expect(bar).toBeLessThanOrEqual(before.bar + 1);
        }
      }),
      settings,
    );
  });

  it('names each moment so that it is found again, in any beat', () => {
    fc.assert(
      fc.property(
        piece,
        fc.constantFrom(undefined, fraction(1, 8), fraction(1, 2), fraction(3, 8)),
        ({ text }, beatUnit) => {
          const { score } = read(text);
          for (const onset of onsets(score)) {
            const place = placeAt(score, onset, beatUnit);
            expect(place && onsetAt(score, place.label, place.beat, beatUnit)).toEqual(onset);
            expect(place && onsetAt(score, place.bar, place.beat, beatUnit)).toEqual(onset);
          }
        },
      ),
      settings,
    );
  });

  it('is heaviest on the downbeat', () => {
    fc.assert(
      fc.property(piece, ({ text }) => {
        const { score } = read(text);
        for (const onset of onsets(score)) {
          const isDownbeat = equals(placeAt(score, onset)?.beat ?? zero, fraction(1));
          expect(metricalWeight(score, onset) === 1).toBe(isDownbeat);
        }
      }),
      settings,
    );
  });

  it('reads the same with CRLF line ends, and with voices inline', () => {
    const plain = (score: Score): unknown => ({
      ...score,
      source: undefined,
      notes: score.notes.map(note => ({ ...note, span: undefined })),
      rests: score.rests.map(rest => ({ ...rest, span: undefined })),
      bars: score.bars.map(bar => ({ ...bar, span: undefined })),
    });
    fc.assert(
      fc.property(piece, ({ text }) => {
        const expected = plain(read(text).score);
        expect(plain(read(text.replaceAll('\n', '\r\n')).score)).toEqual(expected);
        expect(plain(read(text.replace(/^V:(\d)\n/gm, '[V:$1]')).score)).toEqual(expected);
      }),
      settings,
    );
  });

  it('sounds so many semitones higher when transposed', () => {
    fc.assert(
      fc.property(piece, fc.integer({ min: -24, max: 24 }), ({ text }, semitones) => {
        const keys = (score: Score): readonly number[] =>
          score.notes
            .map(note => [note.span.start, midiOf(note.pitch)] as const)
            .sort(([a], [b]) => a - b)
            .map(([, key]) => key);
        const transposed = text.replace(/^V:(\d)$/gm, `V:$1 transpose=${String(semitones)}`);
        expect(keys(read(transposed).score)).toEqual(keys(read(text).score).map(key => key + semitones));
      }),
      settings,
    );
  });

  it('holds tied notes to the end of the last one', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 8 }), { minLength: 1, maxLength: 6 }), lengths => {
        const { score } = read(
          `X:1\nM:none\nL:1/8\nK:C\n${lengths.map(length => `C${String(length)}`).join('-')}|\n`,
        );
        const end = fraction(
          lengths.reduce((total, length) => total + length, 0),
          8,
        );
        expect(score.notes.map(note => soundingUntil(score, note))).toEqual(lengths.map(() => end));
      }),
      settings,
    );
  });
});
