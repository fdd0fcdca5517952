import { compare, pitchClassOf, printPitchClass } from '../score/index.js';
import type { Note, PitchClass } from '../score/index.js';
import { heardIn } from './analyse.js';
import { chord, printChord } from './chord.js';
import { momentAt } from './hearing.js';
import type { Judgement, KeyQuestion, Witness } from './judgement.js';
import { degreeTone, leadingTone, nativeTones, printKey, sameKey } from './key.js';
import type { Analysis, Chord, Key } from './model.js';
import { allowRespelling, respelledKey } from './respelling.js';
import { segmentsBetween } from './segment-at.js';
import { ticksOf } from './sound.js';

/**
 * How much dearer than the best other key a key may be, in the unit of `lattice.ts`, and still be heard, and when it no longer can be; and the
 * same where the piece as a whole is heard in the key (`own`), or in another (`other`).
 */
const borders = { near: 0.1, far: 1, own: { near: 0.5 }, other: { near: -0.25, far: 0.3 } } as const;

/** At most this many notes are named as witnesses for each side. */
const witnessLimit = 6;

/** One of a kind: the first note of each pitch class. */
function firstOfEach(notes: readonly Note[]): readonly Note[] {
  const seen = new Set<number>();
  return notes.filter(note => {
    const tone = pitchClassOf(note.pitch);
    return seen.has(tone) ? false : seen.add(tone).size > 0;
  });
}

/** A tone that is foreign to a key: where the key has its letter altered only, `E natural`. */
function foreignName(tone: PitchClass, key: Key): string {
  const name = printPitchClass(tone);
  const isAltered = nativeTones(key).some(native => printPitchClass(native).startsWith(name));
  return name.length === 1 && isAltered ? `${name} natural` : name;
}

const names = (notes: readonly Note[], key: Key): string => {
  const all = notes.map(note => foreignName(pitchClassOf(note.pitch), key));
  return all.length < 2 ? all.join('') : `${all.slice(0, -1).join(', ')} and ${all[all.length - 1] ?? ''}`;
};

/**
 * Judges whether a passage is in a key: reads its harmonies in every key that its tones allow and compares what the readings cost.
 * A key is more than a scale: its own chords must lead where they are expected (Open Music Theory, Modulation: the cadence confirms it).
 */
export function judgeKey(analysis: Analysis, question: KeyQuestion): Judgement {
  const { key } = question;
  const respelled = { inKey: key, tones: [key.tonic], piece: heardIn(analysis).lattice.tables.index };
  return allowRespelling(judgeAsSpelled(analysis, question), respelled, shift =>
    judgeAsSpelled(analysis, { ...question, key: respelledKey(key, shift) }),
  );
}

/** A chord over the fifth degree, or the leading tone, that has the leading tone. */
function isDominantOf({ root, tones }: Chord, key: Key): boolean {
  const leading = leadingTone(key);
  return tones.includes(leading) && (root === degreeTone(key, 5) || root === leading);
}

/** What the analysis, which knows the whole piece, hears in a span. */
interface KeyHearing {
  /** How many of the harmonies are heard in the key asked about. */
  readonly own: 'all' | 'some' | 'none';
  /** The key in which most of them are heard. */
  readonly main: Key | undefined;
  /** Whether all of them are heard in one key that is not the one asked about. */
  readonly isElsewhere: boolean;
  /** The key of a cadence in the span that is in another key. */
  readonly closes: Key | undefined;
  /** Whether the piece is in the key asked about just before or just after the span. */
  readonly isNear: boolean;
}

function hearingOf(analysis: Analysis, { start, end, key }: KeyQuestion): KeyHearing {
  const segments = segmentsBetween(analysis, start, end);
  const own = segments.filter(segment => sameKey(segment.key, key)).length;
  const countOf = (of: Key): number => segments.filter(segment => sameKey(segment.key, of)).length;
  const main = segments.reduce<Key | undefined>(
    (most, segment) => (most === undefined || countOf(segment.key) > countOf(most) ? segment.key : most),
    undefined,
  );
  const isElsewhere = own === 0 && main !== undefined && countOf(main) === segments.length;
  const closes = analysis.cadences.find(
    cadence =>
      compare(start, cadence.onset) <= 0 && compare(cadence.onset, end) < 0 && !sameKey(cadence.key, key),
  )?.key;
  const isNear = analysis.keyAreas.some(
    area => sameKey(area.key, key) && compare(area.start, end) <= 0 && compare(start, area.end) <= 0,
  );
  return {
    isNear,
    isElsewhere,
    own: own === 0 ? 'none' : own === segments.length ? 'all' : 'some',
    main,
    closes,
  };
}

