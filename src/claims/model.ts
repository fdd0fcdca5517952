import type { Code, Span } from '../diagnostics/index.js';
import type { Analysis, Key } from '../harmony/index.js';
import type { Fraction, NoteId } from '../score/index.js';

/** The four verdicts of a claim, see the table in README.md. "Undecided" is never shown as a pass. */
export type VerdictWord = 'holds' | 'arguable' | 'undecided' | 'fails';

/** What a note does for a verdict. */
export type EvidenceRole = 'supports' | 'contradicts' | 'set aside' | 'missing';

/** One spelled note (or a missing one) that decided a verdict. */
export interface Evidence {
  readonly role: EvidenceRole;
  /** `F#5`; a tone that never sounds has an octave only where the claim names one. */
  readonly pitch: string;
  /** Name of the voice in the score, `left hand` in a grand staff; empty for a missing tone. */
  readonly voice: string;
  readonly bar: string;
  readonly beat: string;
  /** A few words: `leading tone of D`, `passing tone`, `never sounding`. */
  readonly why: string;
  readonly note?: NoteId;
  /** Where the note stands in the ABC source. */
  readonly span?: Span;
}

export interface Verdict {
  readonly verdict: VerdictWord;
  readonly code: Code;
  /** Lower case start, no final stop; names the convention or what is missing where the verdict is `arguable` or `undecided`. */
  readonly reason: string;
  readonly evidence: readonly Evidence[];
  /** The nearest true statement in the claim language, ready to be pasted. */
  readonly nearest?: string;
}

/** Where textbooks disagree; every setting has a documented default. */
export interface Conventions {
  /** What a plain 7 on I and IV means in major: `major` = diatonic seventh (OMT, RomanText), `minor` = minor seventh, IM7 for the other (Hutchinson). */
  readonly 'seventh-on-I': 'major' | 'minor';
  /** Name printed for the six-four over 5 before V; both names are always read. */
  readonly cadential: 'I64' | 'cad64';
  /** Whether V6-I and viio6-I close a phrase as an imperfect authentic cadence (Hutchinson) or not at all (OMT). */
  readonly 'inverted-authentic': 'cadence' | 'none';
  /** Whether a half cadence may end on V7 (Hutchinson) or only on the triad (OMT). */
  readonly 'half-on-V7': 'cadence' | 'none';
  /** US: imperfect = imperfect authentic; UK: imperfect = half, perfect = authentic, interrupted = deceptive. */
  readonly 'cadence-names': 'US' | 'UK';
  /** Function of iii and vi: `tonic` (OMT) or `prolongation` (Hutchinson). */
  readonly 'iii-and-vi': 'tonic' | 'prolongation';
}

/** What a claim is judged against. */
export interface ClaimContext {
  readonly analysis: Analysis;
  /** Key in which a numeral without `in <key>` is read. */
  readonly home: Key;
  /** Note value of one beat where the lesson overrides the metre's own, in whole notes. */
  readonly beatUnit?: Fraction;
  readonly conventions: Conventions;
  /** Other versions of the piece by the name that the lesson gives their score, for comparisons. */
  readonly versions?: Readonly<Record<string, Analysis>>;
  /** How else sections may be counted than by their cadences; set where a claim about one is asked again. */
  readonly counting?: 'shorter phrases' | 'longer phrases' | 'dance with trio';
  /** Set while a nearest true statement is looked for: then none is looked for in turn. */
  readonly probing?: boolean;
}

/** A stretch of the written score, end exclusive; `start = end` is a moment. */
export interface Range {
  readonly start: Fraction;
  readonly end: Fraction;
}
