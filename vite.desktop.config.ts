import { defineConfig } from 'vite';
import { apart } from './vite.program.config.js';

/** Bundles the desktop shell's main process and its thread. */
export default defineConfig({
  publicDir: false,
  build: {
    ssr: true,
    outDir: 'dist/desktop',
    emptyOutDir: true,
    target: 'node22',
    minify: false,
    rolldownOptions: {
      input: { main: 'electron/main.ts', 'lesson-worker': 'src/workshop/bench/lesson-worker.ts' },
      treeshake: {
        moduleSideEffects: id => !id.includes('/src/') || id.endsWith('/bench/lesson-worker.ts'),
      },
      output: { entryFileNames: '[name].js', chunkFileNames: '[name].js' },
    },
  },
  ssr: { noExternal: true, external: [...apart, 'electron'] },
});
