import { noteEvidence } from '../evidence.js';
import type { Verb } from '../terms/verb.js';
import type { Parser } from '../grammar/index.js';
import {
  bassOf,
  chord,
  describeChord,
  inversionNames,
  isUnread,
  parseRomanNumeral,
  printChord,
  realize,
  sameChord,
} from '../../harmony/index.js';
import type { Chord, ChordQuality, Judgement, Key, Segment } from '../../harmony/index.js';
import type { PitchClass } from '../../score/index.js';
import type { Finding, Judged, Predicate } from '../claim.js';
import { family } from '../family.js';
import { choice, map, nothing, optional, quiet, sequence, word } from '../grammar/index.js';
import type { ClaimContext, Range } from '../model.js';
import { soundEnd, soundingIn } from '../subjects/sounding.js';
import { compare, isBefore, pitchClassOf, printPitch, staffStepOf } from '../../score/index.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import {
  article,
  chordOverBass,
  chordSymbol,
  chordWords,
  isAugmentedSixth,
  isOfClass,
  printChordWords,
  triadQuality,
  unmistakableChord,
  withArticle,
} from '../terms/chord-name.js';
import type { ChordWords } from '../terms/chord-name.js';
import { be, have, printBe, verb } from '../terms/verb.js';
import { bestOf, isSupported, judged, silence } from './judged.js';
import { inversionsOf } from '../subjects/harmonies.js';
import { mainSegment, segmentsIn } from '../segments.js';
import type { Codes } from './judged.js';
import { judgeWhole } from './whole-bars.js';
import { trueOfWholeBeat } from './whole-beat.js';

/** The harmony of a place. A symbol puts its root in the bass where it has no slash (lead-sheet practice); words leave the bass open. */
export type ChordSays =
  | {
      readonly form: 'symbol';
      readonly root: PitchClass;
      readonly quality: ChordQuality;
      readonly inversion: number;
    }
  | ({ readonly form: 'words' } & ChordWords);

/** On the line of fifths. */
const augmentedSixth = 10;

const codes: Codes = { supported: 'C0101', rivalled: 'C0102', open: 'C0103', contradicted: 'C0104' };

const nounsOfChord = word('chord', 'harmony', 'triad');
const memberInBass = [
  [word('root'), 0],
  [word('third'), 1],
  [word('fifth'), 2],
  [word('seventh'), 3],
] as const;

/** An augmented sixth has no symbol that is read: it is named by its kind. */
const symbolOf = (of: Chord): ChordSays =>
  isAugmentedSixth(of.quality) ? { form: 'words', quality: of.quality } : plainSymbol(of);

const plainSymbol = (of: Chord): ChordSays => ({
  form: 'symbol',
  root: of.root,
  quality: of.quality,
  inversion: of.inversion,
});

/** Chords that the engine considers in a range: what it reads, then the rivals. */
function considered(range: Range, context: ClaimContext): readonly Chord[] {
  const segments = segmentsIn(context.analysis, range);
  const found = [
    ...segments.map(segment => segment.chord),
    ...segments.flatMap(segment => segment.rivals.map(rival => rival.chord)),
  ];
  return found.filter((each, at) => found.findIndex(other => sameChord(each, other)) === at);
}

/** Whether a chord is what the words leave open. */
function allows(says: ChordSays, of: Chord): boolean {
  const ofClass = says.form === 'words' ? says.class : undefined;
  return (
    (says.root === undefined || of.root === says.root) &&
    (says.quality === undefined || of.quality === says.quality) &&
    (ofClass === undefined || isOfClass(of.quality, ofClass))
  );
}

/** `is in first inversion`, of whatever chord. */
const isInversionAlone = (says: ChordSays): boolean =>
  says.form === 'words' &&
  says.inversion !== undefined &&
  says.root === undefined &&
  says.quality === undefined &&
  says.class === undefined;

