import { lineFamilies, spanFamilies } from './families/index.js';

/** Every sentence that the families give as an example. */
export const exampleSentences: readonly string[] = [...spanFamilies, ...lineFamilies].flatMap(
  family => family.examples,
);
