import type { NoteId } from '../score/index.js';
import type { NonChordTone, NonChordToneKind } from './model.js';
import type { Sound, Tone } from './sound.js';

/** Interval above the bass as figured bass counts it: compound intervals reduced, the ninth kept as 9. */
function figureAbove(bass: Tone, tone: Tone): number {
  const steps = tone.step - bass.step;
  const simple = ((steps % 7) + 7) % 7;
  return simple === 1 && steps > 7 ? 9 : simple + 1;
}

/** `4-3` from the suspended tone and its resolution over their basses; a suspension in the bass counts from the lowest upper tone. */
function suspensionFigure(
  tone: Tone,
  resolution: Tone,
  bass: Tone | undefined,
  upper: Tone | undefined,
): string | undefined {
  if (bass === undefined) return undefined;
  if (bass.index === tone.index) {
    if (upper === undefined) return undefined;
    const interval = (t: Tone): number => ((((upper.step - t.step) % 7) + 7) % 7) + 1;
    return `${interval(tone)}-${interval(resolution)}`;
  }
  const first = figureAbove(bass, tone);
  const second =
    first === 9 ? 8 : first === 2 && resolution.step < tone.step ? 1 : first + (resolution.step - tone.step);
  return `${first}-${second}`;
}

export interface ForeignContext {
  readonly sound: Sound;
  /** Start of the harmony in ticks. */
  readonly start: number;
  /** See `NonChordTone.accented`. */
  readonly accented: boolean;
  /** See `anticipates`. */
  readonly anticipates: boolean;
  readonly bass: Tone | undefined;
  readonly upper: Tone | undefined;
  readonly chromatic: boolean;
  /** A bass that stays, held or struck again, while the harmony moves over it. */
  readonly stays: boolean;
  /** Whether a tone belongs to the harmony at its own onset. */
  readonly isChordToneAtOnset: (tone: Tone) => boolean;
}

const isStep = (motion: Tone['approach']): boolean => motion === 'step up' || motion === 'step down';

/** What a prepared dissonance resolves to, and which way. */
interface Resolved {
  readonly to: Tone;
  readonly down: boolean;
}

/**
 * The step by which a prepared dissonance resolves, up or down, once it is struck for the last time. A resolution down may touch the tone above first,
 * no longer than the dissonance lasts: 4-5-3 is an ornamented 4-3 (common practice).
 */
function resolutionOf(
  tone: Tone,
  { sound, start, isChordToneAtOnset }: ForeignContext,
): Resolved | undefined {
  const nextOf = ({ next }: Tone): Tone | undefined => (next === undefined ? undefined : sound.tones[next]);
  let last = tone;
  for (let again = nextOf(last); again !== undefined && last.departure === 'same'; again = nextOf(last))
    last = again;
  const to = nextOf(last);
  if (to === undefined || !isStep(last.departure)) return undefined;
  if (last.departure === 'step down') return { to, down: true };
  const after = sound.tones.find(
    ({ index, voice, on }) => index > to.index && voice === to.voice && on >= to.off,
  );
  const isOrnament =
    after?.step === tone.step - 1 &&
    isChordToneAtOnset(after) &&
    to.off - to.on <= last.off - Math.max(tone.on, start);
  return isOrnament ? { to: after, down: true } : { to, down: false };
}

/**
 * Names a tone that is foreign to its harmony by its approach and departure (Hutchinson, Non-Chord Tones, table of types); `undefined`
 * where no type fits. Suspensions and retardations need preparation: the same pitch held or struck again from a chord tone.
 */
export function classify(tone: Tone, context: ForeignContext): NonChordTone | undefined {
  const { sound } = context;
  const previous = tone.previous === undefined ? undefined : sound.tones[tone.previous];
  const next = tone.next === undefined ? undefined : sound.tones[tone.next];
  const held = tone.on < context.start;
  const result = (kind: NonChordToneKind, extra: Partial<NonChordTone> = {}): NonChordTone => ({
    note: tone.notes[0] as NoteId,
    kind,
    accented: context.accented,
    chromatic: context.chromatic,
    ...(previous === undefined ? {} : { preparation: previous.notes[0] as NoteId }),
    ...(next === undefined ? {} : { resolution: next.notes[0] as NoteId }),
    ...extra,
  });
  if (context.stays) return result('pedal');
  const preparedHere = held
    ? context.isChordToneAtOnset(tone)
    : tone.approach === 'same' && previous !== undefined && context.isChordToneAtOnset(previous);
  const resolved = preparedHere ? resolutionOf(tone, context) : undefined;
  if (resolved !== undefined) {
    const figure = suspensionFigure(tone, resolved.to, context.bass, context.upper);
    return result(resolved.down ? 'suspension' : 'retardation', {
      resolution: resolved.to.notes[0] as NoteId,
      ...(held ? { preparation: tone.notes[0] as NoteId } : {}),
      ...(figure === undefined ? {} : { figure }),
    });
  }
  if (held && !isStep(tone.departure)) return result('pedal');
  if (isStep(tone.approach) && isStep(tone.departure))
    return result(tone.approach === tone.departure ? 'passing tone' : 'neighbour tone');
  if (context.anticipates && next !== undefined && context.isChordToneAtOnset(next))
    return result('anticipation');
  if (!isStep(tone.approach) && isStep(tone.departure)) {
    // A leap between two neighbours of the same goal: D - B - C around C.
    if (
      previous !== undefined &&
      previous.approach !== 'none' &&
      Math.abs(previous.midi - tone.midi) <= 4 &&
      next !== undefined &&
      (previous.midi - next.midi) * (tone.midi - next.midi) < 0 &&
      isStep(previous.approach)
    )
      return result('double neighbour');
    return result('appoggiatura');
  }
  if (isStep(tone.approach) && tone.departure === 'leap') return result('escape tone');
  if (tone.approach === 'same' && tone.departure === 'same') return result('pedal');
  return undefined;
}
