/**
 * Whether a claim got no verdict, by the code of what stands in its place: it could not be read, or a score that it speaks of could not.
 * A finding says why.
 */
export const isUnjudged = (code: string): boolean => /^(?:C000[12]|L0503|C2004)$/u.test(code);
