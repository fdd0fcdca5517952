import { describe, expect, it } from 'vitest';
import { spell } from '../../src/sound/index.js';
import type { SpellingOptions } from '../../src/sound/index.js';

interface Row {
  /** The notation as written. */
  readonly written: string;
  /** The sentence that it stands in; the notation alone where absent. */
  readonly in?: string;
  /** What is said: capital letters are names of letters, `,` is a short pause. */
  readonly spoken: string;
  readonly options?: SpellingOptions;
  /** `common practice`, or the published source of the reading. */
  readonly source: string;
}

const row = (written: string, spoken: string, within?: string, options?: SpellingOptions): Row => ({
  written, spoken, source: 'common practice', ...(within === undefined ? {} : { in: within }), ...(options === undefined ? {} : { options }),
}); // prettier-ignore
const seen = (source: string, written: string, spoken: string): Row => ({ written, spoken, source });

const notes: readonly Row[] = [
  row('C#', 'C sharp'),
  row('Bb', 'B flat'),
  row('F##', 'F double sharp'),
  row('Fx', 'F double sharp'),
  row('Bbb', 'B double flat'),
  row('C♮', 'C natural'),
  row('C=', 'C natural'),
  row('C4', 'C four'),
  row("c'", 'one line C', "The note c' is middle C."),
  row("c''", 'two line C'),
  row('A', 'A', 'The top note is A.'),
  row('A', 'A', 'A sharp resolves up.'),
  row('A', 'a', 'A bar later it returns.'),
  row('A, C', 'A C', 'Which one? A, C or F?'),
  row('a', 'a', 'It is a A minor chord.'),
  row('A', 'A', 'It is a A minor chord.'),
  row('a:', 'in A minor', 'In a: ii we hear it.'),
  row('E', 'E', 'Listen to E again.'),
  row('G, D, B, C', 'G D B C', 'We hear G, D, B, C here.'),
  row('C', ', C', 'You will see C again.'),
  row('C major', 'C major', 'This is C major.'),
];

const chords: readonly Row[] = [
  row('Am', 'A minor', 'The chord is Am here.'),
  row('Am', 'am', 'Am I right?'),
  row('Am7', 'A minor seven'),
  row('AM7', 'A major seven'),
  row('Amaj7', 'A major seven'),
  row('A△7', 'A major seven'),
  row('A7', 'A seven', 'The chord A7 returns.'),
  row('C°7', 'C diminished seventh'),
  row('Cdim7', 'C diminished seventh'),
  row('C#dim7', 'C sharp diminished seventh'),
  row('Bø7', 'B half diminished seventh'),
  row('Bm7b5', 'B half diminished seventh'),
  row('Gsus4', 'G sus four'),
  row('C/E', 'C over E'),
  row('C6', 'C six', 'The chord C6 is soft.'),
  row('C+', 'C augmented'),
  row('Cadd9', 'C add nine'),
  row('N.C.', 'no chord'),
  row('Bb7#9', 'B flat seven sharp nine'),
  row('C7(b9)', 'C seven flat nine'),
  row('Fmaj7#11', 'F major seven sharp eleven'),
  row('G7#5/B', 'G seven sharp five over B'),
];

const numerals: readonly Row[] = [
  row('I', 'one', 'It goes home to I.'),
  row('I', 'i', 'Here I hear the bass.'),
  row('i', 'one , minor', 'It is i in D minor.'),
  row('ii', 'two'),
  row('iii', 'three'),
  row('IV', 'four'),
  row('V', 'five', 'It stops on V.'),
  row('vi', 'six'),
  row('VII', 'seven , the subtonic', undefined, { mode: 'minor' }),
  row('VII', 'seven'),
  row('vii°', 'seven diminished'),
  row('vii°7', 'seven diminished seventh'),
  row('viiø7', 'seven half diminished seventh'),
  row('bVI', 'flat six'),
  row('#iv°', 'sharp four diminished'),
  row('III+', 'three augmented'),
  row('I6', 'one six'),
  row('I64', 'one six four'),
  row('CTo7', 'common tone diminished seventh'),
  row('Cad64', 'cadential six four'),
  row('V64-53', 'cadential six four'),
  row('ii6', 'two six'),
  row('ii65', 'two six five'),
  row('ii6/5', 'two six five'),
  row('V65', 'five six five'),
  row('V43', 'five four three'),
  row('V42', 'five four two'),
  row('V2', 'five four two'),
  row('V7', 'five seven'),
  row('V9', 'five nine'),
  seen(
    'R. Hutchinson, Music Theory for the 21st-Century Classroom; Open Music Theory',
    'V7/V',
    'five seven of five',
  ),
  row('vii°7/ii', 'seven diminished seventh of two'),
  row('V42/IV', 'five four two of four'),
  row('V/V/V', 'five of five of five'),
  row('V6/5/V', 'five six five of five'),
  row('N6', 'neapolitan sixth'),
  row('It+6', 'italian augmented sixth'),
  row('Fr+6', 'french augmented sixth'),
  row('Ger+6', 'german augmented sixth'),
  row('Ger65', 'german augmented sixth'),
  row('F: ii', 'in F two', 'Read it F: ii here.'),
  row('I-IV-V-I', 'one , four , five , one'),
  row('C -> G', 'C to G', 'We go C -> G here.'),
  row('V → I', 'five to one', 'Then V → I follows.'),
  row('V7(b9)', 'five seven flat nine'),
  row('vii/o7', 'seven half diminished seventh'),
];

