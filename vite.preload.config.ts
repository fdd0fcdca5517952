import { defineConfig } from 'vite';

/** Bundles the desktop shell's preload into the one CommonJS file that a sandboxed window can take. */
export default defineConfig({
  publicDir: false,
  build: {
    ssr: 'electron/preload.ts',
    outDir: 'dist/desktop',
    emptyOutDir: false,
    target: 'chrome130',
    minify: false,
    rolldownOptions: {
      treeshake: { moduleSideEffects: id => !id.includes('/src/') },
      output: { format: 'cjs', entryFileNames: 'preload.cjs' },
    },
  },
  ssr: { noExternal: true, external: ['electron'] },
});
