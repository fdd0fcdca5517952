import type { Changes } from './check-changes.js';
import type { CheckReport, ReportedClaim } from './check-report.js';
import { summarize } from './check-report.js';
import { findingJson, placeJson } from './finding-json.js';
import type { ProseCoverage } from '../lesson/index.js';

/** The report as JSON, version 1; the keys are a contract and are only ever added to. */
export function checkJson(report: CheckReport): string {
  const lessons = report.lessons.map(lesson => ({
    file: lesson.file,
    diagnostics: lesson.diagnostics.map(findingJson),
    claims: lesson.claims.map(claimJson),
    narration: narrationJson(lesson.prose),
    summary: summarize([lesson]),
  }));
  const { changes } = report;
  const since = changes === undefined ? {} : { since: changesJson(changes) };
  return `${JSON.stringify({ barwise: 1, lessons, summary: summarize(report.lessons), ...since }, null, 2)}\n`;
}

function changesJson({ since, changed, added, gone }: Changes): object {
  return {
    name: since,
    changed: changed.map(({ claim, before }) => ({
      ...placeJson(claim.entry.span),
      path: claim.entry.path,
      text: claim.entry.text,
      // The contract has four words.
      before: before === 'not checked' ? 'undecided' : before,
      now: claim.verdict.verdict,
    })),
    added: added.length,
    addedClaims: added.map(({ entry, verdict }) => ({
      ...placeJson(entry.span),
      path: entry.path,
      text: entry.text,
      now: verdict.verdict,
    })),
    gone: gone.length,
  };
}

function narrationJson({ checked, unchecked, opinions }: ProseCoverage): object {
  return {
    checked,
    unchecked: unchecked.map(({ words, span, step, claim, verdict }) => ({
      words,
      place: placeJson(span),
      step: step + 1,
      claim,
      verdict: verdict?.verdict ?? 'undecided',
      code: verdict?.code ?? 'L0503',
      reason: verdict?.reason ?? '',
    })),
    opinions: opinions.map(({ words, span, step }) => ({ words, place: placeJson(span), step: step + 1 })),
  };
}

function claimJson({ entry, verdict, accepted }: ReportedClaim): object {
  const { line, column, endLine, endColumn } = placeJson(entry.span);
  return {
    path: entry.path,
    line,
    column,
    endLine,
    endColumn,
    text: entry.text,
    verdict: verdict.verdict,
    code: verdict.code,
    reason: verdict.reason,
    evidence: verdict.evidence.map(({ role, pitch, voice, bar, beat, why, span }) => ({
      role,
      pitch,
      voice,
      bar,
      beat,
      why,
      ...(span === undefined ? {} : { place: placeJson(span) }),
    })),
    nearest: verdict.nearest ?? null,
    accepted: accepted ?? null,
  };
}
