/** A caption and when it is shown, in seconds of the lesson. */
export interface Caption {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** `01:02:03.456` or `02:03.456` (WebVTT, section 4.1: timestamp). */
function secondsOf(stamp: string): number {
  const parts = stamp.split(':').map(Number);
  return parts.reduce((sum, part) => sum * 60 + part, 0);
}

const entities: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  nbsp: '\u00a0',
  lrm: '\u200e',
  rlm: '\u200f',
};

/** Cue text without its tags and with its entities resolved (WebVTT, section 4.2.2: cue text). */
const plainText = (cue: string): string =>
  cue
    .replace(/<[^>]*>/g, '')
    .replace(/&(amp|lt|gt|nbsp|lrm|rlm);/g, (_, name: string) => entities[name] ?? '');

/** Reads the cues of a WebVTT text; notes, styles and regions are passed over. */
export function readCaptions(vtt: string): readonly Caption[] {
  return vtt.split(/\n{2,}/).flatMap((block): readonly Caption[] => {
    const lines = block.split('\n');
    const timing = lines.findIndex(line => line.includes('-->'));
    const match = /^\s*([\d:.]+)\s+-->\s+([\d:.]+)/.exec(lines[timing] ?? '');
    if (timing < 0 || timing > 1 || match === null) return [];
    const text = plainText(lines.slice(timing + 1).join('\n')).trim();
    return [{ start: secondsOf(match[1] ?? ''), end: secondsOf(match[2] ?? ''), text }];
  });
}

export const captionAt = (captions: readonly Caption[], at: number): Caption | undefined =>
  captions.findLast(({ start, end }) => start <= at && at < end);
