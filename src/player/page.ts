import type { Layer } from '../lesson/index.js';
import { contradictedClaims } from '../timeline/index.js';
import type { PageClaim } from '../timeline/index.js';
import { captionView } from './caption-view.js';
import { readCaptions } from './captions.js';
import { closer } from './closer.js';
import { html, setText } from './dom.js';
import { draftNotice } from './draft-notice.js';
import { printing } from './handout.js';
import { heading } from './heading.js';
import { judgeFor } from './judge.js';
import { harmonyInWords, labelsFor, nextCovered } from './labels.js';
import { lessonPlayer, type Progress } from './lesson-player.js';
import { asCalled } from './notation/label-layer.js';
import { notationView, type NotationView } from './notation/notation-view.js';
import { optionsView } from './options-view.js';
import type { PageBlocks } from './page-blocks.js';
import { lessonMoves, linkedStep } from './moves.js';
import { practice } from './practice.js';
import { isSettled, progressKeeper, type LessonProgress } from './progress.js';
import { closePullUps } from './pull-up.js';
import { learningReport, type Reporter } from './reporting/reporter.js';
import { shortcutList } from './shortcut-list.js';
import { scoreTools } from './score-tools.js';
import { storeSettings, storedSettings, tempoRange, type Settings } from './settings.js';
import { listenForShortcuts } from './shortcuts.js';
import type { Sound } from './sound/sound.js';
import { stepView } from './step-view.js';
import { summaryView } from './summary-view.js';
import { tempoView } from './tempo-view.js';
import { transcriptView } from './transcript-view.js';
import { transportView } from './transport-view.js';
import { whatSounds } from './what-sounds.js';
import { wordsSwitch } from './words-view.js';

/** The sheet is beside the words from this width on (see layout.css); then the whole score fits. */
const wide = '(min-width: 60rem) and (min-height: 34rem)';
/** A step counts as heard from this time before its end on, in seconds. */
const heardBefore = 0.75;
/** How much the keys for slower and faster change the tempo, in per cent. */
const tempoStep = 5;

