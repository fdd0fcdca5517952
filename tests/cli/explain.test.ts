import { expect, test } from 'vitest';
import { run } from '../../src/cli/run.js';
import type { Terminal } from '../../src/cli/terminal.js';
import { catalogue, plainPalette } from '../../src/diagnostics/index.js';

test('every code is explained within the width of the terminal, its example as it was written', async () => {
  const layout = { width: 72, palette: plainPalette };
  const codes = Object.entries(catalogue);
  expect(codes.length).toBeGreaterThan(150);
  for (const [code, { name, explanation }] of codes) {
    let text = '';
    const terminal: Terminal = {
      layout,
      errorLayout: layout,
      write: part => (text += part),
      writeError: part => (text += part),
      progress: () => undefined,
      redraw: () => undefined,
    };
    expect(await run(['explain', code], terminal)).toBe(0);
    expect(text.startsWith(`${code} ${name}\n\n`)).toBe(true);
    const examples = [...explanation.matchAll(/```\w*\n([\s\S]*?)```/g)].flatMap(([, lines = '']) =>
      lines.trimEnd().split('\n'),
    );
    for (const line of examples) expect(text).toContain(line === '' ? '' : `    ${line}`);
    const prose = text.split('\n').filter(line => !line.startsWith('    '));
    expect(prose.filter(line => line.length > layout.width)).toEqual([]);
  }
});
