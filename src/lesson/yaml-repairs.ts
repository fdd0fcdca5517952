import { parseDocument, visit } from 'yaml';
import type { Document, YAMLError } from 'yaml';
import type { Diagnostic, SourceText } from '../diagnostics/index.js';
import { isUnclosed, yamlFault } from './yaml-fault.js';
import type { YamlFault } from './yaml-fault.js';

/** Repairs end after this many lines, or once the parser has reported this many errors on the way. */
const maximumRepairs = 25;
const maximumErrors = 20_000;

/**
 * A text that begins with a bracket or an open quotation mark makes the parser lose its way for the rest of the file.
 * Such a value is reported, overwritten with harmless letters of the same length, and the lesson is parsed again, so
 * that what follows is read and every offset stays what it was.
 */
export function parseWithRepairs(source: SourceText): {
  readonly document: Document.Parsed;
  readonly diagnostics: readonly Diagnostic[];
} {
  const diagnostics: Diagnostic[] = [];
  let { text } = source;
  let errors = 0;
  for (let repairs = 0; ; repairs++) {
    // The parser's own check for duplicate keys takes quadratic time; `convert` does it with a map.
    const document: Document.Parsed = parseDocument(text, {
      keepSourceTokens: true,
      uniqueKeys: false,
      prettyErrors: false,
      resolveKnownTags: false,
      logLevel: 'error',
    });
    errors += document.errors.length;
    const mayRepair = repairs < maximumRepairs && errors <= maximumErrors;
    const found: YamlFault[] = [];
    for (const error of untilLost(source, [...document.errors, ...document.warnings])) {
      const fault = yamlFault(source, error, unclosedBefore(document, error));
      found.push(fault);
      if (mayRepair && fault.repair !== undefined) break;
    }
    const last = found.at(-1);
    if (!mayRepair || last?.repair === undefined) {
      return { document, diagnostics: [...diagnostics, ...found.map(({ diagnostic }) => diagnostic)] };
    }
    // Errors on other lines turn up again in the next round.
    diagnostics.push(last.diagnostic);
    const { start, text: harmless } = last.repair;
    text = text.slice(0, start) + harmless + text.slice(start + harmless.length);
  }
}

/** Whether the parser stumbles a second time on a line, over a key on the next one that is right. */
const isConsequence = (source: SourceText, error: YAMLError, before: YAMLError | undefined): boolean =>
  error.code === 'BLOCK_AS_IMPLICIT_KEY' &&
  before !== undefined &&
  !source.text.slice(before.pos[0], error.pos[0]).includes('\n');

/**
 * The errors up to the one after which the parser no longer knows where it is; what it says then is about itself.
 * Tabs are tabs wherever they stand.
 */
function untilLost(source: SourceText, errors: readonly YAMLError[]): readonly YAMLError[] {
  const sorted = [...errors]
    .sort((a, b) => a.pos[0] - b.pos[0])
    .filter((error, index, all) => !isConsequence(source, error, all[index - 1]));
  const lost = sorted.findIndex(
    error => error.code === 'UNEXPECTED_TOKEN' || error.code === 'BLOCK_AS_IMPLICIT_KEY' || isUnclosed(error),
  );
  return lost < 0 ? sorted : sorted.filter(({ code }, index) => index <= lost || code === 'TAB_AS_INDENT');
}

/** Where the quotation mark or bracket stands whose end the parser misses. */
function unclosedBefore(document: Document.Parsed, error: YAMLError): number | undefined {
  if (!isUnclosed(error)) return undefined;
  let found: number | undefined;
  const remember = (start: number | undefined): void => {
    if (start !== undefined && start < error.pos[0]) found = start;
  };
  visit(document, {
    Scalar(_, node) {
      if (node.type?.startsWith('QUOTE')) remember(node.range?.[0]);
    },
    Collection(_, node) {
      if (node.flow === true) remember(node.range?.[0]);
    },
  });
  return found;
}
