import { checker } from './check-many.js';
import type { Answer, Order } from './check-many.js';
import type { ExitCode } from './exit-code.js';

/** Serves orders of `checkMany` in a process of its own, until the one that started it lets go. */
export function checkInProcess(): Promise<ExitCode> {
  const check = checker(process.argv.includes('--allow-outside'));
  return new Promise((ended, failed) => {
    process.on('message', ({ index, file, withSubject }: Order) => {
      check(file, withSubject).then(checked => {
        const answer: Answer = { index, checked };
        process.send?.(answer);
      }, failed);
    });
    process.once('disconnect', () => {
      ended(0);
    });
  });
}
