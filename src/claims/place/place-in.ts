import type { Place } from './place.js';

const kinds: Readonly<Record<Place['kind'], true>> = {
  bars: true,
  beats: true,
  stretch: true,
  'first bars': true,
  'last bars': true,
  side: true,
  portion: true,
  pickup: true,
  section: true,
  piece: true,
};

const isObject = (value: unknown): value is object => typeof value === 'object' && value !== null;

/** Whether a piece of a claim's content is a place. */
export const isPlace = (value: unknown): value is Place =>
  isObject(value) && 'kind' in value && typeof value.kind === 'string' && Object.hasOwn(kinds, value.kind);

/** The places that a claim's content names. */
export function placesIn(content: unknown): readonly Place[] {
  if (!isObject(content)) return [];
  return isPlace(content) ? [content] : Object.values(content).flatMap(placesIn);
}