/** The chord that a sentence names, or where it names only a kind, the chord of that kind that the place has. */
function candidates(says: ChordSays, range: Range, context: ClaimContext): readonly Chord[] {
  const { root, quality, inversion = 0 } = says;
  // A triad has no third inversion.
  const hasInversion = ({ tones }: Chord): boolean => inversion < tones.length;
  if (root !== undefined && quality !== undefined) return [chord(root, quality)].filter(hasInversion);
  const main = mainSegment(context.analysis, range);
  const whole = inversionsOf(segmentsIn(context.analysis, range)).find(
    ({ segments }) => main !== undefined && segments.includes(main),
  );
  // The main chord first, then the same chord with the seventh that comes later; of inversions the fuller one is asked.
  const chords = [main, ...(whole?.segments ?? [])].flatMap(each => each?.chord ?? []);
  if (isInversionAlone(says)) chords.sort((a, b) => b.tones.length - a.tones.length);
  const found = chords.filter(each => allows(says, each) && hasInversion(each));
  return (found.length > 0 ? found : sixthsIn(says, main?.key ?? context.home)).slice(0, 1);
}

/** An augmented sixth has one place in a key: its kind names the chord, wherever it is heard (Open Music Theory, Augmented sixth chords). */
function sixthsIn({ quality, inversion }: ChordSays, key: Key): readonly Chord[] {
  if (quality === undefined || inversion !== undefined || !isAugmentedSixth(quality)) return [];
  return ['It6', 'Fr43', 'Ger65'].flatMap(text => {
    const read = parseRomanNumeral(text);
    const of = isUnread(read) ? undefined : realize(read, key);
    return of?.quality === quality ? [of] : [];
  });
}

/** A chord without its root is a guess that no author means by `a seventh chord`. */
const sounds = (tone: PitchClass, range: Range, context: ClaimContext): boolean =>
  soundingIn(context.analysis.score, range).some(note => pitchClassOf(note.pitch) === tone);

const isWithin = (part: Chord, whole: Chord): boolean => part.tones.every(tone => whole.tones.includes(tone));

/** A kind of chord that only a rival reading of the place has. */
function rivalOfKind(
  says: ChordSays,
  range: Range,
  context: ClaimContext,
): { readonly chord: Chord; readonly judgement: Judgement } | undefined {
  const main = mainSegment(context.analysis, range);
  const struck = { start: range.start, end: range.start };
  // Four tones that are struck together are no triad, though three of them would make one.
  const isFull =
    main !== undefined &&
    main.chord.tones.length > 3 &&
    main.chord.tones.every(tone => sounds(tone, struck, context));
  return considered(range, context)
    .filter(
      each => !(isFull && says.root === undefined && each.tones.length === 3 && isWithin(each, main.chord)),
    )
    .filter(
      each =>
        allows(says, each) && (says.inversion ?? 0) < each.tones.length && sounds(each.root, range, context),
    )
    .map(each => ({ chord: each, judgement: ask(each, says.inversion, range, context) }))
    .find(({ judgement }) => isSupported(judgement));
}

/** Of a chord with its ninth: where the ninth steps down to the root before the chord gives way, whether it is a member is a matter of hearing. */
function ninthThatFalls(main: Segment, range: Range, context: ClaimContext): Judged | undefined {
  const { score } = context.analysis;
  const [root, , , , ninth] = main.chord.tones;
  const found = soundingIn(score, range).find(note => {
    if (pitchClassOf(note.pitch) !== ninth) return false;
    const next = score.notes.find(
      ({ voice, onset, grace }) =>
        voice === note.voice && !grace && compare(soundEnd(note, score), onset) <= 0,
    );
    return (
      next !== undefined &&
      isBefore(next.onset, main.end) &&
      pitchClassOf(next.pitch) === root &&
      staffStepOf(next.pitch) === staffStepOf(note.pitch) - 1
    );
  });
  return found === undefined
    ? undefined
    : {
        verdict: 'arguable',
        code: 'C0102',
        reason: `the ninth, ${printPitch(found.pitch)}, moves on to the root while the chord lasts, as a 9-8 does`,
        evidence: [noteEvidence('set aside', found, 'ninth or 9-8', context)],
      };
}

/**
 * A ninth that moves on by step while its chord lasts is no member of it (Open Music Theory, Embellishing tones; claim B5 of the trade):
 * a 9-8 makes no ninth chord.
 */
