import type { Layer } from '../lesson/index.js';
import { storedText, storeText } from './stored.js';

/** What the reader has chosen; kept in the browser where it allows that. */
export interface Settings {
  readonly captions: boolean;
  readonly extent: 'step' | 'whole' | 'fitting';
  /** `own`: the layers that the reader has ticked. */
  readonly labels: 'lesson' | 'own' | 'none';
  readonly layers: readonly Layer[];
  /** Labels are covered and uncovered one at a time. */
  readonly oneByOne: boolean;
  readonly theme: 'system' | 'light' | 'dark';
  readonly keys: boolean;
  /** 0 to 1. */
  readonly music: number;
  readonly speech: number;
  /** Percentage of the lesson's own pace, of music and of speech. */
  readonly tempo: number;
  readonly speechRate: number;
}

/** Everything that can be written at the staff, in the order of its rows. */
export const allLayers: readonly Layer[] = [
  'figures',
  'chords',
  'numerals',
  'functions',
  'keys',
  'non-chord tones',
];

/** Tempo of music, in per cent. */
export const tempoRange = { min: 25, max: 150 } as const;
/** Speech slower or faster than this is no longer easy to follow. */
export const speechRange = { min: 60, max: 150 } as const;

export const defaultSettings: Settings = {
  captions: false,
  extent: 'fitting',
  labels: 'lesson',
  layers: ['chords', 'numerals'],
  oneByOne: false,
  theme: 'system',
  keys: true,
  music: 1,
  speech: 1,
  tempo: 100,
  speechRate: 100,
};

const place = 'barwise.settings';

const among = <T extends string>(value: unknown, allowed: readonly T[], otherwise: T): T =>
  allowed.find(one => one === value) ?? otherwise;
const share = (value: unknown, otherwise: number): number =>
  typeof value === 'number' && value >= 0 && value <= 1 ? value : otherwise;

const within = (value: unknown, { min, max }: { readonly min: number; readonly max: number }): number =>
  typeof value === 'number' && value >= min && value <= max ? value : 100;

/** Reads settings from text; whatever is missing or strange is as at first. */
export function readSettings(text: string | null): Settings {
  let read: unknown;
  try {
    read = JSON.parse(text ?? '{}');
  } catch {
    return defaultSettings;
  }
  if (typeof read !== 'object' || read === null) return defaultSettings;
  const { captions, extent, labels, layers, oneByOne, theme, keys, music, speech, tempo, speechRate } =
    read as Partial<Record<keyof Settings, unknown>>;
  return {
    captions: captions === true,
    extent: among(extent, ['step', 'whole', 'fitting'], defaultSettings.extent),
    labels: among(labels, ['lesson', 'own', 'none'], defaultSettings.labels),
    layers: Array.isArray(layers) ? allLayers.filter(one => layers.includes(one)) : defaultSettings.layers,
    oneByOne: oneByOne === true,
    theme: among(theme, ['system', 'light', 'dark'], defaultSettings.theme),
    keys: keys !== false,
    music: share(music, defaultSettings.music),
    speech: share(speech, defaultSettings.speech),
    tempo: within(tempo, tempoRange),
    speechRate: within(speechRate, speechRange),
  };
}

export const storedSettings = (): Settings => readSettings(storedText(place));

export const storeSettings = (settings: Settings): void => {
  storeText(place, JSON.stringify(settings));
};
