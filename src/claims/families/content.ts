import { chromaOf, pitchClassOf, printPitch, printPitchClass } from '../../score/index.js';
import type { Note, NoteId } from '../../score/index.js';
import type { Finding, Predicate } from '../claim.js';
import { isHeldInto, missingEvidence, noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, list, map, mark, nothing, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Evidence } from '../model.js';
import type { Span } from '../subjects/span.js';
import { soundingIn } from '../subjects/sounding.js';
import { isNamed, noteName, printNoteName } from '../terms/note-name.js';
import type { NoteName } from '../terms/note-name.js';
import { article } from '../terms/chord-name.js';
import { be, have, printHave, printVerb, verb } from '../terms/verb.js';
import { silence } from './judged.js';

/** Which notes a place has. `struck` leaves out notes that sound on from before, `held` asks for those alone. */
export interface Content {
  /** `any`: `has D or F#`. */
  readonly quantity: 'all' | 'any' | 'only' | 'none';
  readonly manner: 'sounding' | 'struck' | 'held';
  readonly notes: readonly NoteName[];
}

const joinedBy = (...words: readonly [string, ...string[]]) =>
  quiet(
    choice(
      map(sequence(mark(','), optional(word(...words))), () => undefined),
      map(word(...words), () => undefined),
      nothing(undefined),
    ),
  );
const aNote = map(sequence(quiet(optional(article)), noteName), ([, note]) => note);
const allNotes = list(aNote, joinedBy('and'));
/** Of `no D or F#` both are meant. */
const anyNotes = list(aNote, joinedBy('and', 'or'));

const content = (quantity: Content['quantity'], manner: Content['manner'] = 'sounding') =>
  map(quantity === 'all' ? allNotes : anyNotes, (notes): Content => ({ quantity, manner, notes }));

/** `D or F#`, `either D, E or F#`. */
const oneOfNotes: Parser<Content> = map(
  sequence(
    quiet(optional(word('either'))),
    list(aNote, mark(',')),
    quiet(optional(mark(','))),
    word('or'),
    aNote,
  ),
  ([, before, , , last]): Content => ({ quantity: 'any', manner: 'sounding', notes: [...before, last] }),
);

const complement: Parser<Content> = choice(
  oneOfNotes,
  content('all'),
  map(sequence(word('only'), optional(word('the notes')), content('only')), ([, , says]) => says),
  map(sequence(word('no'), content('none')), ([, says]) => says),
);

const listed = (notes: readonly NoteName[]): string => notes.map(printNoteName).join(' ');

/** Names of notes as said: `D, F# and A`. */
function said(names: readonly string[], joint: string): string {
  return names.length < 2
    ? names.join('')
    : `${names.slice(0, -1).join(', ')} ${joint} ${names.at(-1) ?? ''}`;
}

/** The first note of each name that is not among `names`. */
function strangers(notes: readonly Note[], names: readonly NoteName[]): readonly Note[] {
  const seen = new Set<string>();
  return notes.filter(note => {
    if (names.some(name => isNamed(note, name))) return false;
    const label = printPitchClass(pitchClassOf(note.pitch));
    const isNew = !seen.has(label);
    seen.add(label);
    return isNew;
  });
}

const whySounds = (note: Note, span: Span): string =>
  note.grace ? 'grace note' : isHeldInto(note, span.range) ? 'sounding on from before' : 'sounding';

function notesOf(span: Span, manner: Content['manner'], context: ClaimContext): readonly Note[] {
  const sounding = soundingIn(context.analysis.score, span.range);
  switch (manner) {
    case 'sounding':
      return sounding;
    case 'struck':
      return sounding.filter(note => !isHeldInto(note, span.range));
    case 'held':
      return sounding.filter(note => isHeldInto(note, span.range));
  }
}

/** A note that is one slip away from a name that never sounds: spelled otherwise, altered, in another octave. */
function slipOf(
  name: NoteName,
  notes: readonly Note[],
): { readonly note: Note; readonly slip: string } | undefined {
  const wanted = printNoteName(name);
  const octave = notes.find(note => pitchClassOf(note.pitch) === name.pitchClass);
  if (octave !== undefined)
    return { note: octave, slip: `the note is ${printPitch(octave.pitch)}, not ${wanted}` };
  const sameKey = notes.find(note => chromaOf(pitchClassOf(note.pitch)) === chromaOf(name.pitchClass));
  if (sameKey !== undefined)
    return { note: sameKey, slip: `the note is spelled ${printPitch(sameKey.pitch)}, not ${wanted}` };
  const letter = printPitchClass(name.pitchClass).charAt(0);
  const altered = notes.find(note => note.pitch.letter === letter);
  return altered === undefined
    ? undefined
    : { note: altered, slip: `the ${letter} is ${printPitch(altered.pitch)}, not ${wanted}` };
}

