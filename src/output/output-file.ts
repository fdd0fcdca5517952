/** A file to be written: its name inside the output folder and what it holds. */
export interface OutputFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}
