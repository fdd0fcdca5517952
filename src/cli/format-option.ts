import { didYouMean } from '../diagnostics/index.js';
import { complain, runFinding } from './report.js';
import type { Terminal } from './terminal.js';

/** The renderer that `--format` names; the text renderer where it is absent. Complains and returns `undefined` for any other. */
export function chosenFormat<R>(
  formats: Readonly<Record<string, R>> & { readonly text: R },
  asked: string | undefined,
  terminal: Terminal,
): R | undefined {
  if (asked === undefined) return formats.text;
  if (Object.hasOwn(formats, asked)) return formats[asked];
  const names = Object.keys(formats);
  const help = didYouMean(asked, names) ?? `formats: ${names.map(name => `\`${name}\``).join(', ')}`;
  complain(terminal, runFinding('R0008', `there is no format \`${asked}\``, help));
  return undefined;
}
