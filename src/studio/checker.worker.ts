import { checker } from './check-text.js';
import type { FromWorker, ToWorker } from './checked.js';

const { check, analyseBars } = checker();

addEventListener('message', ({ data }: MessageEvent<ToWorker>) => {
  const answer: FromWorker =
    data.kind === 'check'
      ? { kind: 'checked', result: check(data.work) }
      : { kind: 'analysed', result: analyseBars(data.work) };
  postMessage(answer);
});