const figures: readonly Row[] = [
  row('4-3', 'four three suspension'),
  row('#4', 'sharp four', 'The figure #4 asks for it.'),
  row('b6-5', 'flat six , five', 'It sighs b6-5 above.'),
  row('+6', 'augmented sixth', 'The +6 opens.'),
  row('3:2', 'three to two', 'In the ratio 3:2 they meet.'),
  row('4-3', 'four three', 'Hear the 4-3 suspension.'),
  row('9-8', 'nine eight suspension'),
  row('7-6', 'seven six suspension'),
  row('6/4', 'six four', 'A dance in 6/4 time.'),
  row('3/4', 'three four', 'It is in 3/4.'),
  row('C|', 'cut time', 'The sign C| stands there.'),
  row('M:C', 'common time'),
  row('ˆ5', 'scale degree five'),
  row('scale degree 5', 'scale degree five', 'It ends on scale degree 5.'),
  row('P5', 'perfect fifth'),
  row('M3', 'major third'),
  row('m7', 'minor seventh'),
  row('d5', 'diminished fifth'),
  row('A4', 'augmented fourth', 'The voices form an A4 here.'),
  row('A6', 'augmented sixth', 'It is the interval A6.'.replace('the interval', 'an')),
  row('A4', 'A four', 'The soprano reaches the note A4.'),
];

const references: readonly Row[] = [
  row('m. 12', 'measure twelve'),
  row('mm. 12-15', 'measures twelve to fifteen'),
  row('b. 3', 'bar three'),
  row('bar 3', 'bar three', 'Listen to bar 3.'),
  row('7.3', 'seven , beat three', 'Listen to bar 7.3 again.'),
  row('7:3', 'seven , beat three', 'Listen to bar 7:3 again.'),
  row('8a', 'eight A', 'Compare bar 8a.'),
  row('3, 5 and 7-8', 'three five and seven to eight', 'Look at bars 3, 5 and 7-8.'),
];

const terms: readonly Row[] = [
  row('PAC', 'perfect authentic cadence'),
  row('IAC', 'imperfect authentic cadence'),
  row('HC', 'half cadence'),
  row('DC', 'deceptive cadence'),
  row('T-PD-D', 'tonic , predominant , dominant'),
  row('T PD D', 'tonic predominant dominant'),
  row('D.C. al Fine', 'da capo al fee nay'),
  row('D.S.', 'dal segno'),
  row('pp', 'pianissimo'),
  row('mf', 'mezzo forte'),
  row('sfz', 'sforzando'),
  row('rit.', 'ritardando'),
  row('rall.', 'rallentando'),
  row('accel.', 'accelerando'),
  row('♩ = 96', 'quarter note equals ninety six'),
  row('Q:1/4=96', 'quarter note equals ninety six'),
  row('8va', 'an octave higher'),
  row('8vb', 'an octave lower'),
  row('15ma', 'two octaves higher'),
  row('LH', 'left hand'),
  row('RH', 'right hand'),
  row('op. 31 no. 2', 'opus thirty one number two'),
  row('K. 331', 'K three thirty one'),
];

