import type { Diagnostic, Span } from '../diagnostics/index.js';
import { didYouMean } from '../diagnostics/index.js';
import { isBackwards, readBarRange } from './bars.js';
import { readFields, report } from './fields.js';
import type { Reading } from './fields.js';
import type { Action, AskAction, BarRange, ClaimEntry, PlayAction, SayAction, WordsClaim } from './model.js';
import { readNarration } from './narration.js';
import { located, readClaim } from './read-claim.js';
import {
  askActionShape,
  playActionShape,
  playBars,
  playShape,
  sayActionShape,
  waitActionShape,
} from './schema.js';
import { describeTree, plainOf } from './tree.js';
import type { Mapping, Scalar, Tree } from './tree.js';
import { readWait } from './wait.js';

type ActionKind = Action['kind'];
const actionKinds: readonly ActionKind[] = ['play', 'say', 'wait', 'ask'];

/** Where an action stands: the index of its step, its path, and how many actions of each kind the step had before. */
export interface ActionPlace {
  readonly step: number;
  readonly path: string;
  readonly before: (kind: ActionKind) => number;
}

/** Reads one action of a script; `undefined` where it has no kind or lacks what its kind needs. */
export function readAction(reading: Reading, tree: Tree, place: ActionPlace): Action | undefined {
  const mapping = tree.kind === 'mapping' ? tree : undefined;
  const kinds = actionKinds.filter(kind => mapping?.entries.has(kind));
  const [kind] = kinds;
  if (mapping === undefined || kind === undefined || kinds.length > 1) {
    report(reading, kindFault(tree, kinds));
    return undefined;
  }
  // One count for both: what is spoken for an action is found by its id alone.
  const id = `${place.step + 1}.${place.before('say') + place.before('ask') + 1}`;
  switch (kind) {
    case 'play':
      return readPlay(reading, mapping);
    case 'say': {
      readFields(reading, sayActionShape, mapping);
      const words = textAt(mapping, 'say');
      return words === undefined ? undefined : readSay(reading, words, id, `${place.path}/say`, place.step);
    }
    case 'wait': {
      const { wait } = readFields(reading, waitActionShape, mapping);
      return wait === undefined ? undefined : { kind: 'wait', seconds: readWait(wait), span: mapping.span };
    }
    case 'ask':
      return readAsk(reading, mapping, id, place);
  }
}

function kindFault(tree: Tree, kinds: readonly ActionKind[]): Diagnostic {
  if (tree.kind === 'mapping' && kinds.length > 1) {
    const second = [...tree.entries].filter(([name]) => kinds.some(kind => kind === name))[1];
    return {
      code: 'L0110',
      severity: 'error',
      message: `an action does one thing, and this one has ${kinds.map(kind => `\`${kind}\``).join(' and ')}`,
      span: second?.[1].key ?? tree.span,
      help: 'put a dash before the second to make it an action of its own',
    };
  }
  const first = tree.kind === 'mapping' ? [...tree.entries][0] : undefined;
  const near = first === undefined ? undefined : didYouMean(first[0], actionKinds);
  return {
    code: 'L0110',
    severity: 'error',
    message:
      first === undefined
        ? `an action is \`play\`, \`say\`, \`wait\` or \`ask\` with a colon and a value, not ${describeTree(tree)}`
        : `\`${first[0]}\` is not an action`,
    span: first?.[1].key ?? tree.span,
    help: near ?? 'write `play`, `say`, `wait` or `ask`',
  };
}

/** The text after a key, where it is one. */
export function textAt(mapping: Mapping, key: string): Scalar | undefined {
  const value = mapping.entries.get(key)?.value;
  return value?.kind === 'scalar' && typeof value.value === 'string' && /\S/.test(value.value)
    ? value
    : undefined;
}

/** Reads the bars after a key whose value fits its schema; a range that runs backwards is reported and turned round. */
export function barsAt(reading: Reading, tree: Tree): BarRange | undefined {
  if (tree.kind !== 'scalar' || !playBars.safeParse(tree.value).success) return undefined;
  const range = readBarRange(tree.written);
  if (typeof tree.value === 'number' && /^0\d|\D/.test(tree.written)) {
    report(reading, {
      code: 'L0203',
      severity: 'error',
      message: `a bar number is written without leading zeros, points or exponents, and this is \`${tree.written}\``,
      span: tree.span,
      notes: ['some readers of YAML take a number with a leading zero for an octal one'],
      help: `write \`${String(tree.value)}\``,
    });
    return { first: String(tree.value), last: String(tree.value), span: tree.span };
  }
  if (!isBackwards(range)) return { ...range, span: tree.span };
  report(reading, {
    code: 'L0202',
    severity: 'error',
    message: `bars ${range.first}-${range.last} run backwards`,
    span: tree.span,
    help: `write \`${range.last}-${range.first}\``,
  });
  return { first: range.last, last: range.first, span: tree.span };
}

