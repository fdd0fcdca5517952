import type { PassageEvent } from './model.js';

const manners: Readonly<Record<PassageEvent['as'], string>> = {
  written: '',
  stack: ', the chord stacked in thirds',
  block: ', the chord struck together',
  arpeggio: ', the chord broken upward',
};

/** `bars 5-8, left hand alone, slower`: what is played, in words, for captions, scripts and the running order. */
export function passageText(passage: PassageEvent): string {
  const { first, last } = passage.bars;
  const bars = first === last ? `bar ${first}` : `bars ${first}-${last}`;
  const voice = passage.voice === undefined ? '' : `, ${passage.voice} alone`;
  const version = passage.score === undefined ? '' : ', altered';
  const tempo = passage.tempo < 100 ? ', slower' : passage.tempo > 100 ? ', faster' : '';
  const rounds = passage.rounds === undefined ? '' : `, ${String(passage.rounds)} times round`;
  return `${bars}${manners[passage.as]}${voice}${version}${tempo}${rounds}`;
}
