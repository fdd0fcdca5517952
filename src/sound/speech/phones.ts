/** A phone of an utterance with its times in seconds from the start of the sound; `pau` is silence. */
export interface TimedPhone {
  readonly phone: string;
  readonly start: number;
  readonly end: number;
}

/** Reads a line such as `pau:0.159 f:0.256 ao:0.342`: phones with their end times. */
export function readPhoneTimes(line: string): readonly TimedPhone[] {
  let start = 0;
  return line
    .trim()
    .split(/\s+/u)
    .filter(entry => entry !== '')
    .map(entry => {
      const [phone = '', time = ''] = entry.split(':');
      const timed = { phone, start, end: Number(time) };
      start = timed.end;
      return timed;
    });
}

const isSilence = (phone: string): boolean => phone === 'pau';
const isVowel = (phone: string): boolean => /^[aeiou]/u.test(phone);

/** What it costs to take one phone for another: vowels are weakened in running speech, so they stand for each other cheaply. */
const exchange = (a: string, b: string): number => (a === b ? 0 : isVowel(a) && isVowel(b) ? 0.6 : 1.4);
const skipped = 1;

/** When a word starts and ends, in seconds. */
export interface WordTime {
  readonly start: number;
  readonly end: number;
}

/**
 * Times of the words of an utterance. `words` are the phones of each word on its own, `heard` the phones of the utterance with their
 * times; running speech drops and changes some, so both are aligned with the least change (edit distance) and each heard phone belongs
 * to one word. A word of which nothing is heard gets no length between its neighbours.
 */
export function alignWords(
  words: readonly (readonly string[])[],
  heard: readonly TimedPhone[],
): readonly WordTime[] {
  const wanted = words.flatMap((phones, word) =>
    phones.filter(phone => !isSilence(phone)).map(phone => ({ phone, word })),
  );
  const voiced = heard.filter(({ phone }) => !isSilence(phone));
  const [rows, columns] = [wanted.length + 1, voiced.length + 1];
  const cost = new Float64Array(rows * columns);
  for (let r = 0; r < rows; r += 1) {
    for (let c = 0; c < columns; c += 1) {
      const at = r * columns + c;
      if (r === 0 || c === 0) {
        cost[at] = (r + c) * skipped;
        continue;
      }
      const both =
        (cost[at - columns - 1] ?? 0) + exchange(wanted[r - 1]?.phone ?? '', voiced[c - 1]?.phone ?? '');
      cost[at] = Math.min(both, (cost[at - columns] ?? 0) + skipped, (cost[at - 1] ?? 0) + skipped);
    }
  }
  const times = new Map<number, WordTime>();
  const take = (word: number | undefined, phone: TimedPhone | undefined) => {
    if (word === undefined || phone === undefined) return;
    const known = times.get(word);
    times.set(word, {
      start: Math.min(known?.start ?? Infinity, phone.start),
      end: Math.max(known?.end ?? 0, phone.end),
    });
  };
  let [r, c] = [rows - 1, columns - 1];
  while (r > 0 || c > 0) {
    const at = r * columns + c;
    const both =
      r > 0 && c > 0
        ? (cost[at - columns - 1] ?? 0) + exchange(wanted[r - 1]?.phone ?? '', voiced[c - 1]?.phone ?? '')
        : Infinity;
    if (both === cost[at]) {
      take(wanted[r - 1]?.word, voiced[c - 1]);
      r -= 1;
      c -= 1;
    } else if (c > 0 && (cost[at - 1] ?? 0) + skipped === cost[at]) {
      // A phone that no word asks for belongs to the word around it.
      take(wanted[Math.max(0, r - 1)]?.word, voiced[c - 1]);
      c -= 1;
    } else {
      r -= 1;
    }
  }
  let last = voiced[0]?.start ?? 0;
  return words.map((_, word) => {
    const time = times.get(word) ?? { start: last, end: last };
    last = time.end;
    return time;
  });
}