function judgeAsSpelled(analysis: Analysis, question: KeyQuestion): Judgement {
  const { sound, lattice, fits } = heardIn(analysis);
  const start = ticksOf(question.start, sound.ticksPerWhole);
  const end = Math.max(start + 1, ticksOf(question.end, sound.ticksPerWhole));
  const from = momentAt(lattice.moments, start);
  const to = momentAt(lattice.moments, end - 1) + 1;
  const inSpan = analysis.score.notes.filter(
    note => !note.grace && compare(note.onset, question.end) < 0 && compare(note.onset, question.start) >= 0,
  );
  if (inSpan.length === 0) return { outcome: 'open', reason: 'nothing sounds there', witnesses: [] };

  const claimed = fits.keys.findIndex(key => sameKey(key, question.key));
  const costs = fits.costs(from, to);
  const own = claimed < 0 ? Infinity : (costs[claimed] ?? Infinity);
  let bestOther = -1;
  costs.forEach((cost, k) => {
    if (k !== claimed && cost < (costs[bestOther] ?? Infinity)) bestOther = k;
  });
  const other = fits.keys[bestOther];
  const behind = own - (costs[bestOther] ?? Infinity);

  const native = new Set(nativeTones(question.key));
  const foreign = firstOfEach(inSpan.filter(note => !native.has(pitchClassOf(note.pitch))));
  const leading = firstOfEach(inSpan.filter(note => pitchClassOf(note.pitch) === leadingTone(question.key)));
  const tonics = segmentsBetween(analysis, question.start, question.end).filter(
    segment =>
      segment.chord.root === question.key.tonic &&
      (segment.chord.quality === 'major' || segment.chord.quality === 'minor'),
  );
  const witnesses: Witness[] = [
    ...leading.map(note => ({
      role: 'supports' as const,
      note: note.id,
      why: `leading tone of ${printKey(question.key)}`,
    })),
    ...foreign.slice(0, witnessLimit).map(note => ({
      role: (behind < borders.far ? 'set aside' : 'contradicts') as Witness['role'],
      note: note.id,
      why: `not native to ${printKey(question.key)}`,
    })),
  ];
  const better = (key: Key): NonNullable<Judgement['better']> => ({
    roman: key.mode === 'major' ? 'I' : 'i',
    chord: printChord(chord(key.tonic, key.mode)),
    key,
  });
  const account = (it: string): string => {
    const tones =
      foreign.length === 0
        ? `every tone is native to ${it}`
        : `${names(foreign, question.key)} ${foreign.length > 1 ? 'are' : 'is'} not native to ${it}`;
    if (tonics.length === 0)
      return `${tones}, ${foreign.length === 0 ? 'but' : 'and'} its tonic chord never comes`;
    return `${tones}, and its tonic chord comes ${tonics.length === 1 ? 'once' : `${tonics.length} times`}`;
  };
  const hearing = hearingOf(analysis, question);
  const hasDominant = segmentsBetween(analysis, question.start, question.end).some(({ chord }) =>
    isDominantOf(chord, question.key),
  );
  // What the piece is heard in around the span decides where the span alone leaves two keys open.
  const isHeard = hearing.own === 'all' && tonics.length > 0 && behind < borders.own.near;
  const speaksAgainst = hearing.own === 'none' && (hearing.closes !== undefined || tonics.length === 0);
  const isDoubtful = speaksAgainst && behind > borders.other.near;
  if (isHeard || (behind < borders.near && !isDoubtful))
    return {
      outcome: 'supported',
      reason: `the harmonies make best sense in ${printKey(question.key)}: ${account('it')}`,
      witnesses,
    };
  // Where the whole piece is heard in one other key there, that key is what speaks against it, whatever the span alone could be.
  const rival = isDoubtful || hearing.isElsewhere ? hearing.main : other;
  if (rival === undefined) return { outcome: 'open', reason: 'the passage does not show a key', witnesses };
  const result = { witnesses, better: better(rival) } as const;
  const isUnprepared = hearing.isElsewhere && !hasDominant;
  const isRefuted =
    !hearing.isNear && behind >= borders.other.far && (isUnprepared || (speaksAgainst && foreign.length > 0));
  if (behind < borders.far && !isRefuted)
    return {
      outcome: 'rivalled',
      reason: `${printKey(rival)} fits the harmonies as well; ${account(printKey(question.key))}`,
      ...result,
    };
  return {
    outcome: 'contradicted',
    reason: `the harmonies make best sense in ${printKey(rival)}; ${account(printKey(question.key))}`,
    ...result,
  };
}
