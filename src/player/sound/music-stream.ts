import type { Timeline } from '../../timeline/index.js';
import type { Block, Instrument } from './instrument.js';
import { passagesBetween } from './passages.js';
import { isNear, pause, playAt, type Run } from './run.js';

function bufferOf({ left, right }: Block, sampleRate: number): AudioBuffer {
  const buffer = new AudioBuffer({ length: left.length, numberOfChannels: 2, sampleRate });
  buffer.copyToChannel(left, 0);
  buffer.copyToChannel(right, 1);
  return buffer;
}

/** Renders the music of a run block by block, a little ahead of what is heard, giving way between the blocks. */
export async function streamMusic(run: Run, timeline: Timeline, instrument: Instrument): Promise<void> {
  const { sampleRate } = run.context;
  for (const passage of passagesBetween(timeline, run.from, run.until)) {
    // Blocks join without a seam only on whole frames.
    let when = Math.round((run.zero + passage.start - run.from) * sampleRate) / sampleRate;
    if (!(await isNear(run, when))) return;
    for (const block of instrument.render(passage)) {
      if (!(await isNear(run, when))) return;
      playAt(run, bufferOf(block, sampleRate), run.music, when, 0);
      when += block.left.length / sampleRate;
      await pause(0);
    }
  }
}
