import { html } from '../player/index.js';
import { askUser } from './ask-user.js';

/** What the keys and the pointer do, pane by pane. */
const panes: readonly (readonly [string, readonly (readonly [string, string])[]])[] = [
  ['Everywhere', [['Ctrl+S, ⌘S', 'save']]],
  [
    'Text',
    [
      ['Ctrl+Space', 'what can stand at the cursor'],
      ['F4, Shift+F4', 'next claim, claim before; its notes are marked in the score'],
      ['F8', 'next finding'],
      ['F9', 'write what is proposed for the line of the cursor, as “write: bar 3 is V7”'],
      ['Ctrl+F', 'find'],
      ['Ctrl+Z, Ctrl+Y', 'undo, redo; what came from the disk is taken back in one'],
      ['Escape, then Tab', 'leave the text; Tab alone indents'],
    ],
  ],
  [
    'Score',
    [
      [
        'press or drag',
        'choose bars; they are written where the text awaits a bar, as behind “bars:” or “bar”',
      ],
      ['arrow keys, Home, End', 'choose a bar; with Shift several'],
      ['Enter', 'write the number of the chosen bars at the cursor of the text'],
      ['Escape', 'choose none'],
      ['a sentence below', 'write the claim into the step at the cursor, or where a claim is awaited'],
    ],
  ],
  [
    'Verdicts',
    [
      ['press', 'go to the claim in the text'],
      ['“write: …”', 'write that sentence in the place of the claim'],
      ['boxes', 'leave out a kind of verdict'],
    ],
  ],
];

/** Shows what can be done with keys and pointer. */
export async function showHelp(version: string): Promise<void> {
  await askUser(
    'Keys and pointer',
    [
      ...panes.flatMap(([pane, does]) => [
        html('h3', {}, pane),
        html(
          'dl',
          { class: 'keys' },
          ...does.flatMap(([how, what]) => [html('dt', {}, how), html('dd', {}, what)]),
        ),
      ]),
      html(
        'p',
        { class: 'quiet' },
        `Barwise ${version}. A code such as C0001 is explained by “barwise explain C0001”.`,
      ),
    ],
    [['close', 'Close']],
  );
}
