import { compare, midiOf, pitchClassOf, printPitch, staffStepOf } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import { noteEvidence } from '../evidence.js';
import { choice, map, optional, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { noteFamily } from '../note-family.js';
import type { NoteFinding } from '../note-family.js';
import { soundEnd, struckHead } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { isNamed, noteName, printNoteName } from '../terms/note-name.js';
import type { NoteName } from '../terms/note-name.js';
import { printVerb, verb } from '../terms/verb.js';

/** Where a note goes in its voice. */
export type ResolutionSays =
  { readonly kind: 'to'; readonly note: NoteName } | { readonly kind: 'step'; readonly up: boolean };

const complement: Parser<ResolutionSays> = choice(
  map(sequence(word('to'), noteName), ([, note]): ResolutionSays => ({ kind: 'to', note })),
  map(
    sequence(
      wordsFor<boolean>([
        [true, 'up', 'upward'],
        [false, 'down', 'downward'],
      ]),
      optional(word('by step')),
    ),
    ([up]): ResolutionSays => ({ kind: 'step', up }),
  ),
);

/** Notes struck from a moment on, the earliest group of each voice. */
function following(
  note: Note,
  context: ClaimContext,
): { readonly own: readonly Note[]; readonly others: readonly Note[] } {
  const { score } = context.analysis;
  const end = soundEnd(note, score);
  const later = score.notes.filter(
    each => !each.grace && each.tiedFrom === undefined && compare(each.onset, end) >= 0,
  );
  const own = later.filter(each => each.voice === note.voice);
  const [first] = own;
  const [earliest] = later;
  return {
    own: first === undefined ? [] : own.filter(each => compare(each.onset, first.onset) === 0),
    others:
      earliest === undefined
        ? []
        : later.filter(each => compare(each.onset, earliest.onset) === 0 && each.voice !== note.voice),
  };
}

const isStep = (from: Note, to: Note, up: boolean): boolean => {
  const steps = staffStepOf(to.pitch) - staffStepOf(from.pitch);
  return steps === (up ? 1 : -1) && Math.abs(midiOf(to.pitch) - midiOf(from.pitch)) <= 2;
};

const nearestTo = (note: Note, candidates: readonly Note[]): Note | undefined =>
  candidates.reduce<Note | undefined>(
    (best, each) =>
      best === undefined ||
      Math.abs(midiOf(each.pitch) - midiOf(note.pitch)) < Math.abs(midiOf(best.pitch) - midiOf(note.pitch))
        ? each
        : best,
    undefined,
  );

function fits(note: Note, next: Note, says: ResolutionSays): boolean {
  switch (says.kind) {
    case 'to':
      return isNamed(next, says.note);
    case 'step':
      return isStep(note, next, says.up);
  }
}

function checkNote(
  head: Note,
  says: ResolutionSays,
  _span: Span,
  context: ClaimContext,
): NoteFinding<ResolutionSays> {
  const note = struckHead(head, context.analysis.score.notes);
  const { own, others } = following(note, context);
  const found = own.find(each => fits(note, each, says));
  const itself = noteEvidence(
    found === undefined ? 'contradicts' : 'supports',
    head,
    'the note that resolves',
    context,
  );
  if (found !== undefined)
    return {
      verdict: 'holds',
      code: 'C1041',
      reason: `${printPitch(note.pitch)} goes to ${printPitch(found.pitch)}`,
      evidence: [itself, noteEvidence('supports', found, 'its resolution', context)],
    };
  const next = nearestTo(note, own);
  if (next === undefined)
    return {
      verdict: 'fails',
      code: 'C1043',
      reason: `nothing follows ${printPitch(note.pitch)} in its voice`,
      evidence: [itself],
    };
  const moved = others.find(each => fits(note, each, says));
  const instead: readonly ResolutionSays[] = [
    { kind: 'step', up: midiOf(next.pitch) > midiOf(note.pitch) },
    { kind: 'to', note: { pitchClass: pitchClassOf(next.pitch), octave: next.pitch.octave } },
  ];
  if (moved !== undefined)
    return {
      verdict: 'arguable',
      code: 'C1044',
      reason: `another voice takes the resolution: ${printPitch(moved.pitch)}; in its own voice ${printPitch(note.pitch)} goes to ${printPitch(next.pitch)}`,
      evidence: [
        itself,
        noteEvidence('supports', moved, 'the resolution in another voice', context),
        noteEvidence('contradicts', next, 'follows in the voice', context),
      ],
      instead,
    };
  const same = midiOf(next.pitch) === midiOf(note.pitch);
  return {
    verdict: 'fails',
    code: 'C1042',
    reason: same
      ? `${printPitch(note.pitch)} is struck again in its voice`
      : `${printPitch(note.pitch)} goes to ${printPitch(next.pitch)}`,
    evidence: [itself, noteEvidence('contradicts', next, 'follows in the voice', context)],
    instead,
  };
}

const families = noteFamily<ResolutionSays>({
  name: 'resolution',
  examples: [
    'the A#3 of bar 2 beat 3 resolves to B3',
    'the seventh of bar 15 resolves down by step',
    'the C#5 of bar 3 beat 1 resolves down by step',
  ],
  phrases: [
    [verb('resolves', 'resolve'), complement],
    [
      verb('goes', 'go'),
      map(sequence(word('to'), noteName), ([, note]): ResolutionSays => ({ kind: 'to', note })),
    ],
  ],
  print: (says, form) => {
    const resolves = printVerb('resolves', 'resolve', form);
    switch (says.kind) {
      case 'to':
        return `${resolves} to ${printNoteName(says.note)}`;
      case 'step':
        return `${resolves} ${says.up ? 'up' : 'down'} by step`;
    }
  },
  checkNote,
});

/** Tendency tones, chordal sevenths, dissonances and their resolution: claims G6, I6 and I7 of the trade. */
export const noteResolutionFamily = families.ofNotes;
export const lineResolutionFamily = families.ofLine;
