import { backgroundOf } from './background.js';
import { levelOf } from './level.js';
import { oversOf } from './overs.js';
import { zoneFrom } from './peak-meter.js';
import { inSeconds } from './seconds.js';
import type { Stretch } from './stretch.js';

/** What is to be said of a recording, and what helps. */
export interface Remark {
  readonly kind: 'silent' | 'clipped' | 'loud' | 'soft' | 'noisy';
  readonly words: string;
}

export interface Judgement {
  readonly remarks: readonly Remark[];
  /** Where it is cut off at full scale, for the waveform. */
  readonly overs: readonly Stretch[];
}

/**
 * Speech stands so far above the room that pauses are told from words. A build counts a stretch as silent from 35 dB under the loud parts on
 * (src/sound/speech/pauses.ts); with less between them it finds neither the ends of a recording nor its pauses, and the words fall out of step.
 */
const leastDistance = 35;

const whole = (level: number): string => `${level < 0 ? '−' : ''}${String(Math.round(Math.abs(level)))}`;

/**
 * Judges a recording of narration, in samples between -1 and 1.
 * @param room what the microphone heard just before: nobody speaks there, while a short text may have no pause in itself
 */
export function judgeRecording(samples: Float32Array, room: Float32Array, sampleRate: number): Judgement {
  const { peak } = levelOf(samples);
  const overs = oversOf(samples, sampleRate);
  const { noise: softest, speech } = backgroundOf(samples, sampleRate);
  const noise = room.length === 0 ? softest : Math.min(softest, backgroundOf(room, sampleRate).noise);
  if (peak < zoneFrom.soft)
    return {
      overs,
      remarks: [
        {
          kind: 'silent',
          words: 'Nothing is heard. Is it the right microphone, and is it switched on?',
        },
      ],
    };
  const remarks: Remark[] = [];
  const [first] = overs;
  if (first !== undefined)
    remarks.push({
      kind: 'clipped',
      words: `Clipped ${overs.length === 1 ? 'once' : `${String(overs.length)} times`}, first at ${inSeconds(first.from)}. Turn the microphone down, or move back, and record it again.`,
    });
  else if (peak >= zoneFrom.over)
    remarks.push({
      kind: 'loud',
      words: `It reaches ${whole(peak)} dBFS, the very top. Turn the microphone down a little.`,
    });
  if (peak < zoneFrom.good)
    remarks.push({
      kind: 'soft',
      words: `It is soft: its peaks reach ${whole(peak)} dBFS. Come nearer, or turn the microphone up, until they reach ${whole(zoneFrom.good)} to ${whole(zoneFrom.loud)}.`,
    });
  if (speech - noise < leastDistance)
    remarks.push({
      kind: 'noisy',
      words: `The room is only ${whole(speech - noise)} dB under the voice, and ${String(leastDistance)} are needed to tell words from pauses. Come nearer, or find what hums.`,
    });
  return { overs, remarks };
}
