import type { ScoreReport, ScoreReports } from './analysis-report.js';
import { counted } from './counted.js';
import { analysisLine } from './report/analysis-line.js';
import { analysisPassages } from './report/analysis-passages.js';
import { startEngraver } from './report/engraver.js';
import type { Engraver } from './report/engraver.js';
import { engravePassages } from './report/excerpts.js';
import { findingsSection } from './report/findings.js';
import { sharedGlyphs } from './report/glyphs.js';
import { element, text } from './report/markup.js';
import type { Markup } from './report/markup.js';
import { reportPage } from './report/page.js';
import type { PlacedSystem } from './report/placed-system.js';

/** Width of a line of the score beside its table, in units of the engraving (a staff is 31 high). */
const lineWidth = 450;

/**
 * The analyses as one self-contained HTML document: every line of the score with chord, numeral, function and key under the beats, and
 * beside it the harmonies one by one, their tones stacked in thirds, what is set aside and why.
 */
export async function* analysisHtml(scores: ScoreReports): AsyncGenerator<string> {
  const engraver = await startEngraver();
  const glyphs = sharedGlyphs();
  const articles: Markup[] = [];
  let title = counted(0, 'score');
  for await (const score of scores) {
    articles.push(scoreArticle(engraver, glyphs.share, score));
    title = articles.length === 1 ? titleOf(score) : counted(articles.length, 'score');
  }
  yield reportPage(`${title}: analysis`, element('main', {}, glyphs.definitions(), ...articles));
}

const titleOf = ({ file, analysis }: ScoreReport): string =>
  analysis === undefined || analysis.score.title === '' ? file : analysis.score.title;

function scoreArticle(engraver: Engraver, share: (markup: Markup) => Markup, report: ScoreReport): Markup {
  const { file, diagnostics, analysis } = report;
  const composer = analysis?.score.composer ?? '';
  const size =
    analysis === undefined
      ? []
      : [
          counted(analysis.score.bars.length, 'bar'),
          counted(analysis.segments.length, 'harmony', 'harmonies'),
          counted(analysis.keyAreas.length, 'key area'),
          counted(analysis.cadences.length, 'cadence'),
        ];
  const head = element(
    'header',
    { class: 'head' },
    element('p', { class: 'eyebrow' }, 'Harmony, bar by bar'),
    element('h1', {}, text(titleOf(report))),
    element('p', { class: 'soft' }, text([composer, file].filter(part => part !== '').join(' · '))),
    element('ul', { class: 'counts' }, ...size.map(part => element('li', {}, text(part)))),
    size.length === 0
      ? ''
      : element(
          'p',
          { class: 'legend' },
          'Tones are stacked in thirds from the root up; the one in the bass is underlined.',
        ),
  );
  const body =
    analysis === undefined
      ? []
      : [
          ...systemsOf(engraver, report).map(system => analysisLine(analysis, system, share, lineWidth)),
          analysisPassages(analysis),
        ];
  return element('article', { class: 'score' }, head, findingsSection(diagnostics), ...body);
}

/** The lines of the whole score; where it cannot be drawn, one line without music that has every bar. */
function systemsOf(engraver: Engraver, { analysis }: ScoreReport): readonly (PlacedSystem | undefined)[] {
  if (analysis === undefined) return [];
  const { score } = analysis;
  try {
    const [systems = []] = engravePassages(
      engraver,
      score,
      [{ firstBar: 0, lastBar: score.bars.length - 1 }],
      lineWidth,
    );
    return systems.length > 0 ? systems : [undefined];
  } catch {
    return [undefined];
  }
}
