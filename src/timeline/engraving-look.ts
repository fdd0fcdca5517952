/** Text of an engraved score is set in the face of the page around it. */
const face = 'Libertinus Serif';

/** How every page and report engraves a score. Sizes are those of the engraving, where a staff is 31 units high. */
export const engravingLook = {
  add_classes: true,
  foregroundColor: 'currentColor',
  paddingleft: 0,
  paddingright: 0,
  paddingtop: 0,
  paddingbottom: 0,
  selectTypes: false,
  format: {
    tempofont: `"${face}" 16`,
    annotationfont: `"${face}" 15 italic`,
    gchordfont: `"${face}" 16`,
    vocalfont: `"${face}" 15`,
    measurefont: `"${face}" 13 italic`,
    repeatfont: `"${face}" 14`,
    partsfont: `"${face}" 17`,
    voicefont: `"${face}" 15`,
    tripletfont: `"${face}" 13 italic`,
  },
} as const;
