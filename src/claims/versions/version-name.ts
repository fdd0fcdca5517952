import type { Analysis } from '../../harmony/index.js';
import type { Judged } from '../claim.js';
import { shapes, token } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';

/** The score of another version, as the lesson names its file. */
export const versionName: Parser<string> = token({
  name: 'Version',
  label: 'another version in quotes, such as `"altered.abc"`',
  shape: shapes.inOrder(
    shapes.oneOf('"', '“'),
    shapes.oneOrMore(shapes.character('^"“”')),
    shapes.oneOf('"', '”'),
  ),
  value: matched => matched.slice(1, -1),
});

export const versionOf = (name: string, context: ClaimContext): Analysis | undefined =>
  context.versions !== undefined && Object.hasOwn(context.versions, name)
    ? context.versions[name]
    : undefined;

/** The finding for a version that the lesson does not load. */
export const unknownVersion = (name: string): Judged => ({
  verdict: 'undecided',
  code: 'C2004',
  reason: `the lesson has no version "${name}" of the piece`,
  evidence: [],
});
