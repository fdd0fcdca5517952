import { nearestWord } from '../diagnostics/index.js';
import type { ClaimEntry, Located } from './model.js';
import { isFaulty, isNothing, readFields, report } from './fields.js';
import type { Reading } from './fields.js';
import { ClaimSchema, claimShape } from './schema.js';
import { describeTree, plainOf } from './tree.js';
import type { Scalar, Tree } from './tree.js';

/** A text of the lesson with its place. */
export const located = (scalar: Scalar): Located<string> => ({ value: scalar.written, span: scalar.span });

/** Reads a claim as a sentence or as `{ claim, accept }`. */
export function readClaim(reading: Reading, tree: Tree, path: string, step: number): ClaimEntry | undefined {
  if (
    tree.kind === 'mapping' &&
    [...tree.entries.keys()].some(key => nearestWord(key, Object.keys(claimShape)))
  ) {
    readFields(reading, claimShape, tree);
    const claim = tree.entries.get('claim')?.value;
    const accept = tree.entries.get('accept')?.value;
    const entry = claim === undefined ? undefined : sentence(claim, path, step);
    const reason = accept === undefined ? undefined : reasonIn(reading, accept);
    return entry === undefined || reason === undefined ? entry : { ...entry, accept: reason };
  }
  if (isNothing(tree)) {
    report(reading, {
      code: 'L0103',
      severity: 'error',
      message: 'a claim is missing here',
      span: tree.span,
      help: 'write one sentence, such as `bar 3 is V7/V`',
    });
    return undefined;
  }
  if (!ClaimSchema.safeParse(plainOf(tree)).success) {
    const help =
      tree.kind === 'mapping'
        ? 'a colon with a space after it makes a mapping: put the whole claim in double quotes'
        : 'write one sentence, such as `bar 3 is V7/V`';
    report(reading, {
      code: 'L0103',
      severity: 'error',
      message: `a claim is a sentence or \`{ claim: ..., accept: ... }\`, not ${describeTree(tree)}`,
      span: tree.span,
      help,
    });
  }
  return sentence(tree, path, step);
}

function sentence(tree: Tree, path: string, step: number): ClaimEntry | undefined {
  if (tree.kind !== 'scalar' || typeof tree.value !== 'string' || tree.value.trim() === '') return undefined;
  const lead = tree.value.length - tree.value.trimStart().length;
  const text = tree.value.trim();
  return { path, text, span: tree.span, offsets: tree.offsets().slice(lead, lead + text.length + 1), step };
}

/**
 * The author's reason for setting a verdict aside. It has to say something: one word, or none, is a placeholder, and sets nothing aside;
 * neither does what YAML could not read.
 */
function reasonIn(reading: Reading, tree: Tree): Located<string> | undefined {
  if (tree.kind !== 'scalar' || typeof tree.value !== 'string' || isFaulty(reading, tree.span))
    return undefined;
  const reason = located(tree);
  if (reason.value.trim().split(/\s+/).length > 1) return reason;
  report(reading, {
    code: 'L0401',
    severity: 'error',
    message: 'a verdict is set aside without a reason',
    span: reason.span,
    help: 'say in a few words why the claim stands all the same',
  });
  return undefined;
}
