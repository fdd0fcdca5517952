/** Abbreviations and signs of the trade and what is said for them. All common practice. Keys are as written, case included. */
export const termWords: ReadonlyMap<string, string> = new Map([
  // cadences
  ['PAC', 'perfect authentic cadence'],
  ['IAC', 'imperfect authentic cadence'],
  ['HC', 'half cadence'],
  ['DC', 'deceptive cadence'],
  // functions
  ['PD', 'predominant'],
  // directions
  ['D.C.', 'da capo'],
  ['D.S.', 'dal segno'],
  ['Fine', 'fee-nay'],
  // dynamics
  ['ppp', 'pianississimo'],
  ['pp', 'pianissimo'],
  ['p', 'piano'],
  ['mp', 'mezzo piano'],
  ['mf', 'mezzo forte'],
  ['f', 'forte'],
  ['ff', 'fortissimo'],
  ['fff', 'fortississimo'],
  ['sf', 'sforzando'],
  ['sfz', 'sforzando'],
  ['fp', 'forte piano'],
  // tempo
  ['rit.', 'ritardando'],
  ['rall.', 'rallentando'],
  ['accel.', 'accelerando'],
  // octave signs
  ['8va', 'an octave higher'],
  ['8vb', 'an octave lower'],
  ['15ma', 'two octaves higher'],
  ['15mb', 'two octaves lower'],
  ['+6', 'augmented sixth'],
  // hands
  ['LH', 'left hand'],
  ['L.H.', 'left hand'],
  ['RH', 'right hand'],
  ['R.H.', 'right hand'],
  // metre signs
  ['C|', 'cut time'],
  ['M:C|', 'cut time'],
  ['M:C', 'common time'],
  // catalogue
  ['op.', 'opus'],
  ['Op.', 'opus'],
  ['no.', 'number'],
  ['No.', 'number'],
  // reading
  ['e.g.', 'for example'],
  ['i.e.', 'that is'],
  ['etc.', 'et cetera'],
  ['vs.', 'versus'],
  ['cf.', 'compare'],
  ['&', 'and'],
  ['=', 'equals'],
  ['->', 'to'],
  ['→', 'to'],
]);

/** Words of prose that the voice is given in another spelling, because they sound alike only in another meaning. All common practice. */
export const homographs: ReadonlyMap<string, string> = new Map([
  ['bass', 'base'],
  ['basses', 'bases'],
  ['basslines', 'base lines'],
  ['bassline', 'base line'],
  ['lead', 'leed'],
  ['leads', 'leeds'],
  ['wound', 'wownd'],
]);

/** Note values before `=`: `♩ = 96`. */
export const noteValueWords: ReadonlyMap<string, string> = new Map([
  ['♩', 'quarter note'],
  ['♪', 'eighth note'],
  ['𝅗𝅥', 'half note'],
  ['𝅝', 'whole note'],
  ['♩.', 'dotted quarter note'],
  ['1/4', 'quarter note'],
  ['1/8', 'eighth note'],
  ['1/2', 'half note'],
  ['3/8', 'dotted quarter note'],
]);
