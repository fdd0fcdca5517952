import type { Diagnostic } from '../diagnostics/index.js';
import { analysisFormats } from '../output/index.js';
import type { ScoreReport } from '../output/index.js';
import { loadScore } from '../workshop/index.js';
import type { Run } from './commands.js';
import { findFiles } from './find-files.js';
import { chosenFormat } from './format-option.js';
import { complain } from './report.js';

/** Findings after which there is no score to speak of. */
const couldNotOpen = /^R/;

/** `barwise analyse SCORE...` */
export const runAnalyse: Run = async ({ operands, values }, terminal) => {
  const render = chosenFormat(analysisFormats, values['format'], terminal);
  if (render === undefined) return 2;
  const found = await findFiles(operands, ['.abc'], 'score');
  for (const diagnostic of found.diagnostics) complain(terminal, diagnostic);

  const findings: Diagnostic[] = [...found.diagnostics];
  async function* analysed(): AsyncGenerator<ScoreReport> {
    for (const [index, file] of found.files.entries()) {
      terminal.progress(`analysing ${index + 1} of ${found.files.length}: ${file}`);
      const { analysis, diagnostics } = await loadScore(file);
      findings.push(...diagnostics);
      yield { file, diagnostics, ...(analysis === undefined ? {} : { analysis }) };
    }
  }
  for await (const text of render(analysed(), terminal.layout)) terminal.write(text);
  if (findings.some(({ code }) => couldNotOpen.test(code))) return 2;
  return findings.some(({ severity }) => severity === 'error') ? 1 : 0;
};
