import type { Bridge } from '../bridge/index.js';
import { afterPause } from './after-pause.js';
import type { Analysed, Checked, FromWorker, ToWorker } from './checked.js';
import { fileName } from './file-name.js';
import type { Tell } from './notice.js';
import { problemWords } from './problem-words.js';

/** A pause in typing after which the text is checked, in milliseconds. */
const pause = 60;

export interface CheckingHandlers {
  /** The lesson's absolute path and its text; `undefined` where none is open. */
  readonly lesson: () => { readonly path: string; readonly text: string } | undefined;
  /** What was found in the text that was sent last, with every score that it names and that can be read. */
  readonly checked: (checked: Checked) => void;
  readonly analysed: (analysed: Analysed) => void;
  readonly tell: Tell;
}

/** Checks the lesson in a thread of its own, with the scores that it names. */
export interface Checking {
  readonly now: () => void;
  /** Once the author pauses. */
  readonly soon: () => void;
  /** Another lesson: the scores of the former one are forgotten. */
  readonly begin: () => void;
  /** A score has changed on disk. */
  readonly readScoresAgain: () => Promise<void>;
  /** Asks what stands in bars of the lesson's own score, as indexes into its bars. */
  readonly analyse: (bars: readonly [number, number]) => void;
}

export function checking(bridge: Bridge, handlers: CheckingHandlers): Checking {
  const worker = new Worker(new URL('./checker.worker.ts', import.meta.url), { type: 'module' });
  let scores = new Map<string, string | null>();
  /** Number of the score that the window shows. */
  let holds: number | undefined;

  /** Whether a text is being checked, and whether the text has changed since. */
  let isChecking = false;
  let isDue = false;

  const send = (message: ToWorker): void => {
    worker.postMessage(message);
  };
  const now = (): void => {
    const lesson = handlers.lesson();
    if (lesson === undefined) return;
    // However long a text takes, the thread never falls behind by more than one of its states.
    if (isChecking) {
      isDue = true;
      return;
    }
    isChecking = true;
    isDue = false;
    const work = { name: fileName(lesson.path), text: lesson.text, scores };
    send({ kind: 'check', work: holds === undefined ? work : { ...work, holds } });
  };
  const fetchScores = async (wanted: readonly string[]): Promise<void> => {
    const path = handlers.lesson()?.path;
    if (path === undefined) return;
    const found = await Promise.all(
      wanted.map(async named => {
        const answer = await bridge.ask('readScore', { lesson: path, score: named });
        if (!answer.ok) handlers.tell(problemWords(answer.problem), 'fault');
        return [named, answer.ok ? answer.value.text : null] as const;
      }),
    );
    // Meanwhile another lesson may stand here.
    if (handlers.lesson()?.path !== path) return;
    scores = new Map([...scores, ...found]);
    now();
  };
  worker.addEventListener('message', ({ data }: MessageEvent<FromWorker>) => {
    if (data.kind === 'analysed') {
      handlers.analysed(data.result);
      return;
    }
    const { result } = data;
    isChecking = false;
    if (isDue) {
      now();
      return;
    }
    // Without their score claims would seem undecided for a moment.
    if (result.wanted.length > 0) {
      void fetchScores(result.wanted);
      return;
    }
    if (result.isRead) holds = result.score?.id;
    handlers.checked(result);
  });
  return {
    now,
    soon: afterPause(pause, now),
    begin: () => {
      scores = new Map();
      now();
    },
    readScoresAgain: () => fetchScores([...scores.keys()]),
    analyse: bars => {
      send({ kind: 'analyse', work: { bars } });
    },
  };
}
