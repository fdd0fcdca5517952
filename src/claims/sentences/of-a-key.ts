import { printKey, printRomanNumeral } from '../../harmony/index.js';
import type { Key, RomanNumeral } from '../../harmony/index.js';
import type { Claim, Finding } from '../claim.js';
import { keyFamily } from '../families/key.js';
import { numeralFamily } from '../families/numeral.js';
import { pivotFamily } from '../families/pivot.js';
import { choice, list, map, mark, optional, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { Verdict, VerdictWord } from '../model.js';
import { at, oneBar, placeName, scope } from '../place/place-name.js';
import { sayMoment } from '../place/say-moment.js';
import { statement, statements } from '../statement.js';
import { chordSubject } from '../subjects/chord-subject.js';
import { span } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { keyByName } from '../terms/key-name.js';
import { anyKey, keyReference } from '../terms/key-reference.js';
import { numeral } from '../terms/numeral.js';
import { be, verb } from '../terms/verb.js';
import { denied } from './links.js';
import { placeSubjects, wholeMusic } from './openings.js';
import { comesBack } from './returns.js';

/** `the tonic key returns in bar 21`. */
export const keyReturns: Parser<Claim> = rule('KeyReturns', () =>
  map(
    sequence(word('the'), word('tonic key', 'home key', 'original key'), comesBack, at, placeName),
    ([, , { negated }, , place]) =>
      statement(
        span(place),
        denied(negated, keyFamily.make({ what: 'modulates to', key: { relation: 'tonic' } })),
      ),
  ),
);

/** `the pivot chord is the D minor chord in bar 5`. */
export const pivotIs: Parser<Claim> = rule('PivotIs', () =>
  map(
    sequence(word('the pivot chord', 'the pivot', 'the common chord'), be, chordSubject),
    ([, { negated }, chord]) => statement(chord, denied(negated, pivotFamily.make({}))),
  ),
);

interface InKey {
  readonly numeral: RomanNumeral;
  readonly key: Key;
}

const surestFirst: readonly VerdictWord[] = ['holds', 'arguable', 'fails'];

/** A chord that is so in its keys and leads from one to the other, wherever the piece has one. */
const pivotSo = (chords: readonly InKey[]): Claim => ({
  content: { pivot: chords },
  print: () =>
    `the pivot chord is ${chords.map(({ numeral: of, key }) => `${printRomanNumeral(of)} in ${printKey(key)}`).join(' and ')}`,
  check: (context): Verdict => {
    const found = context.analysis.segments.flatMap(({ start, end }): readonly Finding<Span>[] => {
      const place: Span = {
        range: { start, end },
        name: sayMoment(start, context),
        place: { kind: 'piece' },
      };
      const isSo = chords.every(each => numeralFamily.make(each).check(place, context).verdict === 'holds');
      if (!isSo) return [];
      const [one, other] = chords;
      const pairs =
        one === undefined || other === undefined
          ? [{}]
          : [
              { from: one.key, to: other.key },
              { from: other.key, to: one.key },
            ];
      return pairs.flatMap((pair, at) => {
        const says = pivotFamily.make(pair).check(place, context);
        // The old key is named first as a rule.
        return at > 0 && says.verdict !== 'holds'
          ? []
          : [{ ...says, reason: `${place.name}: ${says.reason}` }];
      });
    });
    const best = surestFirst
      .map(word_ => found.find(({ verdict }) => verdict === word_))
      .find(each => each !== undefined);
    if (best === undefined)
      return { verdict: 'fails', code: 'C0422', reason: 'no chord of the piece is so', evidence: [] };
    const { verdict, code, reason, evidence } = best;
    return { verdict, code, reason, evidence };
  },
});

/** `the pivot is v in E minor, iii in G major`. */
export const pivotInKeys: Parser<Claim> = rule('PivotInKeys', () =>
  map(
    sequence(
      word('the pivot chord', 'the pivot', 'the common chord'),
      word('is', 'functions as', 'acts as', 'serves as'),
      list(
        map(sequence(numeral, word('in'), keyByName), ([read, , key]): InKey => ({ numeral: read, key })),
        choice(
          map(word('and', 'but', 'and is', 'becomes'), () => undefined),
          map(sequence(mark(','), optional(word('and', 'and is', 'but'))), () => undefined),
        ),
      ),
    ),
    ([, , chords]) => pivotSo(chords),
  ),
);

/** `the waltz begins and ends in B minor`. */
export const beginsAndEndsIn: Parser<Claim> = rule('BeginsAndEndsIn', () =>
  map(
    sequence(
      placeSubjects,
      word('begins and ends in', 'begin and end in', 'starts and ends in', 'start and end in'),
      anyKey,
    ),
    ([subjects, , key]) =>
      statements(
        subjects,
        (['begins in', 'ends in'] as const).map(what => keyFamily.make({ what, key })),
      ),
  ),
);

/** `E minor is tonicized in bars 4-5`. */
export const keyTonicized: Parser<Claim> = rule('KeyTonicized', () =>
  map(sequence(keyReference, be, word('tonicized', 'tonicised'), scope), ([key, { negated }, , place]) =>
    statement(span(place), denied(negated, keyFamily.make({ what: 'tonicizes', key }))),
  ),
);

/** `the music has modulated to D major by bar 16`: from the beginning to there. */
export const modulatedBy: Parser<Claim> = rule('ModulatedBy', () =>
  map(
    sequence(
      wholeMusic,
      choice(verb('modulates to', 'modulate to'), verb('has modulated to', 'have modulated to')),
      anyKey,
      word('by'),
      oneBar,
    ),
    ([, { negated }, key, , last]) =>
      statement(
        span({ kind: 'bars', first: '1', last }),
        denied(negated, keyFamily.make({ what: 'modulates to', key })),
      ),
  ),
);
