import { isolateHistory } from '@codemirror/commands';
import { forEachDiagnostic } from '@codemirror/lint';
import type { Diagnostic } from '@codemirror/lint';
import type { EditorState, Text } from '@codemirror/state';
import type { EditorView } from '@codemirror/view';
import type { Checked, Fix, TextClaim, TextFinding } from './checked.js';
import { inQuotes } from './in-quotes.js';

/** A mark in the text with the change that it proposes. */
interface Mark extends Diagnostic {
  readonly fix?: Fix;
  /** What stood where the change is to be made. */
  readonly instead?: string;
}

const markOf = (finding: Omit<Diagnostic, 'actions'>, fix: Fix | undefined, doc: Text): Mark => {
  if (fix === undefined) return finding;
  const mark: Mark = {
    ...finding,
    fix,
    instead: doc.sliceString(fix.from, fix.to),
    actions: [
      {
        name: `write: ${fix.words}`,
        apply: (view, from) => {
          apply(view, mark, from);
        },
      },
    ],
  };
  return mark;
};

/**
 * Makes the change of a mark, which one undo takes back. Marks move with the text, and with them the place of the change; where other words
 * stand by now, nothing is written over.
 * @param from where the mark stands now
 */
function apply(view: EditorView, { fix, instead, from: before }: Mark, from: number): void {
  if (fix === undefined) return;
  const [start, end] = [fix.from + from - before, fix.to + from - before];
  if (view.state.sliceDoc(start, end) !== instead) return;
  view.dispatch({
    changes: { from: start, to: end, insert: fix.insert },
    selection: { anchor: start + fix.insert.length },
    annotations: isolateHistory.of('full'),
    userEvent: 'input',
    scrollIntoView: true,
  });
  view.focus();
}

const markOfFinding = (
  { from, to, severity, code, message, help, fix }: TextFinding,
  doc: Text,
): Diagnostic => {
  const words = inQuotes(help === undefined ? message : `${message}\n${help}`);
  return markOf(
    {
      from,
      to: Math.max(to, from),
      severity: severity === 'note' ? 'info' : severity,
      source: code,
      message: words,
    },
    fix,
    doc,
  );
};

/** A claim that holds needs no mark; the others carry their reason, and the nearest true sentence as a change of one press. */
function markOfClaim(
  { from, to, verdict, code, reason, fix, accepted, isJudged }: TextClaim,
  doc: Text,
): readonly Diagnostic[] {
  if (verdict === 'holds' || accepted || !isJudged) return [];
  const severity = verdict === 'fails' ? 'error' : 'warning';
  return [markOf({ from, to, severity, source: code, message: `${verdict}: ${reason}` }, fix, doc)];
}

/** Every mark that proposes a change, with where it stands now. */
function proposals(
  state: EditorState,
): readonly { readonly mark: Mark; readonly fix: Fix; readonly from: number; readonly to: number }[] {
  const found: { mark: Mark; fix: Fix; from: number; to: number }[] = [];
  forEachDiagnostic(state, (mark: Mark, from, to) => {
    if (mark.fix !== undefined) found.push({ mark, fix: mark.fix, from, to });
  });
  return found;
}

/** Makes the change that is proposed nearest to the cursor, on the lines that it stands on. */
export function mendHere(view: EditorView): boolean {
  const { main } = view.state.selection;
  const line = view.state.doc.lineAt(main.head);
  const away = ({ from, to }: { readonly from: number; readonly to: number }): number =>
    Math.max(from - main.head, main.head - to, 0);
  const [nearest] = proposals(view.state)
    .filter(({ from, to }) => from <= line.to && line.from <= to)
    .sort((a, b) => away(a) - away(b));
  if (nearest !== undefined) apply(view, nearest.mark, nearest.from);
  return nearest !== undefined;
}

/** Makes a change that is proposed with what is marked. */
export function mend(view: EditorView, fix: Fix): void {
  const proposed = proposals(view.state).find(
    ({ fix: other }) => other.from === fix.from && other.to === fix.to && other.insert === fix.insert,
  );
  if (proposed !== undefined) apply(view, proposed.mark, proposed.from);
}

/** The marks of everything that was found in a text. */
export function marksOf({ findings, claims }: Checked, doc: Text): readonly Diagnostic[] {
  return [
    ...findings.map(finding => markOfFinding(finding, doc)),
    ...claims.flatMap(claim => markOfClaim(claim, doc)),
  ].filter(({ to }) => to <= doc.length);
}
