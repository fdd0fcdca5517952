import { defineConfig } from 'vite';
import { engraverWithoutInlineStyles } from './vite.engraver.js';

/** Bundles src/studio, the workshop's window, into files that its host serves from one origin. */
export default defineConfig({
  root: 'src/studio',
  base: '/',
  plugins: [engraverWithoutInlineStyles()],
  publicDir: false,
  worker: { format: 'es' },
  build: {
    outDir: '../../dist/studio',
    emptyOutDir: true,
    target: 'es2022',
    // The window's policy lets no script and no worker come out of a data address.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    chunkSizeWarningLimit: 4000,
  },
});
