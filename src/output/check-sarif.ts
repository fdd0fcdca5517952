import { createHash } from 'node:crypto';
import { isAbsolute } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { VerdictWord } from '../claims/index.js';
import { catalogue, lookUpCode } from '../diagnostics/index.js';
import type { Code, Diagnostic, Span } from '../diagnostics/index.js';
import { isUnjudged } from '../lesson/index.js';
import { sinceInWords } from './check-changes.js';
import type { Changes } from './check-changes.js';
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
  /** The lesson, for what has no place of its own in it. */
  readonly file: string;
  readonly span?: Span;
  /** What it is found again by: the words in question. */
  readonly about: readonly string[];
  readonly related: readonly { readonly span: Span; readonly message: string }[];
  readonly accepted?: string;
  readonly baseline?: 'new' | 'unchanged' | 'updated' | 'absent';
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
  const { changes } = report;
  const results = [
    ...report.lessons.flatMap(lesson => lessonResults(lesson, changes, options)),
    ...(changes === undefined ? [] : absentResults(changes, options)),
  ];
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
          locations: [result.span === undefined ? fileLocation(result.file) : location(result.span)],
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
          ...(result.baseline === undefined ? {} : { baselineState: result.baseline }),
          ...(result.accepted === undefined
            ? {}
            : { suppressions: [{ kind: 'inSource', justification: result.accepted }] }),
        })),
      },
    ],
  };
  return `${JSON.stringify(log, null, 2)}\n`;
}

function lessonResults(
  lesson: LessonReport,
  changes: Changes | undefined,
  options: CheckOptions,
): readonly Result[] {
  // A claim that holds is shown where it did not before.
  const shown = new Set([
    ...shownClaims(lesson, options.all),
    ...lesson.claims.filter(claim => sinceInWords(changes, claim) !== undefined),
  ]);
  return [
    ...shownFindings(lesson, options.unchecked === true).map(finding =>
      findingResult(finding, lesson.file, changes),
    ),
    ...lesson.claims.filter(claim => shown.has(claim)).map(claim => claimResult(claim, changes)),
  ];
}

/** What was found earlier and is found no longer (SARIF 2.1.0, 3.27.24: `absent`). */
function absentResults({ since, gone, goneFindings }: Changes, options: CheckOptions): readonly Result[] {
  const absent = { level: 'none', related: [], baseline: 'absent' } as const;
  const findings = goneFindings.flatMap(({ file, was: { code, message } }): Result[] =>
    isCode(code) && (options.unchecked === true || !isOfProse(code))
      ? [
          {
            ...absent,
            code,
            kind: 'fail',
            message: `gone since ${since}: ${message}`,
            file,
            about: [code, message],
          },
        ]
      : [],
  );
  const claims = gone.flatMap(({ file, was: { code, text, verdict, reason } }): Result[] =>
    isCode(code) && !isUnjudged(code) && (options.all || verdict !== 'holds')
      ? [
          {
            ...absent,
            code,
            kind: kinds[verdict].kind,
            message: `gone since ${since}: ${text}\n${verdict}: ${reason}`,
            file,
            about: ['claim', text],
          },
        ]
      : [],
  );
  return [...findings, ...claims];
}

/** An earlier report may be of another version of the program. */
const isCode = (code: string): code is Code => lookUpCode(code) !== undefined;
const isOfProse = (code: Code): boolean => code === 'L0505' || code === 'L0506';

/** The same finding; those about the narration are made anew each time. */
const isSame = (a: Diagnostic, b: Diagnostic): boolean =>
  a.code === b.code &&
  a.message === b.message &&
  a.span?.start === b.span?.start &&
  a.span?.source.name === b.span?.source.name;

function findingResult(finding: Diagnostic, file: string, changes: Changes | undefined): Result {
  const { code, severity, message, span, notes = [], help, related = [] } = finding;
  const text = [message, ...notes, ...(help === undefined ? [] : [`help: ${help}`])].join('\n');
  return {
    code,
    kind: 'fail',
    level: severity,
    message: text,
    file: span?.source.name ?? file,
    about: [code, span === undefined ? message : wordsAt(span)],
    related,
    ...(span === undefined ? {} : { span }),
    ...(changes === undefined
      ? {}
      : { baseline: changes.newFindings.some(each => isSame(each, finding)) ? 'new' : 'unchanged' }),
  };
}

function claimResult(claim: ReportedClaim, changes: Changes | undefined): Result {
  const { entry, verdict, accepted } = claim;
  const since = sinceInWords(changes, claim);
  const { code, reason, nearest, evidence } = verdict;
  return {
    code,
    ...kinds[verdict.verdict],
    message: [
      `${verdict.verdict}: ${reason}`,
      ...(nearest === undefined ? [] : [`nearest true statement: ${nearest}`]),
      ...(since === undefined ? [] : [since]),
    ].join('\n'),
    file: entry.span.source.name,
    about: ['claim', entry.text],
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
    ...(changes === undefined
      ? {}
      : {
          baseline: since !== undefined ? 'updated' : changes.added.includes(claim) ? 'new' : 'unchanged',
        }),
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

const wordsAt = ({ source, start, end }: Span): string => source.text.slice(start, end).replace(/\s+/g, ' ');

const fileLocation = (file: string): object => ({
  physicalLocation: { artifactLocation: { uri: fileUri(file) } },
});

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
 * A name of a result that stays while lines move and verdicts change: what was found in which words of which file, or which claim was judged,
 * and the how-manieth of its kind it is.
 * @param seen how many of each kind there were so far
 */
function fingerprint({ file, about }: Result, seen: Map<string, number>): string {
  const kind = JSON.stringify([file, ...about]);
  const before = seen.get(kind) ?? 0;
  seen.set(kind, before + 1);
  return createHash('sha256')
    .update(JSON.stringify([kind, before]))
    .digest('hex')
    .slice(0, 32);
}