/** Builds the page in `root` and wires its parts together; `#step-3` in its address opens the third step. */
export function buildPage(
  root: HTMLElement,
  blocks: PageBlocks,
  sound: Sound,
  reporter: Reporter | undefined,
): void {
  const { data } = blocks;
  const { timeline } = data;
  const contradicted = new Set(contradictedClaims(data));
  const proofOf = (because: number | undefined): PageClaim | undefined => {
    const claim = because === undefined ? undefined : data.claims[because];
    return claim === undefined || contradicted.has(claim) ? undefined : claim;
  };
  let settings = storedSettings();
  const uncovered = new Set<number>();
  /** Questions that the lesson has gone past without an answer. */
  const passed = new Set<string>();
  const isOpen = (ask: string): boolean => !passed.has(ask) && !isSettled(keeper.now().answers[ask]);
  const keeper = progressKeeper(data.id, progress => {
    showKept(progress);
  });
  const summary = summaryView(data, () => {
    keeper.forget();
    passed.clear();
    for (const view of steps) view.reset();
    showAnswered();
    moves.goTo(0);
  });
  const showKept = (progress: LessonProgress): void => {
    for (const [index, view] of steps.entries()) view.setHeard(progress.heard.includes(index));
    summary.update(progress);
    reporter?.report(learningReport(data, progress));
  };

  const layersOfSteps: readonly (readonly Layer[])[] = data.steps.map(step => step.show);
  const stepStarts = new Set(data.steps.map(step => step.firstBar));
  const notations = new Map<string, NotationView>();
  for (const [index, score] of data.scores.entries())
    notations.set(
      index === 0 ? '' : score.path,
      notationView(score, stepStarts, layersOfSteps, {
        pick: picked => {
          // Only the lesson's own score has been read as well as drawn.
          if (index === 0) look.pick(picked);
        },
        uncover: segment => {
          uncover(segment);
        },
      }),
    );

  const status = html('p', { class: 'visually-hidden', role: 'status' });
  const notice = html('p', { class: 'notice' });
  const caption = captionView(readCaptions(blocks.captions), timeline);
  const sheetTitle = html('div', { class: 'sheet-title' });
  const tools = scoreTools({
    lookCloser: () => {
      look.toggle();
    },
    uncoverNext: () => {
      uncoverNext();
    },
    practise: () => {
      if (!practising.isOn()) practising.begin();
    },
    coverAgain: () => {
      uncovered.clear();
      showLabels();
    },
  });
  const sheet = html(
    'div',
    { class: 'sheet' },
    tools.element,
    sheetTitle,
    ...[...notations.values()].map(view => view.element),
  );

  const player = lessonPlayer(timeline, sound, show);
  const moves = lessonMoves(data, player);
  const look = closer(data, {
    player,
    markChosen: chosen => {
      notations.get('')?.markChosen(chosen);
      tools.setLooking(chosen !== undefined);
      show(player.progress());
    },
    mayTell: onset => {
      const { layers, covered } = labelsNow(player.progress().step);
      const segment =
        data.scores[0]?.segments.findIndex(({ start, end }) => start <= onset && onset < end) ?? -1;
      return layers.size > 0 && !covered.has(segment);
    },
    focusAfter: tools.focus,
  });
  const practising = practice(data, {
    player,
    markChosen: chosen => {
      notations.get('')?.markChosen(chosen);
    },
    showEvidence: evidence => {
      notations.get('')?.markEvidence(evidence);
    },
    onChange: on => {
      root.classList.toggle('practising', on);
      tools.setPractising(on);
      if (!on) tools.focus();
      showLabels();
      show(player.progress());
    },
  });
  const music = html('main', { class: 'music', 'aria-label': 'Score' }, sheet);
  const steps = data.steps.map((_, index) =>
    stepView(data, index, {
      goTo: moves.goTo,
      playAction: moves.playAction,
      playStep: moves.playStep,
      playFrom: moves.playFrom,
      question: (step, ask) => ({
        proof: proofOf(ask.because),
        before: keeper.now().answers[ask.id],
        onAnswered: answer => {
          keeper.answered(ask.id, answer);
          showAnswered();
        },
        onContinue: () => {
          player.send({ kind: 'continue' });
        },
        judge: judgeFor(data, step, ask),
      }),
      showEvidence: evidence => {
        notations.get('')?.markEvidence(evidence);
      },
    }),
  );

  const faster = (by: number): void => {
    const tempo = Math.min(tempoRange.max, Math.max(tempoRange.min, settings.tempo + by));
    change({ tempo });
    status.textContent = `Tempo ${tempo} per cent`;
  };
  const shortcuts = shortcutList({
    ...moves,
    slower: () => {
      faster(-tempoStep);
    },
    faster: () => {
      faster(tempoStep);
    },
    captions: () => {
      change({ captions: !settings.captions });
    },
    labels: () => {
      change({ labels: settings.labels === 'none' ? 'lesson' : 'none' });
    },
    uncoverNext,
    lookCloser: look.toggle,
  });
  const options = optionsView(settings, shortcuts, change, printing(data).print);
  const tempo = tempoView(change);
  listenForShortcuts(shortcuts, () => settings.keys);

  const transport = transportView(
    data,
    {
      ...moves,
      seek: to => {
        player.send({ kind: 'seek', to });
      },
    },
    [tempo.element, options.element],
  );
  const transcript = transcriptView(data, moves.playFrom);
  const stepList = html('ol', { class: 'steps' }, ...steps.map(step => step.element));
  root.replaceChildren(
    music,
    look.element,
    html(
      'section',
      { class: 'words', 'aria-label': 'Lesson' },
      heading(data),
      ...draftNotice(data),
      practising.element,
      wordsSwitch([stepList, summary.element], transcript),
      stepList,
      summary.element,
      transcript.element,
    ),
    html('footer', { class: 'controls' }, notice, caption.element, transport.element),
    status,
  );

  const questions = timeline.events.filter(event => event.kind === 'question');
  let shownStep = -1;
  let shownScore: string | undefined;

  const labelsNow = (step: number): ReturnType<typeof labelsFor> =>
    labelsFor(
      data,
      step,
      practising.isOn() ? { ...settings, labels: 'none' } : settings,
      ask => !isOpen(ask),
      uncovered,
    );

  function showExcerpt(step: number): void {
    const { firstBar = 0, lastBar = 0, readings = [] } = data.steps[step] ?? {};
    const labels = labelsNow(step);
    for (const [path, view] of notations)
      view.showExcerpt({ firstBar, lastBar, ...labels, readings: path === '' ? readings : [] });
    tools.setCovered(settings.oneByOne && labels.layers.size > 0, labels.covered.size);
  }

  function showLabels(): void {
    showExcerpt(player.progress().step);
    look.refresh();
  }

  /** What an open question keeps back may be seen once it is answered, or the lesson has gone past it. */
  function showAnswered(): void {
    for (const view of steps) view.keepBack(isOpen);
    transcript.keepBack(isOpen);
    showLabels();
  }

  function notePassed(step: number, at: number): void {
    const before = passed.size;
    for (const { ask, end } of questions.filter(one => one.step === step))
      if (end <= at && isOpen(ask)) passed.add(ask);
    if (passed.size > before) showAnswered();
  }

  function uncover(segment: number): void {
    uncovered.add(segment);
    showLabels();
    const harmony = data.scores[0]?.segments[segment];
    if (harmony !== undefined)
      status.textContent = harmonyInWords(
        asCalled(harmony, segment, data.steps[player.progress().step]?.readings ?? []),
      );
  }

  function uncoverNext(): void {
    const { step } = player.progress();
    const next = nextCovered(data, step, labelsNow(step));
    if (next !== undefined) uncover(next);
  }

  function showScore(path: string): void {
    if (path === shownScore) return;
    shownScore = path;
    for (const [key, view] of notations) view.element.hidden = key !== path;
    const score = data.scores.find((one, index) => (index === 0 ? '' : one.path) === path);
    sheetTitle.replaceChildren(
      html('p', { class: 'piece' }, score?.title ?? ''),
      html('p', { class: 'composer' }, score?.composer ?? ''),
    );
    notations.get(path)?.layOut();
  }

  function showStep(step: number): void {
    if (step === shownStep) return;
    const first = shownStep < 0;
    shownStep = step;
    for (const [index, view] of steps.entries()) view.setCurrent(index === step);
    for (const view of notations.values()) view.markEvidence([]);
    showExcerpt(step);
    // A lesson that opens at its beginning shows its title.
    if (!first || step > 0) steps[step]?.bringIntoView();
    if (first) return;
    status.textContent = `Step ${step + 1} of ${data.steps.length}: ${data.steps[step]?.title ?? ''}`;
  }

  function show(progress: Progress): void {
    const { at, step, moving, playing, asking, excerpt, trouble } = progress;
    // Where the lesson rests is of no interest to who looks at a note or practises, and would lie over its marks.
    const elsewhere = !moving && (look.isOpen() || practising.isOn());
    const sounding =
      playing === undefined || elsewhere ? { notes: [] } : whatSounds(playing.timeline, playing.at);
    showScore(sounding.score ?? '');
    showStep(step);
    notations.get(sounding.score ?? '')?.mark(sounding.bar, sounding.notes, moving);
    for (const view of steps) {
      view.markWord(sounding.say, sounding.word);
      view.setWaiting(asking);
    }
    transcript.mark(sounding.say, sounding.word, moving);
    transport.update(at, step, moving);
    look.onProgress(progress);
    const inLesson = excerpt === undefined && playing !== undefined ? playing.at : undefined;
    caption.show(settings.captions ? inLesson : undefined);
    setText(notice, trouble === undefined ? (sound.silentBecause() ?? '') : `The sound failed: ${trouble}`);
    keeper.open(step);
    if (moving && excerpt === undefined) notePassed(step, at);
    if (moving && excerpt === undefined && at >= (timeline.steps[step]?.end ?? Infinity) - heardBefore)
      keeper.heard(step);
  }

  function change(changed: Partial<Settings>): void {
    settings = { ...settings, ...changed };
    storeSettings(settings);
    applySettings();
  }

  const wideEnough = matchMedia(wide);
  function applySettings(): void {
    document.documentElement.dataset['theme'] = settings.theme;
    root.classList.toggle('with-captions', settings.captions);
    sound.setVolume(settings);
    options.update(settings);
    tempo.update(settings);
    player.setPace({ music: settings.tempo / 100, speech: settings.speechRate / 100 });
    const whole = settings.extent === 'whole' || (settings.extent === 'fitting' && wideEnough.matches);
    for (const view of notations.values()) view.showWhole(whole);
    const now = player.progress();
    showExcerpt(now.step);
    look.refresh();
    show(now);
  }
  wideEnough.addEventListener('change', applySettings);
  new ResizeObserver(() => {
    notations.get(shownScore ?? '')?.layOut();
    // Scrolled by keyboard, but no stop on the way where there is nothing to scroll.
    if (music.scrollHeight > music.clientHeight) music.tabIndex = 0;
    else music.removeAttribute('tabindex');
  }).observe(sheet);
  closePullUps(root);
  const kept = keeper.now();
  addEventListener('hashchange', () => {
    const step = linkedStep(location.hash);
    if (step !== undefined) moves.goTo(step);
  });
  showKept(kept);
  showAnswered();
  moves.goTo(Math.min(linkedStep(location.hash) ?? kept.step, data.steps.length - 1));
  applySettings();
}
