import { existsSync } from 'node:fs';
import puppeteer, { type Browser } from 'puppeteer-core';

/** The path of a Firefox: `$FIREFOX` where it is set, else an installed one; `undefined` where there is none. */
export function firefoxProgram(): string | undefined {
  const named = process.env['FIREFOX'];
  if (named !== undefined && named !== '') return named;
  return [
    '/usr/bin/firefox-esr',
    '/usr/bin/firefox',
    '/Applications/Firefox.app/Contents/MacOS/firefox',
  ].find(path => existsSync(path));
}

/** Firefox's own stand-in for a sound device, so that its audio clock runs on machines that have none. */
const soundDevice = { 'media.cubeb.force_mock_context': true };

/** What is scrolled into view stands at once, so that a pointer meets what it was sent to, however slow the machine is. */
const still = { 'general.smoothScroll': false };

/** Starts a stock Firefox, driven by WebDriver BiDi; `preferences` are those of about:config. */
export async function launchFirefox(
  program: string,
  preferences: Readonly<Record<string, unknown>> = {},
): Promise<Browser> {
  return puppeteer.launch({
    browser: 'firefox',
    executablePath: program,
    headless: true,
    extraPrefsFirefox: { ...soundDevice, ...still, ...preferences },
  });
}
