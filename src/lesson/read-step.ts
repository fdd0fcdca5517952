import type { Span } from '../diagnostics/index.js';
import { asList, asMapping, readFields, report } from './fields.js';
import type { Reading } from './fields.js';
import { readHome } from './home.js';
import type { Action, ClaimEntry, Step } from './model.js';
import { barsAt, playing, readAction, readSay, textAt } from './read-action.js';
import { readClaim } from './read-claim.js';
import { stepShape } from './schema.js';
import type { Mapping, Tree } from './tree.js';

export interface StepWithClaims {
  readonly step: Step;
  readonly claims: readonly ClaimEntry[];
}

/** Reads one step; what is wrong in it is reported and left out, the rest is kept. */
export function readStep(reading: Reading, tree: Tree, index: number): StepWithClaims | undefined {
  const mapping = asMapping(reading, 'steps', tree.span, tree, '- title: Settling into G');
  if (mapping === undefined) return undefined;
  const path = `steps/${index}`;
  const values = readFields(reading, stepShape, mapping, ['script', 'claims']);
  const barsTree = mapping.entries.get('bars')?.value;
  const bars = barsTree === undefined ? undefined : barsAt(reading, barsTree);
  const home = values.home === undefined ? undefined : readHome(values.home);

  const script = readScript(reading, mapping, index);
  const say = textAt(mapping, 'say');
  const sayEntry = mapping.entries.get('say');
  if (sayEntry !== undefined && mapping.entries.has('script')) {
    report(reading, {
      code: 'L0109',
      severity: 'error',
      message: 'a step has `say` or `script`, and this one has both',
      span: sayEntry.key,
      help: 'move the words into the script: `- say: ...`',
    });
  }
  const short: readonly Action[] =
    say === undefined || script.length > 0
      ? []
      : [
          ...(bars === undefined ? [] : [playing(bars.span, bars)]),
          readSay(reading, say, `${index + 1}.1`, `${path}/say`, index),
        ];
  const actions = [...script, ...short];

  const claimsEntry = mapping.entries.get('claims');
  const claims =
    claimsEntry === undefined
      ? []
      : asList(reading, 'claims', claimsEntry.key, claimsEntry.value).flatMap((item, at) => {
          const claim = readClaim(reading, item, `${path}/claims/${at}`, index);
          return claim === undefined ? [] : [claim];
        });
  if (
    actions.length === 0 &&
    claims.length === 0 &&
    !mapping.entries.has('script') &&
    !mapping.entries.has('claims')
  ) {
    nothingInStep(reading, mapping);
  }
  return {
    step: {
      title: values.title ?? '',
      script: actions,
      show: values.show ?? [],
      span: mapping.span,
      ...(bars === undefined ? {} : { bars }),
      ...(home === undefined ? {} : { home }),
    },
    claims: [...claims, ...actions.flatMap(claimsOf)],
  };
}

function readScript(reading: Reading, mapping: Mapping, step: number): readonly Action[] {
  const entry = mapping.entries.get('script');
  if (entry === undefined) return [];
  const items = asList(reading, 'script', entry.key, entry.value);
  if (entry.value.kind === 'list' && items.length === 0) emptyList(reading, 'script', entry.value.span);
  const actions: Action[] = [];
  items.forEach((item, index) => {
    const before = (kind: Action['kind']): number => actions.filter(action => action.kind === kind).length;
    const action = readAction(reading, item, { step, path: `steps/${step}/script/${index}`, before });
    if (action !== undefined) actions.push(action);
  });
  return actions;
}

export function emptyList(reading: Reading, name: string, span: Span): void {
  report(reading, {
    code: 'L0107',
    severity: 'error',
    message: `\`${name}\` is empty`,
    span,
    help: 'add at least one item, each on a line of its own behind a dash',
  });
}

function nothingInStep(reading: Reading, mapping: Mapping): void {
  if (mapping.entries.has('say') || reading.faultyLines.size > 0) return;
  const [first] = mapping.entries.values();
  report(reading, {
    code: 'L0111',
    severity: 'warning',
    message: 'this step says, plays and claims nothing',
    span: first?.key ?? mapping.span,
    help: 'add `say:`, `script:` or `claims:`',
  });
}

function claimsOf(action: Action): readonly ClaimEntry[] {
  switch (action.kind) {
    case 'say':
      return action.claims.map(({ claim }) => claim);
    case 'ask':
      return action.because === undefined ? [] : [action.because];
    case 'play':
    case 'wait':
      return [];
  }
}
