/** What the test and the stand-in for Electron tell each other. The test plays the user: it answers dialogs and chooses from menus. */

/** From the test. */
export type Order =
  | { readonly kind: 'menu'; readonly labels: readonly string[] }
  /** The user closes the window with its own button. */
  | { readonly kind: 'close' }
  | { readonly kind: 'dialog-answer'; readonly number: number; readonly paths: readonly string[] }
  | { readonly kind: 'second-start'; readonly words: readonly string[]; readonly folder: string };

/** To the test. */
export type Report =
  | { readonly kind: 'browser'; readonly port: number }
  | {
      readonly kind: 'window';
      readonly preferences: Readonly<Record<string, unknown>>;
      readonly address: string;
    }
  | {
      readonly kind: 'dialog';
      readonly number: number;
      readonly what: 'open' | 'save';
      readonly options: Readonly<Record<string, unknown>>;
    }
  | { readonly kind: 'error-box'; readonly title: string; readonly content: string }
  | { readonly kind: 'schemes'; readonly schemes: unknown }
  | { readonly kind: 'menu-shown'; readonly labels: readonly (readonly string[])[] }
  | { readonly kind: 'permission'; readonly types: readonly string[]; readonly isGranted: boolean }
  /** Something that the shell refused. */
  | { readonly kind: 'refused'; readonly what: string; readonly address: string };

export const tell = (report: Report): void => {
  process.send?.(report);
};
