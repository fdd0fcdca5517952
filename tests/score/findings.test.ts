import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { catalogue } from '../../src/diagnostics/index.js';
import { fixture, header, printFinding, read } from './reading.js';

const findingsOf = (text: string): readonly string[] => read(text).findings.map(printFinding);

/** Codes whose example is too long to print; tests of hostile scores raise them. */
const tooLongToPrint = ['S0001', 'S0002', 'S0004', 'S0005', 'S0007', 'S0009', 'S0010', 'S0408'];

const examples = Object.entries(catalogue).flatMap(([code, { explanation }]) =>
  code.startsWith('S') && !tooLongToPrint.includes(code)
    ? [[code, /```abc\n([^`]*)```/.exec(explanation)?.[1]] as const]
    : [],
);

describe('the catalogue', () => {
  it.each(examples)('%s is raised by its example', (code, example) => {
    const codes = read(example ?? '').findings.map(finding => finding.code);
    expect(codes).toContain(code);
    // An example shows one fault; a missing field or voice may have a second consequence.
    expect(new Set(codes).size).toBeLessThanOrEqual(2);
  });

  it('has an example for every code but those of endless scores', () => {
    expect(examples.length).toBe(
      Object.keys(catalogue).filter(code => code.startsWith('S')).length - tooLongToPrint.length,
    );
  });
});

interface Row {
  readonly fault: string;
  readonly text: string;
  /** Code and line:column of every finding. */
  readonly findings: readonly string[];
}

const music = (body: string): string => `${header}${body}\n`;

/** Longer than the runs of one sign that are refused. */
const manyWords = 'some words of a remark '.repeat(40);

const rows: readonly Row[] = [
  { fault: 'nothing', text: music('CDEF|G4|]'), findings: [] },
  {
    fault: 'no fields at all',
    text: 'CDEF|\n',
    findings: ['S0101 1:1', 'S0102 1:1', 'S0103 1:1', 'S0104 1:1'],
  },
  { fault: 'nothing at all', text: '', findings: ['S0105 1:1'] },
  { fault: 'nothing but empty lines', text: '\n \n\n', findings: ['S0105 1:1'] },
  { fault: 'another format', text: '<?xml version="1.0"?>\n<score-partwise/>\n', findings: ['S0011 1:1'] },
  { fault: 'a printed flat in a key', text: 'X:1\nM:4/4\nL:1/4\nK:B♭ major\nC4|\n', findings: ['S0202 4:3'] },
  {
    fault: 'printed accidentals, in a bar that is too short as well',
    text: music('CDEF|♯F♮G"F♯"A|c4|'),
    findings: ['S0410 5:6', 'S0301 5:7', 'S0410 5:8'],
  },
  { fault: 'a remark of many words', text: music(`% ${manyWords}\nCDEF| % ${manyWords}\nc4|`), findings: [] },
  { fault: 'a title of many words', text: `X:1\nT:${manyWords}\nM:4/4\nL:1/4\nK:C\nC4|\n`, findings: [] },
  { fault: 'many words in front of the tune', text: `% ${manyWords}\n\n${music('C4|')}`, findings: [] },
  { fault: 'a long part label within a line', text: music(`CDEF|[P:${manyWords}]c4|`), findings: [] },
  { fault: 'signs that mean nothing, one by one', text: music('CD???EF|'), findings: ['S0501 5:3'] },
  { fault: 'a bar line that is not drawn', text: music('CDEF:|:c4:|'), findings: ['S0501 5:7'] },
  { fault: 'a long bar', text: music('CDEF|GABcd|e4|'), findings: ['S0301 5:6'] },
  { fault: 'a short bar', text: music('CDEF|GAB|e4|'), findings: ['S0301 5:6'] },
  { fault: 'a pickup and its completion', text: music('F|CDEF|GAB|]'), findings: [] },
  { fault: 'a pickup without completion, as is common today', text: music('F|CDEF|GABc|]'), findings: [] },
  { fault: 'a short last bar without a pickup', text: music('CDEF|GAB|]'), findings: ['S0301 5:6'] },
  { fault: 'sections with pickups of their own', text: music('F|CDEF|GAB:||:c|GABc|ABc:|'), findings: [] },
  { fault: 'a bar cut by a double bar', text: music('CDEF|GA||Bc|c4|'), findings: [] },
  {
    fault: 'a short bar that nothing completes',
    text: music('CDEF|GA||Bcd|c4|'),
    findings: ['S0301 5:6', 'S0301 5:10'],
  },
  { fault: 'endings after a pickup', text: music('F|:CDEF|1GAB:|2GAB|]'), findings: [] },
  { fault: 'free metre', text: 'X:1\nM:none\nL:1/4\nK:C\nCDE|FGABc|\n', findings: [] },
  { fault: 'a change of metre', text: music('CDEF|[M:3/4]GAB|\nM:2/4\nCD|'), findings: [] },
  { fault: 'a dangling tie', text: music('C2-D2|'), findings: ['S0401 5:1'] },
  { fault: 'a tie to another accidental', text: music('C2-^C2|'), findings: ['S0401 5:1'] },
  { fault: 'a tie of one head of a chord', text: music('[C-E]2[DE]2|'), findings: ['S0401 5:2'] },
  { fault: 'a tie at the very end', text: music('C4-|'), findings: ['S0401 5:1'] },
  {
    fault: 'odd keys in the tune',
    text: music('CDEF|[K:D#]CDEF|[K:Fbm]CDEF|'),
    findings: ['S0201 5:9', 'S0201 5:20'],
  },
  { fault: 'text after an empty line', text: music('CDEF|\n\nGABc|'), findings: ['S0107 7:1'] },
  { fault: 'a comment after the tune', text: music('CDEF|\n\n% the end'), findings: [] },
  { fault: 'notes lost in a field', text: music('CDEF|\nG:|'), findings: ['S0108 6:1'] },
  { fault: 'voices of different length', text: music('V:1\nC4|D4|E4|\nV:2\nC4|\n'), findings: ['S0303 8:3'] },
  {
    fault: 'a bar that differs between voices',
    text: music('V:1\nC4|D4|\nV:2\nC4|D3|\n'),
    findings: ['S0302 8:4'],
  },
  { fault: 'a repeat sign in one voice', text: music('V:1\n|:C4:|\nV:2\nC4|\n'), findings: ['S0305 8:1'] },
  {
    fault: 'a percent sign in quotes',
    text: music('"^a % b"C4|'),
    findings: ['S0110 5:5', 'S0301 5:1'].slice(0, 1).concat('S0105 1:1').sort(),
  },
  { fault: 'nothing but lyrics', text: music('CDEF|\nw: a b c d\nGABc|\nw: e f g a'), findings: [] },
  { fault: 'continued lyrics', text: music('CDEF|\nw: one two\n+: three'), findings: ['S0109 7:1'] },
  { fault: 'a macro', text: 'X:1\nM:4/4\nL:1/4\nm: ~C = C\nK:C\nC4|\n', findings: ['S0109 4:1'] },
  { fault: 'a symbol line', text: music('CDEF|\ns: !p! * *'), findings: ['S0109 6:1'] },
  {
    fault: 'a transposition by directive',
    text: music('%%MIDI transpose -2\nCDEF|'),
    findings: ['S0109 5:1'],
  },
  { fault: 'an unknown decoration', text: music('!nonsense!C4|'), findings: ['S0501 5:1'] },
  {
    fault: 'a note with its tie before its length',
    text: music('C(DE-)2F|'),
    findings: ['S0401 5:3', 'S0503 5:4'],
  },
  {
    fault: 'a note behind a quotation without an end',
    text: music('CDEF|"GA\nc4|'),
    findings: ['S0503 5:7', 'S0503 5:8'],
  },
  { fault: 'a chord without an end', text: music('[CE4|'), findings: ['S0501 5:5'] },
  {
    fault: 'a metre at the beginning of a line of several voices',
    text: music('V:1\nC4|\nV:2\nC4|\nV:1\n[M:3/4]C3|c3|\nV:2\n[M:3/4]C3|z3|'),
    findings: [],
  },
  {
    fault: 'a metre on a line of its own behind the name of the voice',
    text: music('V:1\nC4|\nV:2\nC4|\nV:1\n[K:F][M:3/4]C3|\nV:2\nK:F\nM:3/4\nC3|'),
    findings: [],
  },
  {
    fault: 'a metre that one voice alone names',
    text: music('V:1\nC4|\nV:2\nC4|\nV:1\n[M:3/4]C3|\nV:2\nC3|'),
    findings: ['S0504 10:1'],
  },
  {
    fault: 'a metre of the first bar that one voice alone names',
    text: music('V:1\n[M:3/4]c3|\nV:2\nC3|'),
    findings: ['S0504 6:1'],
  },
  {
    fault: 'a metre of the first bar that every voice names, below voices in the header',
    text: 'X:1\nM:4/4\nL:1/4\nV:1\nV:2\nK:C\nV:1\n[M:3/4]c3|\nV:2\n[M:3/4]C3|\n',
    findings: [],
  },
  {
    fault: 'a tenor an octave higher than its clef would have it, and one that crosses below the bass',
    text: music(
      "V:T clef=treble-8\nV:B clef=bass\nV:T\ngabc'|b2g2|\nV:B\nC,D,E,F,|D,2C,2|\nV:T\nCDEF|G2E2|\nV:B\nC,D,E,F,|B,2A,2|",
    ),
    findings: [],
  },
  {
    fault: 'a metre at the end of the line before',
    text: music('V:1\nC4|[M:3/4]\nV:2\nC4|[M:3/4]\nV:1\nC3|\nV:2\nz3|'),
    findings: [],
  },
  {
    fault: 'a metre within the line',
    text: music('V:1\nC4|[M:3/4]C3|\nV:2\nC4|[M:3/4]Z|'),
    findings: [],
  },
  { fault: 'a metre at the beginning of a line of one voice', text: music('C4|\n[M:3/4]C3|'), findings: [] },
  {
    fault: 'a broken rhythm behind grace notes, which the engraver does not know',
    text: music('C{d}>E F2|'),
    findings: ['S0501 5:5'],
  },
];

describe('a score with', () => {
  it.each(rows)('$fault', ({ text, findings }) => {
    expect(findingsOf(text)).toEqual(findings);
  });

  it('names both lengths of a bar that does not fit', () => {
    const [finding] = read(music('CDEF|GABc/|e4|')).findings;
    expect([finding?.message, finding?.label]).toEqual([
      'bar 2 is too short',
      '3 1/2 beats, where 4/4 asks for 4 beats',
    ]);
  });

  it('says which bar lines are drawn, over the whole of a sign that is not', () => {
    const [finding] = read(music('CDEF:|:c4:|')).findings;
    expect(finding?.message).toBe('the engraver complains: unknown bar symbol');
    expect(finding?.help).toContain('`::` between two repeated parts');
  });

  it('quotes a long value by its beginning', () => {
    const [finding] = read(`X:1\nM:4/4\nL:1/4\nK:${'very '.repeat(100)}\nC4|\n`).findings;
    expect(finding?.message).toBe(`\`${'very '.repeat(12).slice(0, 59)}…\` is no key`);
  });

  it('lists at most 25 findings of a kind and counts the others', () => {
    const { findings } = read(music('C|'.repeat(2) + 'CDE|'.repeat(40)));
    expect(findings.length).toBe(25);
    expect(findings.at(-1)?.notes?.at(-1)).toBe('15 more of this kind follow');
  });
});

describe('the fixtures', () => {
  const names = readdirSync(new URL('../fixtures/score/', import.meta.url)).filter(name =>
    name.endsWith('.abc'),
  );
  const known: Readonly<Record<string, readonly string[]>> = {
    // A note of its own before a tie; transposing parts written in the key of the others.
    'accidentals.abc': ['S0301 6:24'],
    'clefs.abc': ['S0304 14:7'],
    'voices.abc': ['S0304 13:1'],
  };
  it.each(names)('%s has no other findings than those meant', name => {
    expect(findingsOf(fixture(name))).toEqual(known[name] ?? []);
  });
  it('are all there', () => {
    expect(names.length).toBeGreaterThanOrEqual(10);
  });
});