function readPlay(reading: Reading, mapping: Mapping): PlayAction | undefined {
  readFields(reading, playActionShape, mapping, ['play'], name =>
    Object.hasOwn(playShape, name) ? `put it inside: \`play: { bars: ..., ${name}: ... }\`` : undefined,
  );
  const play = mapping.entries.get('play');
  if (play === undefined) return undefined;
  if (play.value.kind !== 'mapping') {
    readFields(reading, { play: playBars }, { ...mapping, entries: new Map([['play', play]]) });
    const bars = barsAt(reading, play.value);
    return bars === undefined ? undefined : playing(mapping.span, bars);
  }
  const { as, tempo, times, loop, under } = readFields(reading, playShape, play.value);
  const barsTree = play.value.entries.get('bars')?.value;
  const bars = barsTree === undefined ? undefined : barsAt(reading, barsTree);
  if (bars === undefined) return undefined;
  const plain = playing(mapping.span, bars);
  const voice = textAt(play.value, 'voice');
  const score = textAt(play.value, 'score');
  return {
    ...plain,
    as: as ?? plain.as,
    tempo: tempo ?? plain.tempo,
    times: times ?? plain.times,
    under: under ?? plain.under,
    ...(loop === undefined ? {} : { loop }),
    ...(voice === undefined ? {} : { voice: located(voice) }),
    ...(score === undefined ? {} : { score: located(score) }),
  };
}

/** Bars played as written, once. */
export const playing = (span: Span, bars: BarRange): PlayAction => ({
  kind: 'play',
  bars,
  as: 'written',
  tempo: 100,
  times: 1,
  under: false,
  span,
});

/** Longest narration of one `say`, in UTF-16 units: about ten minutes of speech. */
const maximumNarration = 10_000;

/** Reads narration with the claims in it. */
export function readSay(reading: Reading, words: Scalar, id: string, path: string, step: number): SayAction {
  const { source } = reading;
  if (words.written.length > maximumNarration) {
    report(reading, {
      code: 'L0306',
      severity: 'error',
      message: `this narration has ${words.written.length} characters, more than the ${maximumNarration} that are read`,
      span: { ...words.span, end: words.span.start },
      help: 'break it into several `say`, with music between them',
    });
    return { kind: 'say', id, markdown: '', text: '', html: '', claims: [], span: words.span };
  }
  const inSource = words.offsets();
  const sourceOffset = (offset: number): number => inSource[offset] ?? words.span.end;
  const narration = readNarration(words.written, claim => `${path}/${claim}`);
  for (const { start, end, ...fault } of narration.faults) {
    report(reading, {
      ...fault,
      span: { source, start: sourceOffset(start), end: sourceOffset(end - 1) + 1 },
    });
  }
  const claims = narration.claims.flatMap((claim, index): readonly WordsClaim[] => {
    const offsets = claim.offsets.slice(0, -1).map(sourceOffset);
    const start = offsets[0] ?? sourceOffset(claim.offsets[0] ?? 0);
    const end = (offsets.at(-1) ?? start - 1) + 1;
    if (claim.text === '') {
      report(reading, {
        code: 'L0305',
        severity: 'error',
        message: 'the braces after these words hold no claim',
        span: { source, start, end: start + 1 },
        help: 'write one sentence in them, such as `{bar 3 is V7/V}`',
      });
      return [];
    }
    const entry: ClaimEntry = {
      path: `${path}/${index}`,
      text: claim.text,
      span: { source, start, end },
      offsets: [...offsets, end],
      step,
    };
    return [{ words: claim.words, from: claim.from, to: claim.to, claim: entry }];
  });
  return {
    kind: 'say',
    id,
    markdown: words.written,
    text: narration.text,
    html: narration.html,
    claims,
    span: words.span,
  };
}

function readAsk(reading: Reading, mapping: Mapping, id: string, place: ActionPlace): AskAction | undefined {
  readFields(reading, askActionShape, mapping, ['because']);
  const question = textAt(mapping, 'ask');
  const answerTree = mapping.entries.get('answer')?.value;
  const because = mapping.entries.get('because')?.value;
  const entry =
    because === undefined ? undefined : readClaim(reading, because, `${place.path}/because`, place.step);
  if (question === undefined || answerTree?.kind !== 'scalar') return undefined;

  const choicesTree = mapping.entries.get('choices')?.value;
  const choices =
    choicesTree?.kind === 'list'
      ? choicesTree.items.flatMap(item => (item.kind === 'scalar' ? [item.written] : []))
      : [];
  const answer = answerTree.written;
  if (choices.length > 0 && plainOf(answerTree) !== null && !choices.includes(answer)) {
    report(reading, {
      code: 'L0206',
      severity: 'error',
      message: `the answer \`${answer}\` is not one of the choices`,
      span: answerTree.span,
      help: didYouMean(answer, choices) ?? `choices: ${choices.map(choice => `\`${choice}\``).join(', ')}`,
    });
  }
  return {
    kind: 'ask',
    id,
    question: question.written,
    choices,
    answer,
    span: mapping.span,
    ...(entry === undefined ? {} : { because: entry }),
  };
}
