import { isMap, isScalar, isSeq, parseDocument, stringify } from 'yaml';
import type { Pair, YAMLMap } from 'yaml';
import { yamlPlace } from './yaml-place.js';

/** A change of the text; the cursor comes to stand at `cursor`, an offset of the new text. */
export interface Edit {
  readonly from: number;
  readonly to: number;
  readonly insert: string;
  readonly cursor: number;
}

const written = (from: number, insert: string, behind = insert.length): Edit => ({
  from,
  to: from,
  insert,
  cursor: from + behind,
});

/** A sentence as an item of a block list or a value: in quotes only where YAML would read it otherwise. */
const plain = (sentence: string): string => stringify(sentence, { lineWidth: 0 }).trimEnd();

/** A claim is awaited in the braces behind marked words, behind `claim:` and `because:`, and behind a dash of `claims:`. */
function awaited(text: string, cursor: number): 'raw' | 'value' | undefined {
  const lineEnd = text.indexOf('\n', cursor);
  const after = text.slice(cursor, lineEnd < 0 ? text.length : lineEnd).trim();
  const { path, what, written: begun } = yamlPlace(text.slice(0, cursor));
  const [last, before] = [path.at(-1), path.at(-2)];
  if (/\]\{\s*$/u.test(begun) && (after === '' || after.startsWith('}'))) return 'raw';
  if (begun !== '' || after !== '' || what === 'block text') return undefined;
  const isClaim = last === 'claim' || last === 'because' || (last === '-' && before === 'claims');
  return isClaim ? 'value' : undefined;
}

const lineEndFrom = (text: string, at: number): number => {
  const from = text[at - 1] === '\n' ? at - 1 : at;
  const end = text.indexOf('\n', from);
  return end < 0 ? text.length : end;
};
const columnOf = (text: string, at: number): number => at - (text.lastIndexOf('\n', at - 1) + 1);
const startOf = (node: unknown): number =>
  isScalar(node) || isMap(node) || isSeq(node) ? (node.range?.[0] ?? 0) : 0;
const endOf = (node: unknown): number =>
  isScalar(node) || isMap(node) || isSeq(node) ? (node.range?.[1] ?? 0) : 0;

/** The mapping of the step in which an offset lies; the last one before it where it lies between two. */
function stepAt(text: string, cursor: number): YAMLMap | undefined {
  const steps = parseDocument(text, { uniqueKeys: false }).get('steps');
  if (!isSeq(steps)) return undefined;
  const maps = steps.items.filter(isMap);
  return maps.findLast(map => startOf(map) <= cursor) ?? maps[0];
}

/**
 * Writes a claim into a lesson: at the cursor where a claim is awaited there, else at the end of the claims of the step in which the cursor
 * stands, else, in a text without steps, at the cursor as it is.
 */
export function putClaim(text: string, cursor: number, sentence: string): Edit {
  const waiting = awaited(text, cursor);
  if (waiting === 'raw') return written(cursor, sentence);
  if (waiting === 'value')
    return written(cursor, `${/\s$/u.test(text.slice(0, cursor)) ? '' : ' '}${plain(sentence)}`);
  const step = stepAt(text, cursor);
  const last = step?.items.at(-1);
  if (step === undefined || last === undefined || step.flow === true) return written(cursor, sentence);
  const known = step.items.find((pair): pair is Pair => isScalar(pair.key) && pair.key.value === 'claims');
  const indent = ' '.repeat(columnOf(text, startOf(step.items[0]?.key)));
  if (known === undefined) {
    const value = endOf(last.value) === 0 ? endOf(last.key) : endOf(last.value);
    return written(lineEndFrom(text, value), `\n${indent}claims:\n${indent}  - ${plain(sentence)}`);
  }
  const list = known.value;
  if (isSeq(list) && list.flow === true) {
    const close = endOf(list) - 1;
    return written(close, `${list.items.length === 0 ? '' : ', '}${JSON.stringify(sentence)}`);
  }
  const item = isSeq(list) ? list.items.at(-1) : undefined;
  if (!isSeq(list) || item === undefined)
    return written(lineEndFrom(text, endOf(known.key)), `\n${indent}  - ${plain(sentence)}`);
  const dash = ' '.repeat(columnOf(text, startOf(list)));
  return written(lineEndFrom(text, Math.max(endOf(item), startOf(item))), `\n${dash}- ${plain(sentence)}`);
}
