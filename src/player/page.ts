import type { Layer } from '../lesson/index.js';
import { captionAt, readCaptions } from './captions.js';
import { html } from './dom.js';
import { spokenTime } from './durations.js';
import { lessonPlayer, type Progress } from './lesson-player.js';
import { withAccidentals } from './notation/label-text.js';
import { notationView, type NotationView } from './notation/notation-view.js';
import { optionsView } from './options-view.js';
import type { PageBlocks } from './page-blocks.js';
import { storeSettings, storedSettings, type Settings } from './settings.js';
import { listenForShortcuts, type Shortcut } from './shortcuts.js';
import type { Sound } from './sound/sound.js';
import { stepView } from './step-view.js';
import { transportView } from './transport-view.js';
import { whatSounds } from './what-sounds.js';

/** The sheet is beside the words from this width on (see layout.css); then the whole score fits. */
const wide = '(min-width: 60rem) and (min-height: 34rem)';
/** Half the time that one frame of the display stays, in seconds: marks come neither early nor late on the whole. */
const frameAhead = 0.008;
/** Going back within this time of a step's start means the step before. */
const backWithin = 2;

/** Builds the page in `root` and wires its parts together. */
export function buildPage(root: HTMLElement, blocks: PageBlocks, sound: Sound): void {
  const { data } = blocks;
  const { timeline } = data;
  const captions = readCaptions(blocks.captions);
  let settings = storedSettings();
  const answered = new Set<string>();

  const layersOfSteps = data.steps.map(step => step.show);
  const stepStarts = new Set(data.steps.map(step => step.firstBar));
  const notations = new Map<string, NotationView>();
  for (const [index, score] of data.scores.entries())
    notations.set(index === 0 ? '' : score.path, notationView(score, stepStarts, layersOfSteps));

  const status = html('p', { class: 'visually-hidden', role: 'status' });
  const notice = html('p', { class: 'notice' });
  const captionLine = html('p', { class: 'caption' });
  const sheetTitle = html('div', { class: 'sheet-title' });
  const sheet = html(
    'div',
    { class: 'sheet' },
    sheetTitle,
    ...[...notations.values()].map(view => view.element),
  );

  const music = html('main', { class: 'music', 'aria-label': 'Score' }, sheet);

  const player = lessonPlayer(timeline, sound, show);
  const steps = data.steps.map((_, index) =>
    stepView(data, index, {
      goTo: step => {
        goTo(step);
      },
      playAction: (step, action) => {
        const event = timeline.events.find(one => one.step === step && one.action === action);
        player.send({ kind: 'seek', to: event?.start ?? timeline.steps[step]?.start ?? 0 });
        player.send({ kind: 'play' });
      },
      answered: ask => {
        answered.add(ask);
        showExcerpt(player.progress().step);
      },
      goOn: () => {
        player.send({ kind: 'continue' });
      },
      showEvidence: evidence => {
        notations.get('')?.markEvidence(evidence);
      },
    }),
  );

  const toggle = (): void => {
    const { transport } = player.progress();
    if (transport.kind === 'asking') player.send({ kind: 'continue' });
    else player.send({ kind: transport.kind === 'resting' ? 'play' : 'pause' });
  };
  const goTo = (step: number): void => {
    const start = timeline.steps[step]?.start;
    if (start !== undefined) player.send({ kind: 'seek', to: start });
  };
  const next = (): void => {
    goTo(Math.min(data.steps.length - 1, player.progress().step + 1));
  };
  const previous = (): void => {
    const { at, step } = player.progress();
    const start = timeline.steps[step]?.start ?? 0;
    goTo(at > start + backWithin ? step : Math.max(0, step - 1));
  };

  const shortcuts: readonly Shortcut[] = [
    { key: ' ', name: 'Space', does: 'play or pause', run: toggle },
    { key: 'n', name: 'N', does: 'next step', run: next },
    { key: 'p', name: 'P', does: 'previous step', run: previous },
    {
      key: 'c',
      name: 'C',
      does: 'captions on or off',
      run: () => {
        change({ captions: !settings.captions });
      },
    },
    {
      key: 'l',
      name: 'L',
      does: 'labels on or off',
      run: () => {
        change({ labels: settings.labels === 'none' ? 'lesson' : 'none' });
      },
    },
  ];
  const options = optionsView(settings, shortcuts, change);
  listenForShortcuts(shortcuts, () => settings.keys);

  const transport = transportView(
    data,
    {
      toggle,
      previous,
      next,
      seek: to => {
        player.send({ kind: 'seek', to });
      },
    },
    options.element,
  );
  const about = [
    data.author,
    `${data.steps.length} steps`,
    spokenTime(timeline.seconds),
    withAccidentals(data.home),
  ];
  const heading = html(
    'header',
    { class: 'heading' },
    html('h1', {}, data.title),
    html('p', { class: 'about' }, about.filter(part => part !== undefined).join(' · ')),
    ...(data.description === undefined ? [] : [html('p', { class: 'description' }, data.description)]),
  );
  root.replaceChildren(
    music,
    html(
      'section',
      { class: 'words', 'aria-label': 'Lesson' },
      heading,
      html('ol', { class: 'steps' }, ...steps.map(step => step.element)),
    ),
    html('footer', { class: 'controls' }, notice, captionLine, transport.element),
    status,
  );

  let shownStep = -1;
  let shownScore: string | undefined;

  function excerptLayers(step: number): ReadonlySet<Layer> {
    const shown = data.steps[step];
    // A label must not give away the answer to a question that still stands.
    const open = shown?.script.some(action => action.kind === 'ask' && !answered.has(action.id)) ?? false;
    return settings.labels === 'none' || open ? new Set() : new Set(shown?.show ?? []);
  }

  function showExcerpt(step: number): void {
    const { firstBar = 0, lastBar = 0 } = data.steps[step] ?? {};
    for (const view of notations.values())
      view.showExcerpt({ firstBar, lastBar, layers: excerptLayers(step) });
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
    if (first) return;
    status.textContent = `Step ${step + 1} of ${data.steps.length}: ${data.steps[step]?.title ?? ''}`;
    steps[step]?.bringIntoView();
  }

  function show({ transport: state, at, step, heard, trouble }: Progress): void {
    const moving = state.kind === 'running' || state.kind === 'preparing';
    const atRest = state.kind === 'resting' && at === timeline.steps[step]?.start;
    const shownAt = moving ? at + frameAhead : at;
    const sounding = atRest || !heard ? { notes: [] } : whatSounds(timeline, shownAt);
    showScore(sounding.score ?? '');
    showStep(step);
    notations.get(sounding.score ?? '')?.mark(sounding.bar, sounding.notes, moving);
    for (const view of steps) {
      view.markWord(sounding.say, sounding.word);
      view.setWaiting(state.kind === 'asking' ? state.ask : undefined);
    }
    transport.update(at, step, moving);
    captionLine.textContent = settings.captions && !atRest ? (captionAt(captions, at)?.text ?? '') : '';
    notice.textContent = trouble === undefined ? (sound.silentBecause ?? '') : `The sound failed: ${trouble}`;
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
    const whole = settings.extent === 'whole' || (settings.extent === 'fitting' && wideEnough.matches);
    for (const view of notations.values()) view.showWhole(whole);
    const now = player.progress();
    showExcerpt(now.step);
    show(now);
  }
  wideEnough.addEventListener('change', applySettings);
  new ResizeObserver(() => {
    notations.get(shownScore ?? '')?.layOut();
    // Scrolled by keyboard, but no stop on the way where there is nothing to scroll.
    if (music.scrollHeight > music.clientHeight) music.tabIndex = 0;
    else music.removeAttribute('tabindex');
  }).observe(sheet);
  applySettings();
}
