/**
 * Compares our loudness meter with an independent one, the open-source library libebur128 (Debian package `libebur128-1`, called from
 * `python3`): integrated loudness and true peak of WAV files. Run: npx tsx scripts/compare-with-libebur128.ts FILE.wav ...
 * Exits with 1 where they differ by more than 0.1 LU or 0.3 dB (the tolerances of EBU Tech 3341), or where a file misses `--loudness`
 * (LUFS) by more than 0.5 LU or passes -1 dBTP by more than the tolerance. Without files it compares signals of its own.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileChannels, measureLoudness, measureTruePeak, readWav } from '../src/sound/index.js';
import type { Mono } from '../src/sound/index.js';

interface Measured {
  readonly loudness: number;
  readonly truePeak: number;
}

/** Reads samples (32-bit floating point, one channel) and gives each of two channels the same; modes and results as in `ebur128.h`. */
const program = `
import ctypes, struct, sys
library = ctypes.CDLL('libebur128.so.1')
rate = int(sys.argv[1])
data = sys.stdin.buffer.read()
count = len(data) // 4
stereo = (ctypes.c_float * (2 * count))()
samples = struct.unpack('<%df' % count, data)
stereo[0::2] = samples
stereo[1::2] = samples
library.ebur128_init.restype = ctypes.c_void_p
mode_integrated, mode_true_peak = 1 << 2 | 1, 1 << 5 | 1 << 4 | 1
state = ctypes.c_void_p(library.ebur128_init(ctypes.c_uint(2), ctypes.c_ulong(rate), ctypes.c_int(mode_integrated | mode_true_peak)))
assert library.ebur128_add_frames_float(state, stereo, ctypes.c_size_t(count)) == 0
loudness, peak = ctypes.c_double(), ctypes.c_double()
assert library.ebur128_loudness_global(state, ctypes.byref(loudness)) == 0
assert library.ebur128_true_peak(state, ctypes.c_uint(0), ctypes.byref(peak)) == 0
print(loudness.value, peak.value)
`;

function measuredByLibrary({ samples, sampleRate }: Mono): Measured {
  const run = spawnSync('python3', ['-c', program, String(sampleRate)], {
    input: new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength),
    encoding: 'utf8',
    maxBuffer: 1 << 20,
  });
  if (run.status !== 0) throw new Error(`libebur128 could not be called: ${run.stderr.trim()}`);
  const [loudness, peak] = run.stdout.trim().split(' ').map(Number);
  return { loudness: loudness ?? NaN, truePeak: 20 * Math.log10(peak ?? NaN) };
}

function measuredByUs({ samples, sampleRate }: Mono): Measured {
  const channels = Array.from({ length: fileChannels }, () => samples);
  return { loudness: measureLoudness(channels, sampleRate), truePeak: measureTruePeak([samples]) };
}

/** A tone that comes and goes, over noise: loud and soft stretches for the gates, peaks between the samples. */
function ownSignal(frequency: number, sampleRate: number): Mono {
  let state = 1;
  const samples = Float32Array.from({ length: 20 * sampleRate }, (_, i) => {
    state = (state * 1_103_515_245 + 12_345) % 2 ** 31;
    const seconds = i / sampleRate;
    const level = 0.5 * Math.sin((Math.PI * seconds) / 20) ** 4;
    return level * Math.sin(2 * Math.PI * frequency * seconds + 0.7) + 0.002 * (state / 2 ** 30 - 1);
  });
  return { samples, sampleRate };
}

const words = process.argv.slice(2);
const at = words.indexOf('--loudness');
const wanted = at < 0 ? undefined : Number(words[at + 1]);
const files = words.filter((_, index) => at < 0 || (index !== at && index !== at + 1));
const sounds: readonly (readonly [string, Mono])[] =
  files.length > 0
    ? files.map(file => [file, readWav(readFileSync(file))])
    : [200, 997, 3456, 9000].map(frequency => [
        `a tone of ${String(frequency)} Hz over noise`,
        ownSignal(frequency, 48_000),
      ]);

let isGood = true;
for (const [name, sound] of sounds) {
  const [ours, theirs] = [measuredByUs(sound), measuredByLibrary(sound)];
  const same =
    Math.abs(ours.loudness - theirs.loudness) <= 0.1 && Math.abs(ours.truePeak - theirs.truePeak) <= 0.3;
  const met =
    wanted === undefined || (Math.abs(theirs.loudness - wanted) <= 0.5 && theirs.truePeak <= -1 + 0.3);
  isGood &&= same && met;
  const text = ({ loudness, truePeak }: Measured) =>
    `${loudness.toFixed(2)} LUFS ${truePeak.toFixed(2)} dBTP`;
  console.log(`${name}: ours ${text(ours)}, libebur128 ${text(theirs)}${same && met ? '' : '  DIFFERS'}`);
}
process.exitCode = isGood ? 0 : 1;
