/** 0: nothing fails; 1: a claim fails or a lesson has errors; 2: could not run. */
export type ExitCode = 0 | 1 | 2;

/** The worse of two outcomes of one run. */
export const worse = (a: ExitCode, b: ExitCode): ExitCode => (a > b ? a : b);
