export type { Diagnostic, Result, Severity, Span } from './model.js';
export { sourceText, placeOf, offsetOf, lineText } from './source-text.js';
export type { SourceText, Place } from './source-text.js';
export { catalogue, lookUpCode } from './catalogue/index.js';
export type { Code } from './catalogue/index.js';
export type { CatalogueEntry } from './catalogue/entry.js';
