import { html } from '../player/index.js';
import type { Answers, Bridge, HostEvent, MenuCommand, OpenedLesson } from '../bridge/index.js';
import { askUser } from './ask-user.js';
import { chooseFile } from './choose-file.js';
import type { Checked, FromWorker, ToWorker } from './checked.js';
import { previewPane } from './preview-pane.js';
import { scorePane } from './score-pane.js';
import { textPane } from './text-pane.js';
import { verdictPane } from './verdict-pane.js';

/** A pause in typing after which the text is checked, kept safe, and made into a page, in milliseconds. */
const pauses = { check: 60, journal: 1000, preview: 1500 } as const;

/** Runs what was asked last, once nothing was asked for a while. */
function afterPause(milliseconds: number, run: () => void): () => void {
  let waiting: ReturnType<typeof setTimeout> | undefined;
  return () => {
    clearTimeout(waiting);
    waiting = setTimeout(run, milliseconds);
  };
}

/** Builds the workshop's window in `root`: the lesson's text, its score, its verdicts and its page, in step with the file on disk. */
export async function workshopWindow(
  root: HTMLElement,
  bridge: Bridge,
  begun: Answers['begin'],
  nonce: string,
): Promise<void> {
  let lesson: { readonly path: string; base: string | undefined; saved: string } | undefined;
  let scores = new Map<string, string | null>();
  let turn = 0;
  let barLabels: readonly string[] = [];
  let steps: Checked['steps'] = [];
  let cursor = 0;
  let hasErrors = false;
  /** Number of the score that is shown. */
  let scoreShown: number | undefined;
  let settling = false;
  /** A lesson that was just opened has no page yet. */
  let pageIsDue = false;

  const worker = new Worker(new URL('./checker.worker.ts', import.meta.url), { type: 'module' });
  const send = (message: ToWorker): void => {
    worker.postMessage(message);
  };

  const name = html('h1', {}, 'No lesson');
  const state = html('span', { class: 'quiet', role: 'status' });
  const notice = html('p', { class: 'notice', role: 'alert' });
  const button = (label: string, run: () => Promise<void> | void, title: string): HTMLButtonElement => {
    const made = html('button', { type: 'button', title }, label);
    made.addEventListener('click', () => {
      void run();
    });
    return made;
  };

  const text = textPane(
    {
      edited: () => {
        tellState();
        checkSoon();
        journalSoon();
        previewSoon();
      },
      moved: at => {
        cursor = at;
        verdicts.mark(at);
      },
      save: () => {
        void save();
      },
      bars: () => barLabels,
    },
    nonce,
  );
  const score = scorePane({
    chosen: bars => {
      send({ kind: 'analyse', work: { bars } });
    },
    insert: words => {
      text.insert(words);
    },
  });
  const verdicts = verdictPane({
    goTo: text.goTo,
    look: ({ evidence }) => {
      score.showEvidence(evidence);
    },
  });
  const preview = previewPane(bridge);

  const isUnsaved = (): boolean => lesson !== undefined && text.text() !== lesson.saved;
  const tellState = (): void => {
    state.textContent = lesson === undefined ? '' : isUnsaved() ? 'not saved' : 'saved';
    document.title = lesson === undefined ? 'Barwise' : `${isUnsaved() ? '• ' : ''}${fileName(lesson.path)}`;
  };
  const fileName = (path: string): string => path.split(/[/\\]/u).at(-1) ?? path;
  const tell = (message: string): void => {
    notice.textContent = message;
  };

  const check = (): void => {
    if (lesson === undefined) return;
    send({
      kind: 'check',
      work: {
        turn: ++turn,
        name: fileName(lesson.path),
        text: text.text(),
        scores,
        ...(scoreShown === undefined ? {} : { holds: scoreShown }),
      },
    });
  };
  const checkSoon = afterPause(pauses.check, check);
  const journalSoon = afterPause(pauses.journal, () => {
    if (lesson === undefined || !isUnsaved()) return;
    const { path, base } = lesson;
    void bridge
      .ask('journal', { path, text: text.text(), ...(base === undefined ? {} : { base }) })
      .then(kept => {
        if (!kept.ok) tell(`Unsaved work cannot be kept: ${kept.problem.message}`);
      });
  });
  const stepAtCursor = (): number =>
    Math.max(
      0,
      steps.findLastIndex(({ from }) => from <= cursor),
    );
  const makePreview = (): void => {
    if (lesson === undefined) return;
    if (hasErrors) preview.say('The page waits until the errors in the text are mended.');
    else void preview.make(lesson.path, text.text(), stepAtCursor());
  };
  const previewSoon = afterPause(pauses.preview, makePreview);

  const fetchScores = async (wanted: readonly string[]): Promise<void> => {
    if (lesson === undefined) return;
    const { path } = lesson;
    const found = await Promise.all(
      wanted.map(async named => {
        const answer = await bridge.ask('readScore', { lesson: path, score: named });
        if (!answer.ok) tell(answer.problem.message);
        return [named, answer.ok ? answer.value.text : null] as const;
      }),
    );
    scores = new Map([...scores, ...found]);
    check();
  };

  worker.addEventListener('message', ({ data }: MessageEvent<FromWorker>) => {
    if (data.kind === 'analysed') {
      score.showAnalysis(data.result);
      return;
    }
    const { result } = data;
    if (result.turn !== turn) return;
    steps = result.steps;
    hasErrors = result.findings.some(({ severity }) => severity === 'error');
    text.show(result);
    verdicts.show(result);
    verdicts.mark(cursor);
    if (result.score?.id !== scoreShown) {
      scoreShown = result.score?.id;
      barLabels = result.score?.content?.bars.map(({ label }) => label) ?? [];
      score.setScore(result.score?.content);
    }
    if (result.wanted.length > 0) void fetchScores(result.wanted);
    else if (pageIsDue) {
      pageIsDue = false;
      makePreview();
    }
  });

  const show = async (opened: OpenedLesson): Promise<void> => {
    let shown = opened.text;
    let base = opened.stamp;
    if (opened.unsaved !== undefined && opened.unsaved.text !== opened.text) {
      const answer = await askUser(
        'There is unsaved work on this lesson',
        ['It was kept when the window closed unexpectedly. The file on disk has other words.'],
        [
          ['unsaved', 'Go on with the unsaved work'],
          ['file', 'Take the file on disk'],
        ],
      );
      if (answer === 'unsaved') {
        shown = opened.unsaved.text;
        base = opened.unsaved.base ?? base;
      } else await bridge.ask('forget', { path: opened.path });
    }
    lesson = { path: opened.path, base, saved: opened.stamp === undefined ? '' : opened.text };
    scores = new Map();
    steps = [];
    pageIsDue = true;
    name.textContent = fileName(opened.path);
    name.title = opened.path;
    tell('');
    text.setText(shown);
    tellState();
    check();
  };
  /** Whether the present lesson may be left. */
  const mayLeave = async (): Promise<boolean> => {
    if (!isUnsaved()) return true;
    const answer = await askUser(
      'This lesson has unsaved changes',
      [],
      [
        ['save', 'Save them'],
        ['drop', 'Drop them'],
        ['stay', 'Stay here'],
      ],
    );
    if (answer === 'save') return save();
    if (answer === 'drop' && lesson !== undefined) await bridge.ask('forget', { path: lesson.path });
    return answer === 'drop';
  };
  const openPath = async (path: string): Promise<void> => {
    const answer = await bridge.ask('open', { path });
    if (answer.ok) await show(answer.value);
    else tell([answer.problem.message, answer.problem.help].filter(part => part !== undefined).join('; '));
  };
  const open = async (): Promise<void> => {
    if (!(await mayLeave())) return;
    const path = await chooseFile(bridge, 'lesson', begun.dialogs, begun.folder);
    if (path !== undefined) await openPath(path);
  };
  const draft = async (): Promise<void> => {
    if (!(await mayLeave())) return;
    const path = await chooseFile(bridge, 'score', begun.dialogs, begun.folder);
    if (path === undefined) return;
    const answer = await bridge.ask('draft', { score: path });
    if (answer.ok) await show(answer.value);
    else tell(answer.problem.message);
  };

  /** @returns whether the text is on disk now */
  async function save(): Promise<boolean> {
    if (lesson === undefined) return false;
    const written = text.text();
    const { path, base } = lesson;
    const answer = await bridge.ask('save', { path, text: written, ...(base === undefined ? {} : { base }) });
    if (!answer.ok) {
      tell(
        `Not saved: ${[answer.problem.message, answer.problem.help].filter(part => part !== undefined).join('; ')}`,
      );
      return false;
    }
    // Meanwhile another lesson may stand here.
    if (lesson.path !== path) return answer.value.kind === 'saved';
    if (answer.value.kind === 'saved') {
      lesson = { path, base: answer.value.stamp, saved: written };
      tell('');
      tellState();
      return true;
    }
    return settle(answer.value.text, answer.value.stamp);
  }

  /** Writes the text to a file of the user's choice and goes on with that file. */
  const saveAs = async (): Promise<void> => {
    if (lesson === undefined) return;
    const chosen = await bridge.ask('choose', { what: 'save-as', near: lesson.path });
    if (!chosen.ok || chosen.value.path === undefined) return;
    const { path } = chosen.value;
    // The dialog has asked whether a file that is there may be replaced.
    const there = await bridge.ask('open', { path });
    lesson = { path, base: there.ok ? there.value.stamp : undefined, saved: '' };
    name.textContent = fileName(path);
    name.title = path;
    await save();
    await fetchScores([...scores.keys()]);
  };

  /** Another program wrote the file: the author decides which words stay. */
  async function settle(onDisk: string, stamp: string): Promise<boolean> {
    if (lesson === undefined || settling) return false;
    const { path } = lesson;
    settling = true;
    const answer = await askUser(
      'Another program has changed this file',
      [
        html(
          'div',
          { class: 'side-by-side' },
          html('div', {}, html('h3', {}, 'On disk'), html('pre', { tabindex: 0 }, onDisk)),
          html('div', {}, html('h3', {}, 'Here'), html('pre', { tabindex: 0 }, text.text())),
        ),
      ],
      [
        ['mine', 'Keep what is here and write it'],
        ['theirs', 'Take what is on disk'],
        ['later', 'Decide later'],
      ],
    );
    settling = false;
    if (answer === 'later') return false;
    lesson = { path, base: stamp, saved: onDisk };
    if (answer === 'mine') return save();
    text.changeText(onDisk);
    await bridge.ask('forget', { path });
    tellState();
    check();
    return true;
  }

  const exportAll = async (): Promise<void> => {
    if (lesson === undefined) return;
    const folder = await chooseFile(bridge, 'folder', begun.dialogs, begun.folder);
    if (folder === undefined) return;
    const job = crypto.randomUUID();
    exporting = job;
    stop.hidden = false;
    const answer = await bridge.ask('build', {
      path: lesson.path,
      text: text.text(),
      folder,
      also: ['all'],
      job,
    });
    stop.hidden = true;
    exporting = undefined;
    if (!answer.ok) tell(`Nothing was exported: ${answer.problem.message}`);
    else tell(`${String(answer.value.files.length)} files written to ${folder}`);
  };
  let exporting: string | undefined;
  const stop = button(
    'Stop the export',
    async () => {
      if (exporting !== undefined) await bridge.ask('cancel', { job: exporting });
    },
    'nothing half written stays',
  );
  stop.hidden = true;

  const onDisk = async (path: string, stamp: string): Promise<void> => {
    if (lesson === undefined) return;
    if (path !== lesson.path) {
      // A score: read again what the lesson names.
      await fetchScores([...scores.keys()]);
      return;
    }
    if (stamp === lesson.base) return;
    const answer = await bridge.ask('open', { path });
    if (!answer.ok || answer.value.stamp === undefined) return;
    if (isUnsaved()) await settle(answer.value.text, answer.value.stamp);
    else if (answer.value.text !== text.text()) {
      lesson = { path, base: answer.value.stamp, saved: answer.value.text };
      text.changeText(answer.value.text);
      tell('The file was changed by another program; its words stand here now.');
      check();
    }
  };
  const menu = (command: MenuCommand): void => {
    if (command === 'open') void open();
    else if (command === 'new') void draft();
    else if (command === 'save') void save();
    else if (command === 'save-as') void saveAs();
    else if (command === 'export') void exportAll();
    else text.find();
  };
  bridge.listen((event: HostEvent) => {
    if (event.kind === 'changed-on-disk') void onDisk(event.path, event.stamp);
    else if (event.kind === 'removed-on-disk')
      tell(`${fileName(event.path)} is no longer on disk; saving writes it again.`);
    else if (event.kind === 'progress') tell(event.doing);
    else if (event.kind === 'menu') menu(event.command);
    else
      void mayLeave().then(may => {
        if (may) window.close();
      });
  });
  addEventListener('beforeunload', event => {
    if (begun.dialogs || !isUnsaved()) return;
    event.preventDefault();
  });

  root.replaceChildren(
    html(
      'header',
      { class: 'bar' },
      name,
      state,
      html(
        'span',
        { class: 'commands' },
        button('Open', open, 'open a lesson'),
        button('New from a score', draft, 'a first lesson, with claims that hold'),
        button('Save', async () => void (await save()), 'Ctrl+S'),
        button('Make the page', makePreview, 'the page opens at the step of the cursor'),
        button('Export', exportAll, 'everything that a build writes'),
        stop,
      ),
    ),
    notice,
    html(
      'main',
      { class: 'panes' },
      html('section', { class: 'pane text-pane', 'aria-label': 'Lesson' }, text.element),
      score.element,
      verdicts.element,
      preview.element,
    ),
  );
  if (begun.lesson !== undefined) await openPath(begun.lesson);
  else if (begun.recent.length > 0) {
    const answer = await askUser(
      'Which lesson?',
      [],
      [
        ...begun.recent.map(
          ({ path, title }) => [path, title === '' ? path : `${title} (${fileName(path)})`] as const,
        ),
        ['', 'None of these'],
      ],
    );
    if (answer !== '') await openPath(answer);
  }
}
