/** What runs on the thread of the sound: it hands on what comes in, block by block, and is silent itself. */

/** Samples that are handed on at a time: a fiftieth of a second, as quick as a meter moves. */
const blockLength = 1024;

/** What a worklet finds there (Web Audio API, 1.32); the libraries of TypeScript do not know it. */
declare abstract class AudioWorkletProcessor {
  readonly port: MessagePort;
  abstract process(inputs: readonly (readonly Float32Array[])[]): boolean;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;

class Recorder extends AudioWorkletProcessor {
  private block = new Float32Array(blockLength);
  private filled = 0;

  process([input]: readonly (readonly Float32Array[])[]): boolean {
    const samples = input?.[0];
    if (samples === undefined) return true;
    for (let at = 0; at < samples.length;) {
      const part = samples.subarray(at, at + blockLength - this.filled);
      this.block.set(part, this.filled);
      at += part.length;
      this.filled += part.length;
      if (this.filled < blockLength) continue;
      this.port.postMessage(this.block, [this.block.buffer]);
      this.block = new Float32Array(blockLength);
      this.filled = 0;
    }
    return true;
  }
}

registerProcessor('recorder', Recorder);
