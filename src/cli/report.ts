import { renderDiagnostic } from '../diagnostics/index.js';
import type { Code, Diagnostic } from '../diagnostics/index.js';
import type { Terminal } from './terminal.js';

/** A finding about the run itself. */
export function runFinding(code: Code, message: string, help?: string): Diagnostic {
  return { code, severity: 'error', message, ...(help === undefined ? {} : { help }) };
}

/** Prints a finding to standard error. */
export function complain(terminal: Terminal, diagnostic: Diagnostic): void {
  terminal.writeError(renderDiagnostic(diagnostic, terminal.errorLayout));
}
