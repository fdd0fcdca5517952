/** What `barwise explain CODE` prints. Codes are stable and never reused. */
export interface CatalogueEntry {
  /** Name of the fault in kebab-case. */
  readonly name: string;
  /** One sentence. */
  readonly summary: string;
  /** Markdown: what it means, an example that raises it, what to do, and the source of the rule where there is one. */
  readonly explanation: string;
}
