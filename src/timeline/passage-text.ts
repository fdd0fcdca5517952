import type { PassageEvent } from './model.js';

const manners: Readonly<Record<PassageEvent['as'], readonly [one: string, several: string]>> = {
  written: ['', ''],
  stack: [', the chord stacked in thirds', ', the chords stacked in thirds'],
  block: [', the chord struck together', ', each chord struck together'],
  arpeggio: [', the chord broken upward', ', the chords broken upward'],
};

const one = (label: string): string => (label === '0' ? 'the pickup' : `bar ${label}`);

/** `bars 5–8`, `bar 5`; the bar before the first one by its name: `the pickup and bars 1–4`. For everything that is read. */
export function barsText({ first, last }: PassageEvent['bars']): string {
  if (first === last) return one(first);
  if (first !== '0') return `bars ${first}–${last}`;
  return `the pickup and ${last === '1' ? one(last) : `bars 1–${last}`}`;
}

/** `bars 5–8, Left hand alone, slower`: what is played, in words, for captions, scripts and the running order. */
export function passageText(passage: PassageEvent): string {
  const [manner, ofSeveral] = manners[passage.as];
  const voice = passage.voiceName === undefined ? '' : `, ${passage.voiceName} alone`;
  const version = passage.score === undefined ? '' : ', altered';
  const tempo = passage.tempo < 100 ? ', slower' : passage.tempo > 100 ? ', faster' : '';
  const rounds = passage.rounds === undefined ? '' : `, ${String(passage.rounds)} times round`;
  const chords = (passage.chords ?? 1) > 1 ? ofSeveral : manner;
  return `${barsText(passage.bars)}${chords}${voice}${version}${tempo}${rounds}`;
}
