export type { WalkthroughClip, WalkthroughInput, WalkthroughScore } from './walkthrough-input.js';
export { buildSite } from './walkthrough-site.js';
export type { Platform, SiteInput } from './walkthrough-site.js';
export { readPlayerBundle } from './player-bundle.js';
export type { PlayerBundle } from './player-bundle.js';
export type { OutputFile } from './output-file.js';
export { captionsSrt } from './captions-srt.js';
export { captionsWebvtt } from './captions-webvtt.js';
export { chapterList } from './chapter-list.js';
export { chaptersWebvtt } from './chapters-webvtt.js';
export { timelineJson } from './timeline-json.js';
export { analysisFormats } from './analysis-formats.js';
export type { ScoreReport, ScoreReports } from './analysis-report.js';
export { changesSince, earlierLesson, readEarlierReport } from './check-changes.js';
export type { Changes, EarlierReport } from './check-changes.js';
export { checkFormats } from './check-formats.js';
export { checkTextParts } from './check-text.js';
export { passes, reportedClaim, summarize } from './check-report.js';
export type {
  CheckOptions,
  CheckReport,
  CheckSummary,
  LessonReport,
  ReportedClaim,
  Subject,
} from './check-report.js';
export { counted } from './counted.js';
export { findingJson } from './finding-json.js';
export { sweepParts } from './sweep-parts.js';
export { checkWritable, writeWhole } from './write-whole.js';
export { walkthroughFiles } from './walkthrough-files.js';
export type { BuiltWalkthrough, WalkthroughFilesInput } from './walkthrough-files.js';
export { performanceMidi } from './performance-midi.js';
export { speakingScript } from './speaking-script.js';
export { transcript } from './transcript.js';
export { rehearsal, remarksOnStep } from './rehearsal.js';
export type { RehearsalOptions } from './rehearsal.js';
export { companionFiles, companions } from './companions.js';
export type { Companion } from './companions.js';
export { clockTime } from './time-code.js';
