import { add, fraction, type Fraction } from './fraction.js';

/** What a `Q:` field says; a field with words only has no beat. */
export interface Tempo {
  readonly beat?: Fraction;
  readonly beatsPerMinute?: number;
  readonly text?: string;
}

/** Reads a `Q:` field (ABC 2.1, section 3.1.8); the old form `Q:120` counts unit note lengths. `undefined` for anything else. */
export function readTempo(value: string, unit: Fraction): Tempo | undefined {
  const words = [...value.matchAll(/"([^"]*)"/g)]
    .map(match => match[1]?.trim() ?? '')
    .filter(word => word !== '');
  const text = words.length === 0 ? {} : { text: words.join(' ') };
  const rest = value.replace(/"[^"]*"/g, ' ').trim();
  if (rest === '') return words.length === 0 ? undefined : text;
  const match = /^(?:((?:\d+\/\d+\s*)+)=\s*|C?\s*=?\s*)(\d+(?:\.\d+)?)$/.exec(rest);
  const beatsPerMinute = Number(match?.[2] ?? 0);
  if (match === null || !(beatsPerMinute > 0 && beatsPerMinute <= 1000)) return undefined;
  const parts = [...(match[1] ?? '').matchAll(/(\d{1,4})\/(\d{1,4})/g)].map(
    ([, n, d]) => [Number(n), Number(d)] as const,
  );
  if (parts.some(([n, d]) => n === 0 || d === 0)) return undefined;
  const beat = parts.length === 0 ? unit : parts.map(([n, d]) => fraction(n, d)).reduce(add);
  return { beat, beatsPerMinute, ...text };
}
