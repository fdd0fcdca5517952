import { inReadingOrder, placeOf } from '../diagnostics/index.js';
import type { Diagnostic, Result, SourceText } from '../diagnostics/index.js';
import { defaultConventions } from '../claims/index.js';
import type { Conventions } from '../claims/index.js';
import { asList, asMapping, isFaulty, maximumFindings, readFields, report } from './fields.js';
import type { Reading } from './fields.js';
import { readHome } from './home.js';
import type { ClaimEntry, Lesson, Narrator } from './model.js';
import { noteValue } from './note-value.js';
import { textAt } from './read-action.js';
import { located } from './read-claim.js';
import { readPacing, readSound } from './read-sound.js';
import { emptyList, readStep } from './read-step.js';
import { conventionsShape, lessonShape, narratorShape, spoken } from './schema.js';
import { describeTree } from './tree.js';
import type { Mapping } from './tree.js';
import { readTree } from './yaml.js';

const defaultNarrator: Narrator = { voice: 'built-in', pace: 150 };

/**
 * Reads a lesson, format 1. Goes on after the first error: everything that is wrong is reported, everything that could
 * be understood is in the lesson. The value is `undefined` where there is no lesson to speak of: no score or no home
 * key. Codes: L0001 to L0499.
 *
 * @example readLesson(sourceText('lamplight.yaml', text)).value?.claims
 */
export function readLesson(source: SourceText): Result<Lesson | undefined> {
  const tree = readTree(source);
  const faultyLines = new Set(
    tree.diagnostics.flatMap(({ span }) => (span === undefined ? [] : [placeOf(source, span.start).line])),
  );
  const reading: Reading = { source, faultyLines, diagnostics: tree.diagnostics.slice(0, maximumFindings) };
  const root = tree.value;
  if (root === undefined || (root.kind === 'scalar' && root.value === null)) {
    if (tree.diagnostics.length === 0) reading.diagnostics.push(emptyLesson(source));
    return { value: undefined, diagnostics: inOrder(reading) };
  }
  if (root.kind !== 'mapping') {
    report(reading, {
      code: 'L0108',
      severity: 'error',
      message: `a lesson is a mapping that begins with \`format: 1\`, not ${describeTree(root)}`,
      span: { source, start: root.span.start, end: root.span.end },
    });
    return { value: undefined, diagnostics: inOrder(reading) };
  }
  const value = readRoot(reading, root);
  return { value, diagnostics: inOrder(reading) };
}

function emptyLesson(source: SourceText): Diagnostic {
  return {
    code: 'L0107',
    severity: 'error',
    message: 'the lesson is empty',
    span: { source, start: 0, end: 0 },
    help: 'begin with `format: 1`, or let `barwise draft SCORE` write a first lesson',
  };
}

function readRoot(reading: Reading, root: Mapping): Lesson | undefined {
  const format = root.entries.get('format')?.value;
  if (format?.kind === 'scalar' && typeof format.value === 'number' && format.value !== 1) {
    report(reading, {
      code: 'L0106',
      severity: 'error',
      message: `the lesson has format ${format.written}, and this version reads format 1`,
      span: format.span,
      help: 'write `format: 1`, or read the lesson with the version that it was written for',
    });
    return undefined;
  }
  const values = readFields(reading, lessonShape, root, [
    'conventions',
    'narrator',
    'sound',
    'pacing',
    'lexicon',
    'steps',
  ]);
  const conventions = readConventions(reading, root);
  const narrator = readNarrator(reading, root);
  const lexicon = readLexicon(reading, root);
  const sound = readSound(reading, root);
  const pacing = readPacing(reading, root);

  const stepsEntry = root.entries.get('steps');
  const stepTrees =
    stepsEntry === undefined ? [] : asList(reading, 'steps', stepsEntry.key, stepsEntry.value);
  if (stepsEntry?.value.kind === 'list' && stepTrees.length === 0)
    emptyList(reading, 'steps', stepsEntry.value.span);
  const steps = stepTrees.flatMap((tree, index) => readStep(reading, tree, index) ?? []);
  const claims = steps
    .flatMap(step => step.claims)
    .filter(claim => !isFaulty(reading, claim.span))
    .sort(bySource);

  const score = textAt(root, 'score');
  const homeTree = textAt(root, 'home');
  const home = values.home === undefined ? undefined : readHome(values.home);
  if (score === undefined || homeTree === undefined || home === undefined) return undefined;
  return {
    source: reading.source,
    title: values.title ?? '',
    score: located(score),
    home: { value: home, span: homeTree.span },
    conventions,
    narrator,
    lexicon,
    steps: steps.map(({ step }) => step),
    claims,
    ...(values.author === undefined ? {} : { author: values.author }),
    ...(values.description === undefined ? {} : { description: values.description }),
    ...(sound === undefined ? {} : { sound }),
    ...(pacing === undefined ? {} : { pacing }),
    ...(values.beat === undefined ? {} : { beat: noteValue(values.beat) }),
    ...(values.tempo === undefined ? {} : { tempo: values.tempo }),
  };
}

function readConventions(reading: Reading, root: Mapping): Conventions {
  const entry = root.entries.get('conventions');
  if (entry === undefined) return defaultConventions;
  const mapping = asMapping(reading, 'conventions', entry.key, entry.value, '{ cadential: I64 }');
  return mapping === undefined
    ? defaultConventions
    : { ...defaultConventions, ...readFields(reading, conventionsShape, mapping) };
}

function readNarrator(reading: Reading, root: Mapping): Narrator {
  const entry = root.entries.get('narrator');
  if (entry === undefined) return defaultNarrator;
  const mapping = asMapping(reading, 'narrator', entry.key, entry.value, '{ pace: 150 }');
  return mapping === undefined
    ? defaultNarrator
    : { ...defaultNarrator, ...readFields(reading, narratorShape, mapping) };
}

function readLexicon(reading: Reading, root: Mapping): Readonly<Record<string, string>> {
  const entry = root.entries.get('lexicon');
  if (entry === undefined) return {};
  const mapping = asMapping(reading, 'lexicon', entry.key, entry.value, '{ Dvořák: Dvor-zhak }');
  if (mapping === undefined) return {};
  const shape = Object.fromEntries([...mapping.entries.keys()].map(written => [written, spoken]));
  readFields(reading, shape, mapping);
  return Object.fromEntries(
    [...mapping.entries.keys()].flatMap(written => {
      const form = textAt(mapping, written);
      return form === undefined ? [] : [[written, form.written]];
    }),
  );
}

const bySource = (a: ClaimEntry, b: ClaimEntry): number => a.span.start - b.span.start;

/** The findings in reading order; where there are too many, a last one says so. */
function inOrder({ source, diagnostics }: Reading): readonly Diagnostic[] {
  if (diagnostics.length < maximumFindings) return inReadingOrder(diagnostics, source.name);
  const end = source.text.length;
  const andMore: Diagnostic = {
    code: 'L0016',
    severity: 'note',
    message: `only ${maximumFindings} findings are shown, and there may be more`,
    span: { source, start: end, end },
    help: 'mend these first, then check again',
  };
  return inReadingOrder([...diagnostics, andMore], source.name);
}
