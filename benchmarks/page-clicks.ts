import { BasicSoundBank, SoundBankLoader } from 'spessasynth_core';

/** A click: 3 ms of 2 kHz that dies away, then a tenth of a second of silence; its first half-wave is the loudest. */
const clickSeconds = 0.003;
const clickHertz = 2000;
const clickRate = 44100;
/** A click is told from the end of the one before by so much silence, in seconds. */
const apart = 0.01;
/** A click has begun where it reaches a two-thousandth (-66 dB) of the loudest: soft notes are filtered as well as soft. Between clicks is nothing. */
const share = 0.0005;

/**
 * The page with every sample of its instrument replaced by a click, so that the ear of a program can tell to the millisecond when a note
 * begins, which the soft attack of a piano does not let it. Everything else of the page stays as it is.
 */
export async function withClicks(html: string): Promise<string> {
  const block = /(id="bank">)([^<]*)/.exec(html);
  if (block === null) throw new Error('the page carries no instrument');
  await BasicSoundBank.isSF3DecoderReady;
  const bytes = Buffer.from(block[2] ?? '', 'base64');
  const bank = SoundBankLoader.fromArrayBuffer(
    bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length),
  );
  const click = new Float32Array(clickRate / 10);
  for (let at = 0; at < clickSeconds * clickRate; at++)
    click[at] =
      Math.cos((2 * Math.PI * clickHertz * at) / clickRate) * (1 - at / (clickSeconds * clickRate)) ** 2;
  for (const sample of bank.samples) {
    sample.setAudioData(click.slice(), clickRate);
    // A held note goes round in the silence.
    sample.loopStart = click.length - 64;
    sample.loopEnd = click.length - 1;
  }
  const written = Buffer.from(bank.writeSF2()).toString('base64');
  return html.replace(block[0], `${block[1]}${written}`);
}

/** When clicks begin, in seconds of the recording. */
export function clicksIn(samples: Float32Array, sampleRate: number): readonly number[] {
  const threshold = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0) * share;
  const clicks: number[] = [];
  let lastLoud = -Infinity;
  samples.forEach((sample, at) => {
    if (Math.abs(sample) <= threshold) return;
    if (at - lastLoud > apart * sampleRate) clicks.push(at / sampleRate);
    lastLoud = at;
  });
  return clicks;
}
