/** What the reader has chosen; kept in the browser where it allows that. */
export interface Settings {
  readonly captions: boolean;
  readonly extent: 'step' | 'whole' | 'fitting';
  readonly labels: 'lesson' | 'none';
  readonly theme: 'system' | 'light' | 'dark';
  readonly keys: boolean;
  /** 0 to 1. */
  readonly music: number;
  readonly speech: number;
}

export const defaultSettings: Settings = {
  captions: false,
  extent: 'fitting',
  labels: 'lesson',
  theme: 'system',
  keys: true,
  music: 1,
  speech: 1,
};

const place = 'barwise.settings';

const among = <T extends string>(value: unknown, allowed: readonly T[], otherwise: T): T =>
  allowed.find(one => one === value) ?? otherwise;
const share = (value: unknown, otherwise: number): number =>
  typeof value === 'number' && value >= 0 && value <= 1 ? value : otherwise;

/** Reads settings from text; whatever is missing or strange is as at first. */
export function readSettings(text: string | null): Settings {
  let read: unknown;
  try {
    read = JSON.parse(text ?? '{}');
  } catch {
    return defaultSettings;
  }
  if (typeof read !== 'object' || read === null) return defaultSettings;
  const { captions, extent, labels, theme, keys, music, speech } = read as Partial<
    Record<keyof Settings, unknown>
  >;
  return {
    captions: captions === true,
    extent: among(extent, ['step', 'whole', 'fitting'], defaultSettings.extent),
    labels: among(labels, ['lesson', 'none'], defaultSettings.labels),
    theme: among(theme, ['system', 'light', 'dark'], defaultSettings.theme),
    keys: keys !== false,
    music: share(music, defaultSettings.music),
    speech: share(speech, defaultSettings.speech),
  };
}

/** The browser's storage, which may be refused or full; then choices last as long as the page. */
export function storedSettings(): Settings {
  try {
    return readSettings(localStorage.getItem(place));
  } catch {
    return defaultSettings;
  }
}

export function storeSettings(settings: Settings): void {
  try {
    localStorage.setItem(place, JSON.stringify(settings));
  } catch {
    // Refused or full: nothing of the lesson depends on it.
  }
}
