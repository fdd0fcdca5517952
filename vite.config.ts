import { defineConfig } from 'vite';
import { engraverWithoutInlineStyles } from './vite.engraver.js';

/** Bundles src/player into one script and one style sheet with its fonts, for the walkthrough page. */
export default defineConfig({
  plugins: [engraverWithoutInlineStyles()],
  publicDir: false,
  build: {
    outDir: 'dist/player',
    emptyOutDir: true,
    target: 'es2022',
    lib: {
      entry: 'src/player/main.ts',
      name: 'barwise',
      formats: ['iife'],
      fileName: () => 'player.js',
      cssFileName: 'player',
    },
    assetsInlineLimit: 1_000_000,
    reportCompressedSize: false,
  },
});
