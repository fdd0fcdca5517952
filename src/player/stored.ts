/** Text kept in the browser; `null` where there is none or the browser refuses. */
export function storedText(name: string): string | null {
  try {
    return localStorage.getItem(name);
  } catch {
    return null;
  }
}

/** Keeps a text in the browser. Storage may be refused or full: nothing of the lesson depends on it, so it then lasts as long as the page. */
export function storeText(name: string, text: string): void {
  try {
    localStorage.setItem(name, text);
  } catch {
    // See above.
  }
}
