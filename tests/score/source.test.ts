import { describe, expect, it } from 'vitest';
import { printFraction, type Score } from '../../src/score/index.js';
import { fixture, pitchesOf, read, readMusic } from './reading.js';

const standard = (section: string): string => `ABC standard 2.1, section ${section}`;

/** The source text of every note, in written order. */
const texts = (music: string): string =>
  [...readMusic(`${music}\n`).notes]
    .sort((a, b) => a.span.start - b.span.start)
    .map(({ span }) => span.source.text.slice(span.start, span.end))
    .join(' ');

describe('source range of a note', () => {
  const rows: readonly (readonly [string, string])[] = [
    ['C D E', 'C D E'],
    ["^C,2 _d'/ =e//", "^C,2 _d'/ =e//"],
    ['"Am"!f!C3/2 .D', 'C3/2 D'],
    ['[CEG]2 [^c2e3/2]', 'C E G ^c2 e3/2'],
    ['{ge}F {/d}E', 'g e F d E'],
    ['(3CDE (3:2:2F2G', 'C D E F2 G'],
    ['C2-C [C-E]F', 'C2 C C E F'],
    ['C>D E<F', 'C D E F'],
    ['"c"C "^d"D', 'C D'],
    ['[V:1]C [K:D]D', 'C D'],
    ['C&D', 'C D'],
  ];
  it.each(rows)('%s', (music, expected) => {
    expect(texts(music)).toBe(expected);
  });
});

describe('outer form of the source', () => {
  const summary = (score: Score): string =>
    `${pitchesOf(score)} ${printFraction(score.length)} ${String(score.bars.length)}`;
  const plain = 'X:1\nT:Title\nM:4/4\nL:1/4\nK:D\nCDEF|\nGABc|]\n';

  it.each([
    ['CRLF line ends', plain.replaceAll('\n', '\r\n')],
    ['CR line ends', plain.replaceAll('\n', '\r')],
    ['a byte order mark', `\uFEFF${plain}`],
    ['no last line end', plain.trimEnd()],
    ['empty lines in front', `\n\n${plain}`],
    [`a file header (${standard('2.2.2')})`, `%abc-2.1\nM:4/4\n\n${plain.replace('M:4/4\n', '')}`],
    [`free text in front (${standard('2.2.3')})`, `Some words about it.\n\n${plain}`],
    [
      `comments (${standard('2.2.5')})`,
      plain.replace('CDEF|', 'CD%EF|\nEF| % [K:C]').replace('K:D', 'K:D % K:C'),
    ],
    [`remarks (${standard('2.2.5')})`, plain.replace('CDEF', 'CD[r: EF]EF')],
    [`text blocks (${standard('11.4.3')})`, plain.replace('GABc', '%%begintext\nGABc|\n%%endtext\nGABc')],
    ['fields between the lines', plain.replace('GABc', 'N:a note\nP:B\nGABc')],
    [`continued fields (${standard('3.3')})`, plain.replace('T:Title', 'T:Title\n+:continued')],
    ['the next tune', `${plain}\nX:2\nM:3/4\nK:C\nCDE|\n`],
    ['the next tune without an empty line', `${plain}X:2\nM:3/4\nK:C\nCDE|\n`],
    ['text behind the tune', `${plain}\nThe end.\n`],
  ])('reads the same through %s', (_, text) => {
    expect(summary(read(text).score)).toBe('C#4 D4 E4 F#4 G4 A4 B4 C#5 2 2');
  });

  it('keeps title and composer, escapes undone', () => {
    const { score } = read(fixture('grace-and-text.abc'));
    expect([score.title, score.composer]).toEqual([
      'Grace notes, lyrics and 100% text',
      'written for this project',
    ]);
  });
});

