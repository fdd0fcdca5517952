import { describe, expect, it } from 'vitest';
import { choirPart, printPitch, type Score } from '../../src/score/index.js';
import { read } from './reading.js';

const standard = (section: string): string => `ABC standard 2.1, section ${section}`;

/** `1: C4 D4; 2: E4` */
const byVoice = (score: Score): string =>
  score.voices
    .map(
      ({ id }) =>
        `${id}: ${score.notes
          .filter(note => note.voice === id)
          .map(note => printPitch(note.pitch))
          .join(' ')}`,
    )
    .join('; ');

const tune = (body: string, fields = ''): string => `X:1\nM:2/4\nL:1/4\n${fields}K:C\n${body}\n`;

describe('voice of a note', () => {
  const rows: readonly (readonly [string, string, string])[] = [
    ['one voice without V:', tune('C D|'), '1: C4 D4'],
    [`V: on a line of its own (${standard('7')})`, tune('V:1\nC D|\nV:2\nE F|'), '1: C4 D4; 2: E4 F4'],
    [`V: inline (${standard('7.3')})`, tune('[V:1] C D | [V:2] E F |'), '1: C4 D4; 2: E4 F4'],
    ['names of words', tune('[V:RH] C D |\n[V:LH] E F |'), 'RH: C4 D4; LH: E4 F4'],
    [
      'a system that lacks a voice does not move the others',
      tune('[V:1]C D|\n[V:2]E F|\n[V:1]G A|\n[V:2]B c|\n[V:2]d e|\n[V:1]f g|'),
      '1: C4 D4 G4 A4 F5 G5; 2: E4 F4 B4 C5 D5 E5',
    ],
    [
      'comments between',
      tune('V:1 % first\nC D| % V:2\n%[V:2]\nE F|\nV:2\nG A|'),
      '1: C4 D4 E4 F4; 2: G4 A4',
    ],
    ['a V: in quotes is text', tune('V:1\n"[V:2]"C D|\nV:2\nG A|'), '1: C4 D4; 2: G4 A4'],
    [
      `overlays are voices of their own (${standard('7.4')})`,
      tune('C D & E F & G A|'),
      '1: C4 D4; 1&1: E4 F4; 1&2: G4 A4',
    ],
  ];
  it.each(rows)('%s', (_, text, expected) => {
    expect(byVoice(read(text).score)).toBe(expected);
  });

  it('puts fields into the voice in which they stand', () => {
    // Common practice of players of ABC: a field of the tune body belongs to its voice.
    const { score } = read(tune('V:1\n[K:D]F F|\nV:2\n[L:1/8]F F F F|\nV:1\nF F|\nV:2\nF F F F|'));
    expect(byVoice(score)).toBe('1: F#4 F#4 F#4 F#4; 2: F4 F4 F4 F4 F4 F4 F4 F4');
  });

  it('applies fields in front of the first voice to all', () => {
    expect(byVoice(read(tune('K:D\nV:1\nF F|\nV:2\nF F|', 'V:1\nV:2\n')).score)).toBe(
      '1: F#4 F#4; 2: F#4 F#4',
    );
  });

  it('survives a line that changes the voice in the middle', () => {
    expect(byVoice(read(tune('[V:1]C [V:2]E [V:1]D|[V:2]F|')).score)).toBe('1: C4 D4; 2: E4 F4');
  });
});

describe('staves and clefs', () => {
  const layout = (directive: string): string =>
    read(
      tune(
        '[V:S]C D|\n[V:A]C D|\n[V:T]C D|\n[V:B]C D|',
        `${directive}\nV:S\nV:A\nV:T clef=treble-8\nV:B bass name="low voice"\n`,
      ),
    )
      .score.voices.map(({ id, staff }) => `${id}${String(staff)}`)
      .join(' ');
  const rows: readonly (readonly [string, string])[] = [
    ['%%score S A T B', 'S0 A1 T2 B3'],
    ['%%score [(S A) | (T B)]', 'S0 A0 T1 B1'],
    ['%%score {S | (A T)} B', 'S0 A1 T1 B2'],
    ['%%staves [(S A) (T B)]', 'S0 A0 T1 B1'],
    ['I:score (B T) (A S)', 'B0 T0 A1 S1'],
    ['%%score S *A B', 'S0 A1 B2 T3'],
    ['%no layout', 'S0 A1 T2 B3'],
  ];
  it.each(rows)(`%s gives %s (${standard('11.1')})`, (directive, expected) => {
    expect(layout(directive)).toBe(expected);
  });

  it(`keeps name and clef (${standard('7.1')})`, () => {
    const { voices } = read(tune('[V:B]C D|', 'V:B bass name="low voice"\n')).score;
    expect(voices).toEqual([{ id: 'B', name: 'low voice', staff: 0, clef: 'bass' }]);
  });

  // Common practice: a choir's staves are called by the first letters of its parts.
  it.each([
    ['V:S|V:A|V:T|V:B', 'soprano, alto, tenor, bass'],
    ['V:S1|V:S2|V:A', 'soprano 1, soprano 2, alto'],
    ['V:Sop|V:B', 'soprano, bass'],
    // The one name is that of the choir.
    ['V:S name="Choir"|V:A|V:T|V:B', 'soprano, alto, tenor, bass'],
    ['V:S name="Solo"|V:A name="Echo"|V:B', '-, -, bass'],
    // Two voices of any kind, parts that are not those of a choir, and an order that is not theirs.
    ['V:A|V:B', '-, -'],
    ['V:S|V:A|V:K', '-, -, -'],
    ['V:B|V:S', '-, -'],
    ['V:S', '-'],
  ])('calls the voices of %s %s', (fields, words) => {
    const ids = fields.split('|').map(field => /^V:(\w+)/.exec(field)?.[1] ?? '');
    const music = ids.map(id => `[V:${id}]C D|`).join('\n');
    const { score } = read(tune(music, `${fields.replaceAll('|', '\n')}\n`));
    expect(score.voices.map(voice => choirPart(voice, score) ?? '-').join(', ')).toBe(words);
  });

  it('gives overlays the staff of their voice', () => {
    const { voices } = read(tune('[V:1]C D|[V:2]C D & E F|')).score;
    expect(voices.map(({ id, staff, overlayOf }) => [id, staff, overlayOf])).toEqual([
      ['1', 0, undefined],
      ['2', 1, undefined],
      ['2&1', 1, '2'],
    ]);
  });
});

describe('voices that disagree', () => {
  it('follow the length that most of them write, so that one slip moves nothing else', () => {
    const { score } = read('X:1\nM:3/4\nL:1/4\nK:C\nV:1\nCDE|FGAB|c3|\nV:2\nC3|F3|C3|\nV:3\nC3|F3|C3|\n');
    expect(score.bars.map(bar => [bar.start.n / bar.start.d, bar.length.n / bar.length.d])).toEqual([
      [0, 0.75],
      [0.75, 0.75],
      [1.5, 0.75],
    ]);
  });

  it('follow the metre where they draw', () => {
    const { score } = read('X:1\nM:3/4\nL:1/4\nK:C\nV:1\nCDEF|\nV:2\nC3|\n');
    expect(score.length).toEqual({ n: 3, d: 4 });
  });
});
