import { describe, expect, it } from 'vitest';
import { printFraction } from '../../src/score/index.js';
import { fixture, orderOf, read, readMusic } from './reading.js';

const labels = (music: string): string =>
  readMusic(`${music}\n`)
    .bars.map(bar => bar.label)
    .join(' ');
const order = (music: string): string => orderOf(readMusic(`${music}\n`));

describe('number of a bar (common practice of engravers)', () => {
  const rows: readonly (readonly [string, string, string])[] = [
    ['full bars count from 1', 'C4|D4|E4|', '1 2 3'],
    ['a pickup is 0', 'C|D4|E3|', '0 1 2'],
    ['a single short bar is no pickup', 'C2|', '1'],
    ['endings share numbers', 'C4|1D4:|2E4||F4|', '1 2a 2b 3'],
    ['three endings', '|:C4|[1D4:|[2E4:|[3F4||G4|]', '1 2a 2b 2c 3'],
    ['endings of several passes', '|:C4|[1,3D4:|[2E4||', '1 2a 2b'],
    ['endings of two bars', '|:C4|1D4|E4:|2F4|G4||A4|]', '1 2a 3a 2b 3b 4'],
    ['a longer first ending', '|:C4|1D4|E4:|2F4||A4|]', '1 2a 3a 2b 3'],
    ['a bar cut by a repeat sign counts once', 'C|D4|E3:|F|G4|A3|]', '0 1 2 2 3 4'],
    ['a bar cut by a double bar counts once', 'C4|D2||E2|F4|', '1 2 2 3'],
    ['a short bar counts of its own', 'C4|D2|E4|', '1 2 3'],
    ['empty bars do not count', '|C4||:D4|]', '1 2'],
    ['rests of several bars', 'Z3|C4|', '1 2 3 4'],
    ['an overlong bar', 'C4|D4E|F4|', '1 2 3'],
  ];
  it.each(rows)('%s: %s gives %s', (_, music, expected) => {
    expect(labels(music)).toBe(expected);
  });

  it('keeps the passes of an ending with its bars', () => {
    expect(readMusic('|:C4|[1,3D4:|[2E4||F4|').bars.map(bar => bar.ending)).toEqual([
      undefined,
      [1, 3],
      [2],
      undefined,
    ]);
  });
});

describe('place of a bar', () => {
  const print = (music: string): string =>
    readMusic(`${music}\n`)
      .bars.map(bar => [bar.start, bar.length, bar.startsAt].map(printFraction).join(','))
      .join(' ');

  it('puts bars end to end and lets a pickup start late in its metre', () => {
    expect(print('C|D4|E3|')).toBe('0,1/4,3/4 1/4,1,0 5/4,3/4,0');
  });

  it('lets the second part of a cut bar start where the first one ends', () => {
    expect(print('C4|D3:|E|F4|')).toBe('0,1,0 1,3/4,0 7/4,1/4,3/4 2,1,0');
  });

  it('takes the metre from the bar in which it changes', () => {
    expect(
      readMusic('C4|[M:3/4]D3|[M:C|]E4|[M:2+3/8]F5/2|').bars.map(
        bar => `${bar.meter.text} ${printFraction(bar.length)}`,
      ),
    ).toEqual(['4/4 1', '3/4 3/4', '2/2 1', '2+3/8 5/8']);
  });

  it('takes the key at the start of the bar', () => {
    expect(readMusic('C4|[K:D]D4|E2[K:Eb]E2|F4|').bars.map(bar => bar.key)).toEqual([
      { fifths: 0, tonic: 'C', mode: 'major' },
      { fifths: 2, tonic: 'D', mode: 'major' },
      { fifths: 2, tonic: 'D', mode: 'major' },
      { fifths: -3, tonic: 'Eb', mode: 'major' },
    ]);
  });

  it('spans the source of the bar, its line included', () => {
    const { score } = read('X:1\nM:2/4\nL:1/4\nK:C\nC D | "Am" E F |]\n');
    expect(score.bars.map(({ span }) => span.source.text.slice(span.start, span.end))).toEqual([
      'C D |',
      'E F |]',
    ]);
  });
});

