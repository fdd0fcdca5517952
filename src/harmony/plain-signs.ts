/** Raised and lowered figures and typographic signs as plain ones. Same length as the text, so that offsets stay true. */
export const plainSigns = (text: string): string =>
  text.replace(/[⁰¹²³⁴-⁹₀-₉°º♭♯Ø]/gu, sign => {
    // No figure is a nought: one that is raised is meant as the diminished sign.
    if (sign === '⁰') return 'o';
    const superscript = '⁰¹²³⁴⁵⁶⁷⁸⁹'.indexOf(sign);
    const subscript = '₀₁₂₃₄₅₆₇₈₉'.indexOf(sign);
    if (superscript >= 0) return String(superscript);
    if (subscript >= 0) return String(subscript);
    return sign === '♭' ? 'b' : sign === '♯' ? '#' : sign === 'Ø' ? 'ø' : 'o';
  });