describe('marks', () => {
  const marks = (music: string): string =>
    readMusic(`${music}\n`)
      .marks.map(mark => `${mark.kind} ${mark.text} ${printFraction(mark.onset)}`)
      .join('; ');
  const rows: readonly (readonly [string, string, string])[] = [
    [standard('4.18'), '"Am7"C "F#/A#"D', 'chord symbol Am7 0; chord symbol F#/A# 1/4'],
    [
      standard('4.19'),
      '"^slower"C "_pizz"D "<x"E "@1,2 y"F',
      'annotation slower 0; annotation pizz 1/4; annotation x 1/2; annotation 1,2 y 3/4',
    ],
    // Text in front of a bar line is printed where the bar begins; a chord symbol needs a note.
    [standard('4.19'), 'C4"^Trio"|:D4:|"_end""Am"|]', 'annotation Trio 1; annotation end 2'],
    [standard('2.2.5, escaped percent'), '"^50\\% off"C', 'annotation 50% off 0'],
    [standard('4.14'), '!p!C !crescendo(!D !ff!E', 'dynamic p 0; dynamic crescendo( 1/4; dynamic ff 1/2'],
    [standard('4.14'), '!fermata!C HD', 'fermata fermata 0; fermata fermata 1/4'],
    [standard('4.14'), '.C LD !breath!E', 'staccato staccato 0; accent accent 1/4; breath breath 1/2'],
    [standard('4.14'), '!segno!C D !D.S.!|', 'direction segno 0; direction D.S. 1/2'],
    [standard('4.11'), '(C D) (E)', 'slur start ( 0; slur end ) 1/4; slur start ( 1/2; slur end ) 1/2'],
    [standard('4.16'), 'C [U:x=!f!] D', ''],
    [standard('5.1'), 'C D E|\nw: one two-three', 'lyric one 0; lyric two- 1/4; lyric three 1/2'],
    [standard('5.1'), 'C D|E|\nw: a * | c', 'lyric a 0; lyric c 1/2'],
    [standard('5.1'), 'C D\nw: two~words 10\\%', 'lyric two words 0; lyric 10% 1/4'],
    [standard('5.2'), 'C D\nw: a b\nw: c d', 'lyric a 0; lyric c 0; lyric b 1/4; lyric d 1/4'],
  ];
  it.each(rows)('%s: %s', (_, music, expected) => {
    expect(marks(music)).toBe(expected);
  });

  it(`reads symbols that the tune defines (${standard('4.16')})`, () => {
    const { score } = read('X:1\nM:4/4\nL:1/4\nU:n=!fermata!\nK:C\nnC D|');
    expect(score.marks).toEqual([{ kind: 'fermata', text: 'fermata', onset: { n: 0, d: 1 }, voice: '1' }]);
  });
});

describe('tempo', () => {
  const tempos = (text: string): string =>
    read(text)
      .score.tempos.map(({ onset, beat, beatsPerMinute, text: words }) =>
        `${printFraction(onset)} ${printFraction(beat)}=${String(beatsPerMinute)} ${words ?? ''}`.trim(),
      )
      .join('; ');
  const rows: readonly (readonly [string, string, string])[] = [
    [standard('3.1.8'), '1/4=120', '0 1/4=120'],
    [standard('3.1.8'), '3/8=50', '0 3/8=50'],
    [standard('3.1.8, beats of several notes'), '1/4 3/8 1/4 3/8=40', '0 5/4=40'],
    [standard('3.1.8, words in front'), '"Allegro" 1/4=120', '0 1/4=120 Allegro'],
    [standard('3.1.8, words behind'), '3/8=50 "Slowly"', '0 3/8=50 Slowly'],
    [standard('10.1, outdated'), '120', '0 1/8=120'],
    [standard('3.1.8, words only'), '"Andante"', ''],
  ];
  it.each(rows)('%s: Q:%s', (_, value, expected) => {
    expect(tempos(`X:1\nM:4/4\nL:1/8\nQ:${value}\nK:C\nC8|\n`)).toBe(expected);
  });

  it('changes inside the tune, once for all voices', () => {
    expect(
      tempos('X:1\nM:4/4\nL:1/4\nQ:1/4=60\nK:C\nV:1\nC4|CD[Q:1/4=90]EF|\nV:2\nC4|CD[Q:1/4=90]EF|\n'),
    ).toBe('0 1/4=60; 3/2 1/4=90');
  });

  it('keeps words without a speed as an annotation', () => {
    expect(
      read('X:1\nM:4/4\nL:1/4\nQ:"Andante"\nK:C\nC4|\n').score.marks.map(({ kind, text }) => [kind, text]),
    ).toEqual([['annotation', 'Andante']]);
  });
});
