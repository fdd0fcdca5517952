/** 0: nothing fails; 1: a claim fails or a lesson has errors; 2: could not run. */
export type ExitCode = 0 | 1 | 2;