function resolvingNinth(says: ChordSays, range: Range, context: ClaimContext): Judged | undefined {
  const main = mainSegment(context.analysis, range);
  const asksNinth =
    (says.quality !== undefined && isOfClass(says.quality, 'ninth chord')) ||
    (says.form === 'words' && says.class === 'ninth chord');
  if (!asksNinth || main === undefined) return undefined;
  if (says.root !== undefined && says.root !== main.chord.root) return undefined;
  const { score } = context.analysis;
  if (isOfClass(main.chord.quality, 'ninth chord'))
    return says.quality === undefined || says.quality === main.chord.quality
      ? ninthThatFalls(main, range, context)
      : undefined;
  // Two fifths above the root, or seven semitones of letters lower for the minor ninth.
  const ninths = [main.chord.root + 2, main.chord.root - 5];
  const found = main.nonChordTones.flatMap(tone => {
    const note = score.notes[tone.note];
    return note !== undefined && ninths.includes(pitchClassOf(note.pitch)) ? [{ note, kind: tone.kind }] : [];
  });
  const [first] = found;
  if (first === undefined) return undefined;
  return {
    verdict: 'fails',
    code: 'C0104',
    reason: `the ninth, ${printPitch(first.note.pitch)}, moves on by step while the chord lasts: it is ${withArticle(first.kind)}, no member`,
    evidence: found.map(({ note, kind }) => noteEvidence('set aside', note, kind, context)),
  };
}

const ask = (of: Chord, inversion: number | undefined, range: Range, context: ClaimContext): Judgement =>
  judgeWhole(
    inversion === undefined ? of : { ...of, inversion },
    { range, withBass: inversion !== undefined },
    context,
  );

/** The likeliest chord of a range, as said. */
function sayMain(range: Range, context: ClaimContext): string {
  const main = mainSegment(context.analysis, range);
  if (main === undefined) return 'no chord';
  const name = describeChord(main.chord);
  // The sixth with its lower note in the bass is how the chord stands (common practice); another bass is worth a word.
  const bass = bassOf(main.chord);
  if (isAugmentedSixth(main.chord.quality) && main.chord.tones.some(tone => tone - bass === augmentedSixth))
    return withArticle(name);
  return `${name} in ${inversionNames[main.chord.inversion] ?? 'root position'}`;
}

/** What the place has instead of the kind of chord that the sentence names. */
function noneConsidered(says: ChordSays, span: Span, range: Range, context: ClaimContext): Judged {
  const segment = mainSegment(context.analysis, range);
  if (segment === undefined)
    return {
      verdict: 'undecided',
      code: 'C0103',
      reason: `no chord can be read in ${span.name}`,
      evidence: [],
    };
  const own = ask(segment.chord, undefined, range, context);
  const lacksInversion = (says.inversion ?? 0) >= segment.chord.tones.length;
  return {
    ...judged(own, codes, range, context),
    verdict: 'fails',
    code: 'C0104',
    reason: `the chord is ${sayMain(range, context)}${lacksInversion ? ', which has no such inversion' : ''}`,
  };
}

function alternatives(
  says: ChordSays,
  range: Range,
  context: ClaimContext,
  make: (says: ChordSays) => Predicate<Span>,
): readonly Predicate<Span>[] {
  const { root, quality } = says;
  const inversions =
    root === undefined || quality === undefined
      ? []
      : chord(root, quality).tones.map((_, inversion) => make({ form: 'symbol', root, quality, inversion }));
  const main = mainSegment(context.analysis, range);
  const read = considered(range, context);
  if (isInversionAlone(says) && main !== undefined)
    return [make({ form: 'words', inversion: main.chord.inversion }), make(symbolOf(main.chord))];
  return [...(main === undefined ? [] : [main.chord]), ...read]
    .map(each => make(symbolOf(each)))
    .concat(inversions);
}

/** `outlines C major`: a chord spread over time. */
const outlined: Parser<ChordSays> = choice(
  map(chordWords, words => ({ form: 'words', ...words })),
  map(sequence(quiet(optional(article)), chordSymbol), ([, { root, quality }]) => ({
    form: 'words',
    root,
    quality,
  })),
);
/** Not in root position. */
const inverted: Verb = choice<{ readonly negated: boolean }>(
  map(word('is inverted', 'are inverted'), () => ({ negated: true })),
  map(word('is not inverted', "isn't inverted", 'are not inverted', "aren't inverted"), () => ({
    negated: false,
  })),
);

