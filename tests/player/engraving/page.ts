/** What runs in the browser: engraves a score with as many lines at a time as it is told, and says what was drawn. */
import { engrave } from '../../../src/player/notation/engrave.js';
import type { DrawnSystem } from '../../../src/player/notation/engrave.js';

const kinds = [
  'tie',
  'slur',
  'ending',
  'dynamics',
  'voice-name',
  'tempo',
  'rest',
  'note',
  'bar',
  'time-signature',
];

/** A line by what does not depend on how far down the page it was drawn. */
const told = ({ drawing, left, right, top, bottom, staffTop, staffBottom, voices }: DrawnSystem) => ({
  drawn: Object.fromEntries(
    kinds.map(kind => [kind, drawing.querySelectorAll(`[data-name="${kind}"], .abcjs-${kind}`).length]),
  ),
  ends: [left, right].map(Math.round),
  heights: [staffTop - top, staffBottom - staffTop, bottom - staffBottom].map(Math.round),
  items: voices.map(voice =>
    voice.map(({ kind, from, x, heads }) => [kind, from, Math.round(x), heads.length]),
  ),
});

const engraved = (abc: string, width: number, size: number): readonly ReturnType<typeof told>[] => {
  const place = document.createElement('div');
  document.body.append(place);
  const lines = [...engrave(abc, place, width, new Set(), { measured: 1000, engraved: size })].flatMap(
    piece => (piece ?? []).map(told),
  );
  place.remove();
  return lines;
};
Reflect.set(globalThis, 'engraved', engraved);
