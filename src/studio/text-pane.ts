import { autocompletion, completionKeymap } from '@codemirror/autocomplete';
import type { CompletionContext, CompletionResult } from '@codemirror/autocomplete';
import {
  defaultKeymap,
  history,
  historyKeymap,
  indentWithTab,
  isolateHistory,
  undo,
} from '@codemirror/commands';
import { yaml } from '@codemirror/lang-yaml';
import { HighlightStyle, syntaxHighlighting } from '@codemirror/language';
import { lintGutter, lintKeymap, setDiagnostics } from '@codemirror/lint';
import { openSearchPanel, search, searchKeymap } from '@codemirror/search';
import { EditorState } from '@codemirror/state';
import type { Text } from '@codemirror/state';
import { EditorView, drawSelection, highlightActiveLine, keymap, lineNumbers } from '@codemirror/view';
import { tags } from '@lezer/highlight';
import type { Checked, Fix, TextClaim } from './checked.js';
import type { KnownScore } from './claim-words.js';
import { wordsAt } from './complete.js';
import { lineChanges } from './line-changes.js';
import { putBars } from './put-bars.js';
import type { LabelledBars } from './put-bars.js';
import { putClaim } from './put-claim.js';
import type { Edit } from './put-claim.js';
import { marksOf, mend, mendHere } from './text-marks.js';

export interface TextPane {
  readonly element: HTMLElement;
  readonly text: () => string;
  /** Another lesson: nothing of the former one can be brought back. */
  readonly setText: (text: string) => void;
  /** Other words for the same lesson; one undo brings the former ones back. */
  readonly changeText: (text: string) => void;
  readonly find: () => void;
  readonly insert: (words: string) => void;
  /** Writes bars where the text awaits their number; bars that are chosen at once thereafter take their place. */
  readonly putBars: (bars: LabelledBars) => void;
  /** Writes a claim at the cursor where one is awaited, else among the claims of the step. */
  readonly putClaim: (sentence: string) => void;
  /** Makes a change that was proposed with what is shown. */
  readonly mend: (fix: Fix) => void;
  readonly goTo: (from: number, to: number) => void;
  readonly show: (checked: Checked) => void;
}

export interface TextPaneHandlers {
  readonly edited: () => void;
  readonly moved: (at: number) => void;
  /** What is known of the score, for completion. */
  readonly score: () => KnownScore;
}

const ink = HighlightStyle.define([
  { tag: tags.propertyName, class: 'ink-key' },
  { tag: tags.comment, class: 'ink-comment' },
  { tag: [tags.string, tags.content], class: 'ink-text' },
  { tag: [tags.number, tags.bool], class: 'ink-number' },
  { tag: tags.punctuation, class: 'ink-sign' },
]);

/** The lesson's text with its findings. */
export function textPane(handlers: TextPaneHandlers, nonce: string): TextPane {
  const complete = (context: CompletionContext): CompletionResult | null => {
    const found = wordsAt(context.state.sliceDoc(0, context.pos), handlers.score());
    if (found === undefined || (found.words.length === 0 && !context.explicit)) return null;
    return {
      from: context.pos - found.typed,
      // In the order in which they were found: what is heard in the bar itself comes first.
      options: found.words.map(({ label, detail }) => ({
        label,
        ...(detail === undefined ? {} : { detail }),
      })),
      filter: false,
    };
  };
  const extensions = [
    EditorView.cspNonce.of(nonce),
    lineNumbers(),
    history(),
    drawSelection(),
    highlightActiveLine(),
    yaml(),
    syntaxHighlighting(ink),
    search({ top: true }),
    lintGutter(),
    autocompletion({ override: [complete], icons: false }),
    EditorView.lineWrapping,
    EditorView.contentAttributes.of({ 'aria-label': 'Text of the lesson', tabindex: '0' }),
    keymap.of([
      { key: 'F4', run: () => goToClaim(1) },
      { key: 'Shift-F4', run: () => goToClaim(-1) },
      { key: 'F9', run: mendHere },
      ...completionKeymap,
      ...searchKeymap,
      ...historyKeymap,
      ...lintKeymap,
      ...defaultKeymap,
      indentWithTab,
    ]),
    EditorView.updateListener.of(update => {
      if (update.docChanged) handlers.edited();
      if (update.selectionSet || update.docChanged) handlers.moved(update.state.selection.main.head);
    }),
  ];
  const start = (doc: string): EditorState => EditorState.create({ doc, extensions });
  const view = new EditorView({ state: start('') });

  const goTo = (from: number, to: number): void => {
    const end = view.state.doc.length;
    view.dispatch({
      selection: { anchor: Math.min(from, end), head: Math.min(to, end) },
      effects: EditorView.scrollIntoView(Math.min(from, end), { y: 'center' }),
    });
    view.focus();
  };
  let claimsShown: readonly TextClaim[] = [];
  /** To the next claim, or the one before; round the end to the first. */
  const goToClaim = (direction: 1 | -1): boolean => {
    const { head } = view.state.selection.main;
    const next =
      direction === 1
        ? (claimsShown.find(({ from }) => from > head) ?? claimsShown[0])
        : (claimsShown.findLast(({ to }) => to < head) ?? claimsShown.at(-1));
    if (next !== undefined) goTo(next.from, next.to);
    return next !== undefined;
  };
  let written: { readonly doc: Text; readonly text: string } | undefined;
  /** The text as one string; made once for each state of it. */
  const text = (): string => {
    const { doc } = view.state;
    if (written?.doc !== doc) written = { doc, text: doc.toString() };
    return written.text;
  };
  let barsWritten: { readonly doc: Text; readonly edit: Edit } | undefined;
  /** One undo takes it back, whatever was typed before. */
  const put = ({ from, to, insert, cursor }: Edit, takeFocus: boolean): void => {
    view.dispatch({
      changes: { from, to, insert },
      selection: { anchor: cursor },
      annotations: isolateHistory.of('full'),
      effects: EditorView.scrollIntoView(cursor, { y: 'nearest' }),
      userEvent: 'input',
    });
    if (takeFocus) view.focus();
  };
  return {
    element: view.dom,
    text,
    setText: other => {
      view.setState(start(other));
    },
    changeText: changed => {
      view.dispatch({ changes: [...lineChanges(text(), changed)], annotations: isolateHistory.of('full') });
    },
    find: () => {
      openSearchPanel(view);
    },
    insert: words => {
      view.dispatch(view.state.replaceSelection(words));
      view.focus();
    },
    putBars: bars => {
      const { doc, selection } = view.state;
      // The bars that were written last give way as long as nothing else has happened in the text.
      const again =
        barsWritten?.doc === doc && selection.main.empty && selection.main.head === barsWritten.edit.cursor;
      if (again && barsWritten !== undefined) undo(view);
      const edit = putBars(text(), view.state.selection.main.head, bars);
      if (edit === undefined) return;
      put(edit, false);
      barsWritten = { doc: view.state.doc, edit };
    },
    putClaim: sentence => {
      put(putClaim(text(), view.state.selection.main.head, sentence), true);
    },
    mend: fix => {
      mend(view, fix);
    },
    goTo,
    show: checked => {
      claimsShown = checked.claims;
      view.dispatch(setDiagnostics(view.state, marksOf(checked, view.state.doc)));
    },
  };
}
