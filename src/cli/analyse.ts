import { analysisFormats } from '../output/index.js';
import type { ScoreReport } from '../output/index.js';
import type { Run } from './commands.js';
import { findFiles } from './find-files.js';
import { chosenFormat } from './format-option.js';
import { complain } from './report.js';
import { scoreLibrary } from '../workshop/index.js';

/** Findings after which there is no score to speak of. */
const couldNotOpen = /^R/;

/** `barwise analyse SCORE...` */
export const runAnalyse: Run = async ({ operands, values }, terminal) => {
  const render = chosenFormat(analysisFormats, values['format'], terminal);
  if (render === undefined) return 2;
  const found = await findFiles(operands, ['.abc'], 'score');
  for (const diagnostic of found.diagnostics) complain(terminal, diagnostic);

  const library = scoreLibrary(true);
  const scores: ScoreReport[] = [];
  for (const file of found.files) {
    terminal.progress(`analysing ${scores.length + 1} of ${found.files.length}: ${file}`);
    const { analysis, diagnostics } = await library.load(file);
    scores.push({ file, diagnostics, ...(analysis === undefined ? {} : { analysis }) });
  }
  terminal.write(await render({ scores }, terminal.layout));
  const findings = [...found.diagnostics, ...scores.flatMap(({ diagnostics }) => diagnostics)];
  if (findings.some(({ code }) => couldNotOpen.test(code))) return 2;
  return findings.some(({ severity }) => severity === 'error') ? 1 : 0;
};
