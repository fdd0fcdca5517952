/** A stretch of a recording, in seconds from its beginning. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}