const words: readonly Row[] = [
  row('leading tone', 'leading tone'),
  row('lead', 'leed', 'Voices lead on.'),
  row('bass', 'base', 'The bass moves.'),
  row('minor second', 'minor second', 'It rises a minor second.'),
  row('tied', 'tied', 'The note is tied over.'),
  row('live', 'lyve', 'A live performance.'),
  row('close', 'kloss', 'Chords in close position.'),
  row('close', 'kloze', 'At the close we rest.'),
  row('close', 'kloze', 'Then we close the phrase.'),
  row('close', 'kloss', 'It is a close relative.'),
  row('wound', 'wownd', 'Its strings are wound with copper.'),
  row('1685-1750', 'sixteen eighty five to seventeen fifty'),
  row('p. 5', 'page five', 'See p. 5 below.'),
  row('Mozart', 'moht sart', 'As in Mozart it sings.', { lexicon: { Mozart: 'moht-sart' } }),
  row('Dvořák', 'dvor zhahk', 'As in Dvořák.', { lexicon: { Dvořák: 'dvor-zhahk' } }),
  row('Chopin', 'show pan', 'As in Chopin.', { lexicon: { Chopin: 'show-pan' } }),
  row('half-diminished', 'half diminished', 'A half-diminished seventh.'),
  row("V7's", "five seven's", "Hear V7's third."),
  row('1794', 'seventeen ninety four', 'Written in 1794.'),
  row('2nd', 'second', 'The 2nd ending.'),
  row('50%', 'fifty percent', 'Play at 50% tempo.'),
  row('A-flat', 'A flat', 'The A-flat is new.'),
];

/** What is said for `written` inside its sentence. */
function spokenFor({ written, in: within = written, options }: Row): string {
  const escaped = written.replace(/[.*+?^${}()|[\]\\]/gu, '\\$&');
  const from = within.search(new RegExp(`(?<=^|\\s)${escaped}(?!\\w)`, 'u'));
  expect(within.slice(from).startsWith(written), `${written} is not in "${within}"`).toBe(true);
  const to = from + written.length;
  const pieces = spell(within, options).pieces.filter(piece => piece.from >= from && piece.to <= to);
  return pieces.flatMap(piece => piece.words).join(' ');
}

describe.each([
  ['notes', notes, 21],
  ['chord symbols', chords, 22],
  ['numerals', numerals, 46],
  ['figures, metres, intervals', figures, 21],
  ['bar references', references, 8],
  ['terms and signs', terms, 23],
  ['words', words, 22],
] as const)('%s', (_, rows, count) => {
  it.each(rows)('$written is read "$spoken" ($source)', entry => {
    expect(spokenFor(entry)).toBe(entry.spoken);
  });
  it('has its rows', () => {
    expect(rows.length).toBe(count);
    expect(
      new Set(rows.map(entry => `${entry.written}|${entry.in ?? ''}|${entry.options?.mode ?? ''}`)).size,
    ).toBe(count);
  });
});

describe('letters and the article', () => {
  it('tells the letter from the article by its capital', () => {
    expect(spell('A bar in A.').pieces.map(piece => piece.words)).toEqual([['a'], ['bar'], ['in'], ['A']]);
  });
});

describe('doubts', () => {
  const doubtsOf = (text: string) =>
    spell(text).doubts.map(
      doubt => `${text.slice(doubt.from, doubt.to)}: ${doubt.readAs} / ${doubt.couldBe}`,
    );

  it('asks where a token could be read in two ways', () => {
    expect(doubtsOf('Then A4 sounds.')).toEqual(['A4: the pitch A four / augmented fourth']);
    expect(doubtsOf('A minor third above.')).toEqual(['A: the article / the letter: A minor']);
    expect(doubtsOf('Perhaps I suits.')).toEqual(['I: the pronoun / the numeral one']);
    expect(doubtsOf('Then 7:3 sounds.')).toEqual(['7:3: seven to three / bar seven, beat three']);
    expect(doubtsOf('It ends DC here.')).toEqual(['DC: deceptive cadence / da capo (write D.C.)']);
  });

  it('is silent where the words around it decide', () => {
    expect(doubtsOf('In bar 7:3 they meet in the ratio 3:2.')).toEqual([]);
    expect(doubtsOf('I think the I chord is an A4 away from the note A4, and D.C. is A minor.')).toEqual([]);
  });
});

describe('pieces', () => {
  it('know where they stand in the shown text', () => {
    const text = '"V7/V," he said — then bar 3.';
    expect(spell(text).pieces.map(piece => [text.slice(piece.from, piece.to), piece.pause])).toEqual([
      ['V7/V', 'short'], ['he', 'none'], ['said', 'short'], ['then', 'none'], ['bar', 'none'], ['3', 'sentence'],
    ]); // prettier-ignore
  });

  it('know sentences, questions and paragraphs', () => {
    expect(spell('One. Two? Three\n\nfour').pieces.map(piece => piece.pause)).toEqual([
      'sentence',
      'question',
      'paragraph',
      'none',
    ]);
  });

  it('say nothing for what has no words', () => {
    expect(spell('日本 *** …').pieces).toEqual([]);
  });
});
