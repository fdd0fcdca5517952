import { createHash } from 'node:crypto';
import { isAbsolute } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { VerdictWord } from '../claims/index.js';
import { catalogue } from '../diagnostics/index.js';
import type { Code, Diagnostic, Span } from '../diagnostics/index.js';
import type { CheckOptions, CheckReport, LessonReport, ReportedClaim } from './check-report.js';
import { shownClaims } from './check-report.js';
import { placeJson } from './finding-json.js';
import { shownFindings } from './prose-findings.js';

/** What becomes a SARIF result, before equal ones are told apart. */
interface Result {
  readonly code: Code;
  readonly kind: 'fail' | 'pass' | 'review' | 'open';
  readonly level: 'error' | 'warning' | 'note' | 'none';
  readonly message: string;
  readonly span?: Span;
  readonly related: readonly { readonly span: Span; readonly message: string }[];
  readonly accepted?: string;
}

/** SARIF 2.1.0, 3.27.9 and 3.27.10: what is no failure has the level `none`. */
const kinds: Readonly<Record<VerdictWord, Pick<Result, 'kind' | 'level'>>> = {
  holds: { kind: 'pass', level: 'none' },
  arguable: { kind: 'review', level: 'none' },
  undecided: { kind: 'open', level: 'none' },
  fails: { kind: 'fail', level: 'error' },
};

/** The report in the Static Analysis Results Interchange Format, version 2.1.0 (OASIS Standard, 27 March 2020). */
export function checkSarif(report: CheckReport, options: CheckOptions): string {
  const results = report.lessons.flatMap(lesson => lessonResults(lesson, options));
  const codes = [...new Set(results.map(({ code }) => code))].sort();
  const seen = new Map<string, number>();
  const log = {
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: {
            name: 'Barwise',
            ...(options.version === undefined ? {} : { version: options.version }),
            rules: codes.map(rule),
          },
        },
        columnKind: 'utf16CodeUnits',
        results: results.map(result => ({
          ruleId: result.code,
          ruleIndex: codes.indexOf(result.code),
          kind: result.kind,
          level: result.level,
          message: { text: result.message },
          ...(result.span === undefined ? {} : { locations: [location(result.span)] }),
          ...(result.related.length === 0
            ? {}
            : {
                relatedLocations: result.related.map(({ span, message }, id) => ({
                  id,
                  ...location(span),
                  message: { text: message },
                })),
              }),
          partialFingerprints: { 'barwise/v1': fingerprint(result, seen) },
          ...(result.accepted === undefined
            ? {}
            : { suppressions: [{ kind: 'inSource', justification: result.accepted }] }),
        })),
      },
    ],
  };
  return `${JSON.stringify(log, null, 2)}\n`;
}

function lessonResults(lesson: LessonReport, options: CheckOptions): readonly Result[] {
  return [
    ...shownFindings(lesson, options.unchecked === true).map(findingResult),
    ...shownClaims(lesson, options.all).map(claimResult),
  ];
}

function findingResult({
  code,
  severity,
  message,
  span,
  notes = [],
  help,
  related = [],
}: Diagnostic): Result {
  const text = [message, ...notes, ...(help === undefined ? [] : [`help: ${help}`])].join('\n');
  return {
    code,
    kind: 'fail',
    level: severity,
    message: text,
    related,
    ...(span === undefined ? {} : { span }),
  };
}

function claimResult({ entry, verdict, accepted }: ReportedClaim): Result {
  const { code, reason, nearest, evidence } = verdict;
  return {
    code,
    ...kinds[verdict.verdict],
    message: [
      `${verdict.verdict}: ${reason}`,
      ...(nearest === undefined ? [] : [`nearest true statement: ${nearest}`]),
    ].join('\n'),
    span: entry.span,
    related: evidence.flatMap(({ span, role, pitch, voice, bar, beat, why }) =>
      span === undefined
        ? []
        : [
            {
              span,
              message: `${role}: ${pitch} (${voice}, bar ${bar} beat ${beat})${why === '' ? '' : `: ${why}`}`,
            },
          ],
    ),
    ...(accepted === undefined ? {} : { accepted }),
  };
}

function rule(code: Code): object {
  const { name, summary, explanation } = catalogue[code];
  return {
    id: code,
    name,
    shortDescription: { text: summary },
    help: { text: explanation.replace(/^```.*$\n?/gm, '').replace(/`/g, ''), markdown: explanation },
  };
}

function location(span: Span): object {
  const { file, line, column, endLine, endColumn } = placeJson(span);
  return {
    physicalLocation: {
      artifactLocation: { uri: fileUri(file) },
      region: { startLine: line, startColumn: column, endLine, endColumn },
    },
  };
}

/** A path as a URI: absolute ones as `file:`, the others relative to where the program was started. */
const fileUri = (path: string): string =>
  isAbsolute(path)
    ? pathToFileURL(path).href
    : encodeURI(path.replaceAll('\\', '/')).replace(/[?#]/g, encodeURIComponent);

/**
 * A name of a result that stays while lines move: what was found in which words of which file, and the how-manieth of its kind it is.
 * @param seen how many of each kind there were so far
 */
function fingerprint({ code, span, message }: Result, seen: Map<string, number>): string {
  const words =
    span === undefined ? message : span.source.text.slice(span.start, span.end).replace(/\s+/g, ' ');
  const kind = JSON.stringify([code, span?.source.name ?? '', words]);
  const before = seen.get(kind) ?? 0;
  seen.set(kind, before + 1);
  return createHash('sha256')
    .update(JSON.stringify([kind, before]))
    .digest('hex')
    .slice(0, 32);
}