const nameOf = (note: Note, withOctave: boolean): NoteName =>
  withOctave
    ? { pitchClass: pitchClassOf(note.pitch), octave: note.pitch.octave }
    : { pitchClass: pitchClassOf(note.pitch) };

interface Asked {
  readonly span: Span;
  readonly says: Content;
  readonly notes: readonly Note[];
  readonly context: ClaimContext;
  readonly make: (says: Content) => Predicate<Span>;
}

function checkAll({ span, says, notes, context, make }: Asked): Finding<Span> {
  const present = says.notes.flatMap(name => notes.find(note => isNamed(note, name)) ?? []);
  const absent = says.notes.filter(name => !notes.some(note => isNamed(note, name)));
  const found = present.map(note => noteEvidence('supports', note, whySounds(note, span), context));
  if (absent.length === 0)
    return {
      verdict: 'holds',
      code: 'C0301',
      reason: `${said(says.notes.map(printNoteName), 'and')} ${says.notes.length === 1 ? 'is' : 'are'} there`,
      evidence: found,
    };
  const slips = absent.map(name => ({ name, slip: slipOf(name, notes) }));
  const [spelled] = slips.flatMap(({ slip }) => slip ?? []);
  const corrected = says.notes.map(name => {
    const slip = slips.find(each => each.name === name)?.slip;
    return slip === undefined ? name : nameOf(slip.note, name.octave !== undefined);
  });
  const other = { struck: 'sounding', held: 'struck', sounding: 'sounding' } as const;
  const one = absent.length === 1;
  const never = {
    sounding: one ? 'never sounds' : 'never sound',
    struck: one ? 'is never struck' : 'are never struck',
    held: one ? 'is never held over' : 'are never held over',
  }[says.manner];
  // Beside the list of notes, which may be one or several.
  const neverInList = { sounding: 'never sounding', struck: 'never struck', held: 'never held over' }[
    says.manner
  ];
  return {
    verdict: 'fails',
    code: spelled === undefined ? 'C0302' : 'C0305',
    reason: `${said(absent.map(printNoteName), 'and')} ${never} in ${span.name}${
      spelled === undefined ? '' : `: ${spelled.slip}`
    }`,
    evidence: [
      ...absent.map(name => missingEvidence(name, span.range, neverInList, context)),
      ...slips.flatMap(({ slip }) =>
        slip === undefined ? [] : [noteEvidence('contradicts', slip.note, 'in its place', context)],
      ),
      ...found,
    ],
    instead: () => [
      make({ ...says, notes: corrected }),
      make({ ...says, manner: other[says.manner] }),
      ...(present.length === 0
        ? []
        : [make({ ...says, notes: says.notes.filter(name => !absent.includes(name)) })]),
    ],
  };
}

/** Notes of the range that the engine explains as no members of their chord, with the kind of each. */
function nonChordTones(context: ClaimContext, notes: readonly Note[]): ReadonlyMap<NoteId, string> {
  const ids = new Set(notes.map(note => note.id));
  return new Map(
    context.analysis.segments.flatMap(segment =>
      segment.nonChordTones.filter(tone => ids.has(tone.note)).map(tone => [tone.note, tone.kind] as const),
    ),
  );
}

function checkOnly(asked: Asked): Finding<Span> {
  const { span, says, notes, context, make } = asked;
  const all = checkAll({ ...asked, says: { ...says, quantity: 'all' } });
  const foreign = strangers(notes, says.notes);
  const setOf = (of: readonly Note[]): readonly NoteName[] =>
    [...new Set(of.map(note => pitchClassOf(note.pitch)))].map(pitchClass => ({ pitchClass }));
  const instead = () => [make({ ...says, notes: setOf(notes) })];
  if (all.verdict !== 'holds') return { ...all, instead };
  if (foreign.length === 0)
    return { ...all, reason: `nothing but ${said(says.notes.map(printNoteName), 'and')} sounds` };
  const kinds = nonChordTones(context, notes);
  const outsiders = notes.filter(note => !says.notes.some(name => isNamed(note, name)));
  const explained = outsiders.every(note => note.grace || kinds.has(note.id));
  const evidence: readonly Evidence[] = [
    ...foreign.map(note =>
      noteEvidence(
        explained ? 'set aside' : 'contradicts',
        note,
        note.grace ? 'grace note' : (kinds.get(note.id) ?? 'none of them'),
        context,
      ),
    ),
    ...all.evidence,
  ];
  const names = said(
    foreign.map(note => printPitch(note.pitch)),
    'and',
  );
  return explained
    ? {
        verdict: 'arguable',
        code: 'C0304',
        reason: `true of the chord tones; ${names} ${foreign.length === 1 ? 'also sounds and is no chord tone' : 'also sound and are no chord tones'}`,
        evidence,
        instead,
      }
    : {
        verdict: 'fails',
        code: 'C0303',
        reason: `${names} also ${foreign.length === 1 ? 'sounds' : 'sound'} in ${span.name}`,
        evidence,
        instead,
      };
}

