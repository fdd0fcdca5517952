import { html } from '../player/index.js';
import type { Answers, Bridge, HostEvent, MenuCommand } from '../bridge/index.js';
import { afterPause } from './after-pause.js';
import type { Checked } from './checked.js';
import { checking } from './checking.js';
import { exporting } from './export-lesson.js';
import { fileName } from './file-name.js';
import { lessonFile } from './lesson-file.js';
import { knownScore, noScore } from './known-score.js';
import { notice } from './notice.js';
import { previewPane } from './preview-pane.js';
import { scorePane } from './score-pane.js';
import { showHelp } from './show-help.js';
import { askCutOff } from './takes/ask-cut-off.js';
import { narrationPane } from './takes/narration-pane.js';
import { textPane } from './text-pane.js';
import { verdictPane } from './verdict-pane.js';

/** A pause in typing after which the text is made into a page, in milliseconds. */
const previewPause = 1500;

/** Builds the workshop's window in `root`: the lesson's text, its score, its verdicts and its page, in step with the file on disk. */
export async function workshopWindow(
  root: HTMLElement,
  bridge: Bridge,
  begun: Answers['begin'],
  nonce: string,
): Promise<void> {
  let known = noScore;
  let steps: Checked['steps'] = [];
  let cursor = 0;
  let hasErrors = false;
  /** Number of the score that is shown. */
  let scoreShown: number | undefined;
  /** A lesson that was just opened has no page yet. */
  let pageIsDue = false;

  const name = html('h1', {}, 'No lesson');
  const state = html('span', { class: 'quiet', role: 'status' });
  const { element: said, tell } = notice();

  const text = textPane(
    {
      edited: () => {
        tellState();
        check.soon();
        file.edited();
        preview.textChanged();
        previewSoon();
        narration.edited();
      },
      moved: at => {
        cursor = at;
        verdicts.mark(at);
      },
      score: () => known,
    },
    nonce,
  );
  const score = scorePane({
    analyse: bars => {
      check.analyse(bars);
    },
    pointed: text.putBars,
    write: text.insert,
    claim: text.putClaim,
  });
  const verdicts = verdictPane({
    goTo: text.goTo,
    mend: text.mend,
    look: ({ evidence }) => {
      score.showEvidence(evidence);
    },
  });
  const preview = previewPane(bridge);
  const narration = narrationPane(bridge, {
    lesson: () => lesson(),
    cursor: () => cursor,
    goTo: text.goTo,
    changed: () => {
      makePreview();
    },
  });

  const file = lessonFile(bridge, begun, text, {
    opened: () => {
      steps = [];
      pageIsDue = true;
      tellName();
      tellState();
      check.begin();
      narration.edited();
      void offerCutOff();
    },
    renamed: () => {
      tellName();
      void check.readScoresAgain();
    },
    changed: () => {
      tellState();
      check.now();
      narration.edited();
    },
    settled: () => {
      tellState();
    },
    tell,
  });
  const lesson = (): { readonly path: string; readonly text: string } | undefined => {
    const path = file.path();
    return path === undefined ? undefined : { path, text: text.text() };
  };
  const offerCutOff = async (): Promise<void> => {
    const path = file.path();
    if (path === undefined || !(await askCutOff(bridge, path, () => file.path() === path, tell))) return;
    narration.edited();
    makePreview();
  };
  const check = checking(bridge, {
    lesson,
    checked: result => {
      steps = result.steps;
      hasErrors = result.findings.some(({ severity }) => severity === 'error');
      text.show(result);
      verdicts.show(result);
      verdicts.mark(cursor);
      // While the text cannot be read the score stays: the author is in the middle of a word.
      if (result.isRead && result.score?.id !== scoreShown) {
        scoreShown = result.score?.id;
        const content = result.score?.content;
        known = content === undefined ? noScore : knownScore(content);
        score.setScore(content);
      }
      if (pageIsDue) {
        pageIsDue = false;
        makePreview();
      }
    },
    analysed: score.showAnalysis,
    tell,
  });
  const exports = exporting(bridge, begun, tell);

  const tellName = (): void => {
    const path = file.path() ?? '';
    name.textContent = fileName(path);
    name.title = path;
  };
  const tellState = (): void => {
    const path = file.path();
    const isUnsaved = file.isUnsaved();
    state.textContent = path === undefined ? '' : isUnsaved ? 'not saved' : 'saved';
    document.title = path === undefined ? 'Barwise' : `${isUnsaved ? '• ' : ''}${fileName(path)}`;
  };

  const stepAtCursor = (): number =>
    Math.max(
      0,
      steps.findLastIndex(({ from }) => from <= cursor),
    );
  const makePreview = (): void => {
    const shown = lesson();
    if (shown === undefined) preview.say('There is no lesson yet: open one, or begin one from a score.');
    else if (hasErrors) preview.say('The page waits until the errors in the text are mended.');
    else void preview.make(shown.path, shown.text, stepAtCursor());
  };
  const previewSoon = afterPause(previewPause, makePreview);
  const exportAll = async (): Promise<void> => {
    const exported = lesson();
    if (exported !== undefined) await exports.run(exported);
  };

  /** The narration stands over everything but the text, which is mended while it is spoken. */
  const turnNarration = (): void => {
    if (narration.isOpen()) narration.close();
    else narration.open();
    narrate.setAttribute('aria-pressed', String(narration.isOpen()));
    for (const covered of [score, verdicts, preview]) covered.element.inert = narration.isOpen();
  };

  const commands: Readonly<Record<MenuCommand, () => void>> = {
    open: () => void file.open(),
    recent: () => void file.openKnown(),
    new: () => void file.draft(),
    save: () => void file.save(),
    'save-as': () => void file.saveAs(),
    narration: turnNarration,
    export: () => void exportAll(),
    find: () => {
      text.find();
    },
    help: () => void showHelp(begun.version),
  };
  // The menu of the desktop shell hears these keys only where the page leaves them alone.
  addEventListener('keydown', event => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || event.key.toLowerCase() !== 's') return;
    event.preventDefault();
    if (event.shiftKey) commands['save-as']();
    else commands.save();
  });
  let isLeaving = false;
  const leave = async (): Promise<void> => {
    // Whoever closes the window once more is being asked already.
    if (isLeaving) return;
    isLeaving = true;
    const may = (await narration.mayLeave()) && (await file.mayLeave());
    isLeaving = false;
    if (!may) return;
    await bridge.ask('leave', {});
    window.close();
  };
  bridge.listen((event: HostEvent) => {
    switch (event.kind) {
      case 'changed-on-disk':
        if (event.path === file.path()) void file.changedOnDisk(event.stamp);
        else if (file.path() !== undefined) {
          tell('');
          void check.readScoresAgain();
        }
        return;
      case 'unreadable-on-disk':
        tell(
          event.path === file.path()
            ? `${event.why}; its text stands here as it was read last, and can be saved under another name.`
            : `${event.why}; its notes are those that were read last.`,
          'fault',
        );
        return;
      case 'removed-on-disk':
        if (event.path === file.path()) file.removedFromDisk();
        else
          tell(
            `${fileName(event.path)} is no longer on disk; its notes are those that were read last.`,
            'fault',
          );
        return;
      case 'progress':
        exports.progress(event);
        return;
      case 'menu':
        commands[event.command]();
        return;
      case 'close-asked':
        void leave();
    }
  });
  addEventListener('beforeunload', event => {
    if (begun.dialogs || !(file.isUnsaved() || narration.isUnsaved())) return;
    event.preventDefault();
  });

  const button = (label: string, run: () => void, title: string): HTMLButtonElement => {
    const made = html('button', { type: 'button', title }, label);
    made.addEventListener('click', run);
    return made;
  };
  const narrate = button('Narration', commands.narration, 'record what is said, text by text');
  narrate.setAttribute('aria-pressed', 'false');
  root.replaceChildren(
    html(
      'header',
      { class: 'bar' },
      name,
      state,
      html(
        'span',
        { class: 'commands' },
        button('Open', commands.open, 'open a lesson'),
        button('Recent', commands.recent, 'lessons with unsaved work, and those opened lately'),
        button('New from a score', commands.new, 'a first lesson, with claims that hold'),
        button('Save', commands.save, 'Ctrl+S'),
        button('Save as', commands['save-as'], 'Ctrl+Shift+S'),
        narrate,
        button('Make the page', makePreview, 'the page opens at the step of the cursor'),
        button('Export', commands.export, 'everything that a build writes'),
        button('Help', commands.help, 'what keys and pointer do'),
      ),
    ),
    said,
    exports.element,
    html(
      'main',
      { class: 'panes' },
      html('section', { class: 'pane text-pane', 'aria-label': 'Lesson' }, text.element),
      score.element,
      verdicts.element,
      preview.element,
      narration.element,
    ),
  );
  if (begun.lesson !== undefined) await file.openPath(begun.lesson);
  else await file.openKnown();
}
