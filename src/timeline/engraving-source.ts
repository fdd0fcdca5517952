import { putMetres, withoutMetresBehindVoices } from '../score/index.js';
import { carryHairpins } from './engraving-hairpins.js';
import { setLineHeads } from './engraving-heads.js';
import { dropUnseenKeys } from './engraving-keys.js';

/** What is needed of a parsed tune by all that is done to it. */
type Tune = Parameters<typeof putMetres>[0] &
  Parameters<typeof setLineHeads>[0] &
  Parameters<typeof carryHairpins>[0] &
  Parameters<typeof dropUnseenKeys>[0];

/** A score on its way through the engraving library. */
export interface EngravingSource {
  /** What the library parses, each sign in its place. */
  readonly text: string;
  /** Puts into the parsed tune what was taken out of its text. */
  readonly restore: <T extends Tune>(tune: T) => T;
  /** Does the same for a tune that is broken into lines other than those of its source, and sets their heads and what runs over their ends. */
  readonly restoreBroken: <T extends Tune>(tune: T, written: T) => T;
}

/** What the page and the reports do to a score before the engraving library parses it, and to the tune afterwards. */
export function engravingSource(score: string): EngravingSource {
  const { abc, metres } = withoutMetresBehindVoices(score);
  const restore = <T extends Tune>(tune: T): T => {
    putMetres(tune, metres);
    return tune;
  };
  return {
    text: abc,
    restore,
    restoreBroken: (tune, written) => {
      restore(tune);
      setLineHeads(tune, written);
      carryHairpins(tune);
      dropUnseenKeys(tune);
      return tune;
    },
  };
}
