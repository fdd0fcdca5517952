import type { Page } from 'playwright-core';

/** What was heard and seen while the page played. */
export interface Heard {
  readonly samples: Float32Array;
  readonly sampleRate: number;
  /** When a second of `samples` left the loudspeaker, on the page's clock in milliseconds. */
  readonly heardAt: (second: number) => number;
  /** When the screen showed newly marked notes, on the same clock. */
  readonly marks: readonly number[];
  /** Lengths of tasks over 50 ms, in milliseconds. */
  readonly longTasks: readonly number[];
}

export interface Listener {
  /** Presses play, listens for so many seconds, presses pause. */
  readonly play: (seconds: number) => Promise<Heard>;
}

interface Recording {
  context?: AudioContext;
  /** What sounded before this frame of the context belongs to an earlier recording; its blocks may come late. */
  since: number;
  /** `first` is the frame of the context that a block begins with. */
  blocks: { readonly first: number; readonly samples: number[] }[];
  clock: { readonly contextTime: number; readonly performanceTime: number }[];
  marks: number[];
  longTasks: number[];
}

/**
 * Runs in the page before its own program: whatever goes to the loudspeakers is also recorded, with the context time at which it
 * goes there, and the moment after each frame that shows new marks is noted.
 */
function install(): void {
  const recording: Recording = { since: 0, blocks: [], clock: [], marks: [], longTasks: [] };
  Object.assign(globalThis, { recording });
  const size = 1024;
  const silent = 1e-6;
  const connect = AudioNode.prototype.connect as (...args: unknown[]) => unknown;
  const tap = (context: AudioContext): AudioNode => {
    // Blocks may be lost and carry no reliable time, so a second channel counts the frames: each sample is its own number.
    const unit = 2 ** 23;
    const counter = new AudioBuffer({ length: 180 * context.sampleRate, sampleRate: context.sampleRate });
    const numbers = counter.getChannelData(0);
    for (let frame = 0; frame < numbers.length; frame++) numbers[frame] = frame / unit;
    const count = new AudioBufferSourceNode(context, { buffer: counter, loop: true });
    const both = new ChannelMergerNode(context, { numberOfInputs: 2 });
    const node = context.createScriptProcessor(size, 2, 1);
    node.onaudioprocess = event => {
      const numbered = event.inputBuffer.getChannelData(1);
      const counted = Math.round((numbered[0] ?? 0) * unit);
      // A block that comes to a late page may have been written over in the middle.
      if (Math.round((numbered[size - 1] ?? 0) * unit) - counted !== size - 1) return;
      // The count begins anew every three minutes.
      const rounds = Math.round((context.currentTime * context.sampleRate - counted) / counter.length);
      const first = counted + rounds * counter.length;
      if (first < recording.since) return;
      const samples = event.inputBuffer.getChannelData(0);
      // What is silent need not be carried out of the page.
      if (samples.some(sample => Math.abs(sample) > silent))
        recording.blocks.push({ first, samples: [...samples] });
      const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp();
      // Until the device has begun, both are 0.
      if (performanceTime > 0) recording.clock.push({ contextTime, performanceTime });
    };
    connect.call(count, both, 0, 1);
    connect.call(both, node);
    connect.call(node, context.destination);
    const soon = Math.ceil((context.currentTime + 0.05) * context.sampleRate) / context.sampleRate;
    count.start(soon, soon);
    return both;
  };
  let recorder: AudioNode | undefined;
  AudioNode.prototype.connect = function (this: AudioNode, ...args: unknown[]): AudioNode {
    if (args[0] instanceof AudioDestinationNode && this.context instanceof AudioContext) {
      recording.context = this.context;
      recorder ??= tap(this.context);
      connect.call(this, recorder, 0, 0);
    }
    return connect.apply(this, args) as AudioNode;
  } as typeof connect as AudioNode['connect'];

  new MutationObserver(records => {
    const added = records.some(
      ({ target, oldValue }) =>
        target instanceof Element &&
        target.classList.contains('sounding') &&
        !(oldValue ?? '').includes('sounding'),
    );
    if (!added) return;
    // Marks change in the callback of a frame; a task queued from there runs when that frame has been drawn.
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => recording.marks.push(performance.now());
    port2.postMessage(undefined);
  }).observe(document, {
    subtree: true,
    attributes: true,
    attributeFilter: ['class'],
    attributeOldValue: true,
  });
  new PerformanceObserver(list => {
    recording.longTasks.push(...list.getEntries().map(entry => entry.duration));
  }).observe({ type: 'longtask' });
}

/** How long after a stop nothing is heard any more, in milliseconds. */
const fadedAfter = 200;

/** Makes the page record itself. To be called before the page is opened. */
export async function listenIn(page: Page): Promise<Listener> {
  // The runner of this script names functions by a helper of its own, which the page does not have.
  await page.addInitScript('globalThis.__name = value => value');
  await page.addInitScript(install);
  return {
    play: async seconds => {
      await page.evaluate(() => {
        const { recording } = globalThis as unknown as { recording: Recording };
        const { currentTime = 0, sampleRate = 0 } = recording.context ?? {};
        const since = currentTime * sampleRate;
        Object.assign(recording, { since, blocks: [], clock: [], marks: [], longTasks: [] });
      });
      await page.locator('.transport-play').click();
      await page.waitForTimeout(seconds * 1000 + 600);
      if ((await page.locator('.transport-play').textContent()) === 'Pause')
        await page.locator('.transport-play').click();
      // A click that falls into the fade of the stop is faint, and must be over before the next recording.
      await page.waitForTimeout(fadedAfter);
      const { blocks, clock, marks, longTasks, sampleRate } = await page.evaluate(() => {
        const { recording } = globalThis as unknown as { recording: Recording };
        return { ...recording, sampleRate: recording.context?.sampleRate ?? 0, context: undefined };
      });
      const begin = blocks[0]?.first ?? 0;
      const samples = new Float32Array(Math.ceil((seconds + 3) * sampleRate));
      for (const block of blocks) {
        const at = block.first - begin;
        if (at >= 0 && at + block.samples.length <= samples.length) samples.set(block.samples, at);
      }
      return {
        samples,
        sampleRate,
        marks,
        longTasks,
        heardAt: second => {
          const contextTime = begin / sampleRate + second;
          const nearest = clock.reduce((best, one) =>
            Math.abs(one.contextTime - contextTime) < Math.abs(best.contextTime - contextTime) ? one : best,
          );
          return nearest.performanceTime + (contextTime - nearest.contextTime) * 1000;
        },
      };
    },
  };
}