describe('playing order', () => {
  const standard = (section: string): string => `ABC standard 2.1, section ${section}`;
  const rows: readonly (readonly [string, string, string])[] = [
    [standard('4.8'), 'C4|D4|', '1 2'],
    [standard('4.8'), '|:C4:|D4|', '1 1 2'],
    [standard('4.8, from the beginning without a start'), 'C4|D4:|E4|', '1 2 1 2 3'],
    [standard('4.8, from the last end of repeat'), 'C4:|D4:|E4|', '1 1 2 2 3'],
    [standard('4.8, from the last double bar'), 'C4||D4:|E4|', '1 2 2 3'],
    [standard('4.8, a double bar inside a started repeat'), '|:C4||D4:|', '1 2 1 2'],
    [standard('4.8'), '|:C4::D4:|', '1 1 2 2'],
    [standard('4.8, variants of ::'), '|:C4:|:D4:|', '1 1 2 2'],
    [standard('4.8, variants of ::'), '|:C4:||:D4:|', '1 1 2 2'],
    [standard('4.8, liberal bar lines'), '[|:C4:|]D4|]', '1 1 2'],
    [standard('4.8, three times'), '|::C4::|D4|', '1 1 1 2'],
    [standard('4.9'), '|:C4|1D4:|2E4||F4|', '1 2a 1 2b 3'],
    [standard('4.9, space before the bracket'), '|:C4| [1 D4 :| [2 E4 |]', '1 2a 1 2b'],
    [standard('4.9, ending on a new line'), 'C4|D4|\n[1E4:|[2F4|]', '1 2 3a 1 2 3b'],
    [standard('4.9, no start of repeat'), 'C4|1D4:|2E4|]', '1 2a 1 2b'],
    [standard('4.10'), '|:C4|[1D4:|[2E4:|[3F4|]', '1 2a 1 2b 1 2c'],
    [standard('4.10'), '|:C4|[1,3D4:|[2,4E4:|', '1 2a 1 2b 1 2a 1 2b'],
    [standard('4.10'), '|:C4|[1-3D4:|[4E4|]', '1 2a 1 2a 1 2a 1 2b'],
    ['common usage: the last ending closed with a repeat sign', '|:C4|1D4:|2E4:|F4|', '1 2a 1 2b 3'],
    [
      `${standard('4.14')}; D.C. al fine without repeats, common practice`,
      '|:C4:|D4!fine!|E4!D.C.alfine!|',
      '1 1 2 3 1 2',
    ],
    [`${standard('4.14')}, D.S.`, 'C4|!segno!D4|E4!D.S.!|F4|', '1 2 3 2 3 4'],
    [`${standard('4.14')}, da capo`, 'C4|D4 !dacapo!|', '1 2 1 2'],
    [`${standard('4.14')}, D.S. al coda`, 'C4|!segno!D4|E4!coda!|F4!D.S.alcoda!|!coda!G4|', '1 2 3 4 2 3 5'],
    [`${standard('4.14')}, sign at the bar line`, 'C4 !dacoda!|D4 !D.C.!|!coda!E4|', '1 2 1 3'],
    ['common practice: last ending after D.C.', '|:C4|1D4:|2E4!fine!||F4!D.C.!|', '1 2a 1 2b 3 1 2b'],
  ];
  it.each(rows)('%s: %s plays %s', (_, music, expected) => {
    expect(order(music)).toBe(expected);
  });

  it('counts how often a bar has been played before', () => {
    expect(readMusic('|:C4:|D4|').playingOrder).toEqual([
      { bar: 0, pass: 0 },
      { bar: 0, pass: 1 },
      { bar: 1, pass: 0 },
    ]);
  });

  it('follows signs that any voice writes', () => {
    expect(orderOf(read('X:1\nM:4/4\nL:1/4\nK:C\nV:1\nC4|D4|\nV:2\n|:C4:|D4|\n').score)).toBe('1 1 2');
  });

  it('unfolds the fixture as abc2midi does', () => {
    // The comparison with abc2midi plays 27 notes in this order.
    expect(orderOf(read(fixture('cut-bars.abc')).score)).toBe('0 1 2 0 1 2 2 3 4 2 3 4 4 5 6');
  });
});
