import { catalogue, didYouMean, lookUpCode, wrap } from '../diagnostics/index.js';
import type { Run } from './commands.js';
import { complain, runFinding } from './report.js';

/** `barwise explain [CODE]` */
export const runExplain: Run = ({ operands: [code] }, terminal) => {
  const { width, palette } = terminal.layout;
  const codes = Object.keys(catalogue).sort();
  if (code === undefined) {
    for (const one of codes) {
      const entry = lookUpCode(one);
      if (entry !== undefined) terminal.write(`${palette.strong(one)}  ${entry.name}\n`);
    }
    return Promise.resolve(0);
  }
  const entry = lookUpCode(code);
  if (entry === undefined) {
    const help = didYouMean(code.toUpperCase(), codes) ?? '`barwise explain` lists all codes';
    complain(terminal, runFinding('R0012', `there is no finding \`${code}\``, help));
    return Promise.resolve(2);
  }
  const summary = wrap(entry.summary, width).join('\n');
  terminal.write(
    `${palette.strong(`${entry.code} ${entry.name}`)}\n\n${summary}\n\n${reflowed(entry.explanation, width)}\n`,
  );
  return Promise.resolve(0);
};

/** Markdown for a terminal: paragraphs wrapped, code indented and left as it is. */
function reflowed(markdown: string, width: number): string {
  return markdown
    .split(/^```(?:\w*\n|$)/m)
    .map((part, index) =>
      index % 2 === 0
        ? part
            .split('\n')
            .flatMap(line => wrap(line, width))
            .join('\n')
        : part
            .split('\n')
            .map(line => (line === '' ? '' : `    ${line}`))
            .join('\n'),
    )
    .join('');
}