function checkNone({ span, says, notes, context, make }: Asked): Finding<Span> {
  const found = notes.filter(note => says.notes.some(name => isNamed(note, name)));
  if (found.length === 0)
    return {
      verdict: 'holds',
      code: 'C0301',
      reason: `no ${said(says.notes.map(printNoteName), 'and no')} sounds in ${span.name}`,
      evidence: [],
    };
  const present = says.notes.filter(name => found.some(note => isNamed(note, name)));
  return {
    verdict: 'fails',
    code: 'C0303',
    reason: `${said(present.map(printNoteName), 'and')} ${present.length === 1 ? 'sounds' : 'sound'} in ${span.name}`,
    evidence: found.map(note => noteEvidence('contradicts', note, whySounds(note, span), context)),
    local: true,
    instead: () => [make({ ...says, quantity: 'all', notes: present })],
  };
}

/** As true as the best of them. */
function checkAny({ span, says, notes, context, make }: Asked): Finding<Span> {
  const found = notes.filter(note => says.notes.some(name => isNamed(note, name)));
  const [first] = found;
  return {
    verdict: found.length > 0 ? 'holds' : 'fails',
    code: found.length > 0 ? 'C0301' : 'C0302',
    reason:
      first !== undefined
        ? `${printPitch(first.pitch)} is there`
        : `neither ${said(says.notes.map(printNoteName), 'nor')} sounds in ${span.name}`,
    evidence:
      found.length > 0
        ? found.slice(0, 4).map(note => noteEvidence('supports', note, whySounds(note, span), context))
        : says.notes.map(name => missingEvidence(name, span.range, 'never sounding', context)),
    instead: () =>
      says.notes.flatMap(name => {
        const slip = slipOf(name, notes);
        return slip === undefined
          ? []
          : [make({ ...says, quantity: 'all', notes: [nameOf(slip.note, name.octave !== undefined)] })];
      }),
  };
}

function printContent(
  { quantity, manner, notes }: Content,
  form: { readonly plural: boolean; readonly negated: boolean },
): string {
  if (manner === 'struck') return `${printVerb('strikes', 'strike', form)} ${listed(notes)}`;
  if (manner === 'held') return `${printVerb('holds', 'hold', form)} ${listed(notes)}`;
  if (quantity === 'any') return `${printHave(form)} ${said(notes.map(printNoteName), 'or')}`;
  const before = { all: '', only: 'only ', none: 'no ' }[quantity];
  return `${printHave(form)} ${before}${listed(notes)}`;
}

/** Which notes sound: claims A1 and A2 of the trade, spelled names compared, never keys of the keyboard. */
export const contentFamily = family<Span, Content>({
  name: 'notes',
  examples: [
    'bar 5 has C#',
    'bar 5 has only D F# A',
    'bar 5 has no F#',
    'bar 5 beat 3 strikes F#5',
    'bar 6 holds D4',
  ],
  phrases: [
    [have, complement],
    [verb('consists of', 'consist of'), content('only')],
    [verb('strikes', 'strike'), content('all', 'struck')],
    [verb('holds', 'hold'), content('all', 'held')],
  ],
  aspects: [[word('notes', 'pitches'), be, content('only')]],
  print: printContent,
  check: (span, says, context, make) => {
    const asked = { span, says, context, make, notes: notesOf(span, says.manner, context) };
    switch (says.quantity) {
      case 'all':
        return checkAll(asked);
      case 'any':
        return checkAny(asked);
      case 'only':
        // Where nothing sounds there is nothing that is all of it.
        return silence<Span>(span.range, span.name, context) ?? checkOnly(asked);
      case 'none':
        return checkNone(asked);
    }
  },
});
