import type { Diagnostic, Result } from '../diagnostics/index.js';
import type { InstrumentName, Lesson } from '../lesson/index.js';
import type { Score } from '../score/index.js';
import { demonstrationVoice } from './demonstration.js';
import { voiceNamed, voicesInWords } from './voice-named.js';

/** Which instrument plays: one for all voices, or some voices their own. */
export interface Instrumentation {
  readonly all: InstrumentName;
  /** By voice id. */
  readonly voices?: Readonly<Record<string, InstrumentName>>;
}

/**
 * The instruments of a lesson. Overlays of a voice play its instrument; demonstrations are played on the piano, whatever plays the
 * score, since its chords are the clearest. Finding T0006: an instrument for a voice that is not in the score.
 */
export function instrumentationOf(lesson: Lesson, score: Score): Result<Instrumentation> {
  const { sound } = lesson;
  if (sound === undefined) return { value: { all: 'piano' }, diagnostics: [] };
  const diagnostics: Diagnostic[] = [];
  const voices = new Map<string, InstrumentName>([[demonstrationVoice, 'piano']]);
  for (const { voice, instrument } of sound.voices) {
    const id = voiceNamed(score, voice.value);
    if (id === undefined) {
      diagnostics.push({
        code: 'T0006',
        severity: 'warning',
        message: `there is no voice \`${voice.value}\` in the score to play on the ${instrument}`,
        span: voice.span,
        help: voicesInWords(score),
      });
      continue;
    }
    for (const own of score.voices) if (own.id === id || own.overlayOf === id) voices.set(own.id, instrument);
  }
  return { value: { all: sound.instrument, voices: Object.fromEntries(voices) }, diagnostics };
}
