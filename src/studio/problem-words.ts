import type { Problem } from '../bridge/index.js';

/** Why the host refused and what to do, in one line. */
export const problemWords = ({ message, help }: Problem): string =>
  help === undefined ? message : `${message}; ${help}`;
