import {
  chosenFamilies,
  extremeFamilies,
  keyFamilies,
  lineFamilies,
  noteFamilies,
  pairFamilies,
  rankedFamilies,
  sectionFamilies,
  spanFamilies,
  thingFamilies,
  toneFamilies,
  tonePairFamilies,
} from './families/index.js';
import { ordinalExample } from './quantity/ordinal.js';
import { quantifiedExamples } from './quantity/quantified.js';
import { versionExamples } from './versions/version-claims.js';

const families: readonly { readonly name: string; readonly examples: readonly string[] }[] = [
  ...spanFamilies,
  ...sectionFamilies,
  ...lineFamilies,
  ...pairFamilies,
  ...noteFamilies,
  ...extremeFamilies,
  ...thingFamilies,
  ...chosenFamilies,
  ...rankedFamilies,
  ...toneFamilies,
  ...tonePairFamilies,
  ...keyFamilies,
];

/** Every sentence that is given as an example of what can be checked. */
export const exampleSentences: readonly string[] = [
  ...families.flatMap(family => family.examples),
  ...quantifiedExamples,
  ordinalExample,
  ...versionExamples,
];

/** Names of the families, for the test that the reference has an example of each. */
export const exampleFamilies: readonly string[] = families.map(family => family.name);
