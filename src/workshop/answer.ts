import type { Answer, Problem } from '../bridge/index.js';
import { systemWords } from './reading/read-source.js';

export interface Refusal {
  readonly ok: false;
  readonly problem: Problem;
}

export const granted = <T>(value: T): Answer<T> => ({ ok: true, value });

export const refused = (message: string, help?: string): Refusal => ({
  ok: false,
  problem: { message, ...(help === undefined ? {} : { help }) },
});

/** The code with which the system refused to do something; any other error is a fault of the program and is thrown on. */
export function systemCode(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  // Codes of the library itself begin with ERR_ and speak of its caller.
  if (typeof code === 'string' && !code.startsWith('ERR_')) return code;
  throw error;
}

/** The system's refusal in words: `what` says what was not done. */
export const refusedBySystem = (error: unknown, what: string, help?: string): Refusal =>
  refused(`${what}: ${systemWords(systemCode(error))}`, help);
