const small = [
  'zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve', 'thirteen',
  'fourteen', 'fifteen', 'sixteen', 'seventeen', 'eighteen', 'nineteen',
] as const; // prettier-ignore
const tens = ['', '', 'twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'] as const;
const ordinals: Readonly<Record<string, string>> = {
  one: 'first', two: 'second', three: 'third', five: 'fifth', eight: 'eighth', nine: 'ninth', twelve: 'twelfth',
}; // prettier-ignore

function belowThousand(value: number): readonly string[] {
  const hundreds = Math.floor(value / 100);
  const rest = value % 100;
  const head = hundreds === 0 ? [] : [small[hundreds] ?? '', 'hundred'];
  if (rest === 0) return head;
  if (rest < 20) return [...head, small[rest] ?? ''];
  return [...head, tens[Math.floor(rest / 10)] ?? '', ...(rest % 10 === 0 ? [] : [small[rest % 10] ?? ''])];
}

/** A whole number from 0 to 999,999,999 in words, `twenty`, `one`; digit by digit beyond that. */
export function cardinal(value: number): readonly string[] {
  if (!Number.isSafeInteger(value) || value < 0 || value > 999_999_999) return digits(String(value));
  if (value === 0) return ['zero'];
  const groups: readonly (readonly [number, string])[] = [
    [Math.floor(value / 1_000_000), 'million'],
    [Math.floor(value / 1000) % 1000, 'thousand'],
    [value % 1000, ''],
  ];
  return groups.flatMap(([group, name]) =>
    group === 0 ? [] : [...belowThousand(group), ...(name === '' ? [] : [name])],
  );
}

/** `twenty`, `first`. */
export function ordinal(value: number): readonly string[] {
  const words = cardinal(value);
  const last = words.at(-1) ?? '';
  const ending = ordinals[last] ?? (last.endsWith('y') ? `${last.slice(0, -1)}ieth` : `${last}th`);
  return [...words.slice(0, -1), ending];
}

/** Digit by digit: `six`, `four`. Characters that are no digits are left out. */
export const digits = (text: string): readonly string[] =>
  [...text].flatMap(digit => small[Number(digit)] ?? []);

/** A year as it is read: `seventeen`, `eighty`, `one`; `two`, `thousand`, `five`. */
export function year(value: number): readonly string[] {
  const [century, rest] = [Math.floor(value / 100), value % 100];
  if (century === 20 && rest < 10) return cardinal(value);
  if (rest === 0) return [...cardinal(century), 'hundred'];
  return [...cardinal(century), ...(rest < 10 ? ['oh', small[rest] ?? ''] : cardinal(rest))];
}

/** A catalogue number in groups: 331 is `three`, `thirty`, `one`. */
export function catalogueNumber(value: number): readonly string[] {
  if (value < 100 || value > 999 || value % 100 === 0) return cardinal(value);
  const rest = value % 100;
  return [small[Math.floor(value / 100)] ?? '', ...(rest < 10 ? ['oh', small[rest] ?? ''] : cardinal(rest))];
}
