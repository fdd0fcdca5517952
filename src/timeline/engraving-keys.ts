/** A key as the engraving library lists it, with the naturals that cancel the key before. */
interface ListedKey {
  readonly accidentals?: readonly { readonly acc: string; readonly note: string }[];
}

/** What is needed of a parsed tune: staves with their keys and the elements of their voices, line by line. */
interface TuneWithKeys {
  readonly lines: readonly {
    readonly staff?: readonly {
      readonly key?: ListedKey;
      readonly voices?: ({ readonly el_type?: string } & ListedKey)[][];
    }[];
  }[];
}

const signatureOf = ({ accidentals = [] }: ListedKey): string =>
  accidentals
    .filter(({ acc }) => acc !== 'natural')
    .map(({ acc, note }) => `${note.toLowerCase()} ${acc}`)
    .sort()
    .join();

/**
 * Takes out of a parsed tune the changes of key that keep the signature (`K:Dm` after `K:F`): there is nothing to draw, and drawn they double
 * the flats at the head of a line.
 */
export function dropUnseenKeys(tune: TuneWithKeys): void {
  for (const { staff: staves = [] } of tune.lines)
    for (const { key = {}, voices = [] } of staves)
      for (const voice of voices) {
        let current = signatureOf(key);
        const kept = voice.filter(element => {
          if (element.el_type !== 'key') return true;
          const before = current;
          current = signatureOf(element);
          return current !== before;
        });
        voice.splice(0, voice.length, ...kept);
      }
}
