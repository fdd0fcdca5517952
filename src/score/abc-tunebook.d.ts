/** The part of abcjs that reads music; the package's types describe it as a whole only. */
declare module 'abcjs/src/api/abc_tunebook.js' {
  import type { AbcVisualParams, TuneObjectArray } from 'abcjs';

  const tunebook: { readonly parseOnly: (abc: string, params?: AbcVisualParams) => TuneObjectArray };
  export default tunebook;
}