/** Chord names and chords in words: claims B1 to B6 of the trade. */
export const chordFamily = family<Span, ChordSays>({
  name: 'chord',
  examples: [
    'bar 5 is D7/F#',
    'bar 5 is a D minor seventh chord',
    'bar 5 is a first-inversion A minor triad',
    'bar 5 beat 3 is a diminished seventh chord',
    'bar 5 is in first inversion',
  ],
  phrases: [
    [be, map(sequence(quiet(optional(article)), chordSymbol), ([, of]) => symbolOf(of))],
    [be, map(chordOverBass, symbolOf)],
    [
      be,
      map(sequence(article, word('broken', 'arpeggiated'), unmistakableChord), ([, , words]): ChordSays => ({
        form: 'words',
        ...words,
      })),
    ],
    ...['outlines', 'spells out', 'arpeggiates'].map(
      each => [verb(each, each.replace(/s(?= out|$)/u, '')), outlined] as const,
    ),
    [inverted, nothing<ChordSays>({ form: 'words', inversion: 0 })],
    [be, map(triadQuality, (quality): ChordSays => ({ form: 'words', quality }))],
    [be, map(chordWords, (words): ChordSays => ({ form: 'words', ...words }))],
    ...memberInBass.map(
      ([part, inversion]) =>
        [
          have,
          map(sequence(word('its', 'the'), part, word('in the bass')), (): ChordSays => ({
            form: 'words',
            inversion,
          })),
        ] as const,
    ),
  ],
  aspects: [
    [nounsOfChord, be, map(sequence(quiet(optional(article)), chordSymbol), ([, of]) => symbolOf(of))],
    [nounsOfChord, be, map(chordWords, (words): ChordSays => ({ form: 'words', ...words }))],
    [nounsOfChord, be, map(triadQuality, (quality): ChordSays => ({ form: 'words', quality }))],
    ...memberInBass.map(
      ([part, inversion]) =>
        [
          sequence(part, optional(word('of the chord'))),
          be,
          map(word('in the bass'), (): ChordSays => ({ form: 'words', inversion })),
        ] as const,
    ),
  ],
  print: (says, form) =>
    `${printBe(form)} ${says.form === 'symbol' ? printChord({ ...chord(says.root, says.quality), inversion: says.inversion }) : printChordWords(says)}`,
  check: (span, says, context, make): Finding<Span> => {
    const range = rangeOrMoment(span);
    const silent = silence<Span>(range, span.name, context);
    if (silent !== undefined) return silent;
    const rather = () => trueOfWholeBeat(span, make(says), context);
    const instead = () => (rather().length > 0 ? [] : alternatives(says, range, context, make));
    const asked = candidates(says, range, context);
    const resolved = resolvingNinth(says, range, context);
    if (resolved !== undefined) return { ...resolved, instead };
    const best = bestOf(asked.map(each => ask(each, says.inversion, range, context)));
    if (best === undefined) {
      const rival = rivalOfKind(says, range, context);
      if (rival === undefined) return { ...noneConsidered(says, span, range, context), instead, rather };
      return {
        ...judged(rival.judgement, codes, range, context),
        verdict: 'arguable',
        code: 'C0102',
        reason: `it can be heard as ${describeChord(rival.chord)}, but ${sayMain(range, context)} is the likelier reading`,
        instead,
      };
    }
    const [only] = asked;
    if (says.form === 'symbol' && says.inversion === 0 && only !== undefined && !isSupported(best)) {
      const anyBass = ask(only, undefined, range, context);
      if (anyBass.outcome === 'supported') {
        const bass = mainSegment(context.analysis, range)?.chord;
        return {
          ...judged(anyBass, codes, range, context),
          verdict: 'arguable',
          code: 'C0105',
          reason: `the chord is ${describeChord(only)}, but a symbol without a slash puts its root in the bass${
            bass === undefined || !sameChord(bass, only)
              ? ''
              : `; the bass is ${printChord(bass).split('/')[1] ?? printChord({ ...bass, inversion: 0 })}`
          }`,
          instead,
        };
      }
    }
    return { ...judged(best, codes, range, context), instead, rather };
  },
});
