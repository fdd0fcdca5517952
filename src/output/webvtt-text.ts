/** Cue text with the characters that WebVTT gives a meaning written as entities; so `-->` cannot occur either. */
export const escapeCueText = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replace(/\s+/gu, ' ');
