/** Pronunciations of the names of the letters, which the embedded voice would read as words. CMU phones, stress as digits. */
const letterPhones: Readonly<Record<string, string>> = {
  A: 'ey1', B: 'b iy1', C: 's iy1', D: 'd iy1', E: 'iy1', F: 'eh1 f', G: 'jh iy1', H: 'ey1 ch', I: 'ay1', J: 'jh ey1', K: 'k ey1', L: 'eh1 l', M: 'eh1 m',
  N: 'eh1 n', O: 'ow1', P: 'p iy1', Q: 'k y uw1', R: 'aa1 r', S: 'eh1 s', T: 't iy1', U: 'y uw1', V: 'v iy1', W: 'd ah1 b ax0 l y uw0', X: 'eh1 k s', Y: 'w ay1', Z: 'z iy1',
}; // prettier-ignore

/** Words of the trade that the voice's own dictionary lacks or that its spelling rules get wrong, and the respellings of homographs. */
const tradePhones: Readonly<Record<string, string>> = {
  acciaccatura: 'ax0 ch ae1 k ax0 t uh1 r ax0',
  appoggiatura: 'ax0 p aa1 jh ax0 t uh1 r ax0',
  cambiata: 'k aa0 m b y aa1 t ax0',
  dal: 'd aa1 l',
  fee: 'f iy1',
  hemiola: 'hh eh0 m iy0 ow1 l ax0',
  italian: 'ih0 t ae1 l y ax0 n',
  kloss: 'k l ow1 s',
  kloze: 'k l ow1 z',
  leed: 'l iy1 d',
  leeds: 'l iy1 d z',
  lyve: 'l ay1 v',
  nay: 'n ey1',
  picardy: 'p ih1 k er0 d iy0',
  plagal: 'p l ey1 g ax0 l',
  rallentando: 'r aa0 l ax0 n t aa1 n d ow0',
  ritardando: 'r iy0 t aa0 r d aa1 n d ow0',
  segno: 's eh1 n y ow0',
  sforzando: 's f ao0 r t s aa1 n d ow0',
  wownd: 'w aw1 n d',
  tonicization: 't aa0 n ih0 s ih0 z ey1 sh ax0 n',
  tonicize: 't aa1 n ih0 s ay0 z',
  tonicizes: 't aa1 n ih0 s ay0 z ax0 z',
};

/** How a spoken word is written for the embedded voice: letter names get a spelling of their own. */
export const voiceWord = (word: string): string =>
  /^[A-Z]$/u.test(word) ? `letter${word.toLowerCase()}` : word;

/** The embedded voice's additions to its dictionary, one entry a line. */
export const voiceLexicon: string = [
  ...Object.entries(letterPhones).map(([letter, phones]) => `${voiceWord(letter)} 0 : ${phones}`),
  ...Object.entries(tradePhones).map(([word, phones]) => `${word} 0 : ${phones}`),
  '',
].join('\n');
