/** What `barwise explain CODE` prints. Codes are stable and never reused. */
export interface CatalogueEntry {
  /** Name of the fault in kebab-case. */
  readonly name: string;
  /** One sentence. */
  readonly summary: string;
  /** Markdown: what it means, an example that raises it, what to do, and the source of the rule where there is one. */
  readonly explanation: string;
}

interface ExplanationParts {
  readonly meaning: string;
  /** Lines of a lesson, a score or a command that raise the finding. */
  readonly example: readonly string[];
  readonly language?: string;
  readonly remedy: string;
  /** Published source of the rule. */
  readonly source?: string;
}

/** The parts of an explanation as one piece of Markdown. */
export function explain({ meaning, example, language = 'yaml', remedy, source }: ExplanationParts): string {
  const parts = [meaning, ['```' + language, ...example, '```'].join('\n'), remedy];
  return [...parts, ...(source === undefined ? [] : [`Source: ${source}`])].join('\n\n');
}
