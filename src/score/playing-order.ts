import { endingsOf } from './bars.js';
import { mostPasses } from './bar-line.js';
import type { PlayedBar } from './model.js';
import type { VoiceBar } from './voice-reader.js';

/** Unfolds repeats and endings (ABC 2.1, sections 4.8 to 4.10) into the order in which the written bars are played. */
export function unfoldRepeats(bars: readonly VoiceBar[]): readonly PlayedBar[] {
  const endings = endingsOf(bars);
  const order: PlayedBar[] = [];
  const played = new Map<number, number>();
  let sectionStart = 0;
  let pass = 1;
  let at = 0;
  const lastPass = mostPasses;
  while (at < bars.length) {
    const bar = bars[at];
    if (bar === undefined) break;
    const ending = endings[at];
    if (bar.opening.some(line => line.startsRepeat) && sectionStart !== at) {
      sectionStart = at;
      pass = 1;
    }
    if (ending !== undefined && !ending.includes(pass)) {
      at += 1;
      continue;
    }
    const before = played.get(at) ?? 0;
    order.push({ bar: at, pass: before });
    played.set(at, before + 1);
    const times = bar.closing.reduce((most, line) => Math.max(most, line.times), 1);
    const timesHere = times > 1 && ending !== undefined ? Math.max(times, Math.max(...ending) + 1) : times;
    if (timesHere > 1 && pass < Math.min(timesHere, lastPass)) {
      pass += 1;
      at = sectionStart;
      continue;
    }
    at += 1;
    if (times > 1 && ending === undefined) {
      sectionStart = at;
      pass = 1;
    }
  }
  return order;
}
