/** How reports look: the paper, ink and pencil of the walkthrough (src/player/style/paper.css), set as a document. */
export const reportStyle = `
:root {
  color-scheme: light dark;
  --desk: light-dark(#f3efe5, #14130f);
  --sheet: light-dark(#fdfbf6, #1d1b17);
  --ink: light-dark(#1c1a17, #eee7da);
  --soft: light-dark(#5c564b, #b3aa99);
  --rule: light-dark(#d9d2c3, #444037);
  --pencil: light-dark(#1f4b8e, #9dc0f2);
  --red: light-dark(#b3201a, #ff8f7a);
  --amber: light-dark(#7a5200, #e5bd6b);
  --lit: light-dark(#f6dfa6, #5a4715);
}
*, *::before, *::after { box-sizing: border-box; }
html { font-size: clamp(100%, 0.9rem + 0.3vw, 118.75%); -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body {
  margin: 0;
  background: var(--desk);
  color: var(--ink);
  font-family: 'Libertinus Serif', 'Accidentals', 'Palatino Linotype', Palatino, Georgia, serif;
  line-height: 1.45;
  font-variant-numeric: lining-nums;
  text-rendering: optimizeLegibility;
}
main { max-width: 76rem; margin: 0 auto; padding: clamp(1rem, 4vw, 3.5rem) clamp(0.875rem, 4vw, 3rem) 4rem; }
h1, h2, p, ol, ul, dl, dd, figure, table { margin: 0; padding: 0; }
h1 { font-size: clamp(1.6rem, 1.2rem + 1.8vw, 2.4rem); font-weight: 400; line-height: 1.12; letter-spacing: -0.01em; text-wrap: balance; }
h2 { font-size: 1.3rem; font-weight: 600; line-height: 1.25; text-wrap: balance; }
a { color: inherit; text-decoration-color: var(--pencil); text-decoration-thickness: 1px; text-underline-offset: 0.2em; }
:focus-visible { outline: 0.1875rem solid var(--pencil); outline-offset: 0.1875rem; border-radius: 0.125rem; }
code { font-family: inherit; font-variant-numeric: lining-nums tabular-nums; }
.eyebrow, .soft { color: var(--soft); }
.eyebrow { font-style: italic; }
.head { padding-bottom: 1.5rem; border-bottom: 1px solid var(--ink); }
.head h1 { margin: 0.15rem 0 0.35rem; }
.counts { display: flex; flex-wrap: wrap; gap: 0.25rem 1.75rem; margin-top: 1rem; list-style: none; font-size: 1.15rem; }
.counts b { font-weight: 600; }
.facts { display: grid; grid-template-columns: max-content minmax(0, 1fr); gap: 0.2rem 1.25rem; margin-top: 1.1rem; font-size: 0.95rem; }
.facts dt { color: var(--soft); font-style: italic; }
.facts dd { overflow-wrap: anywhere; }
.hash { font-variant-numeric: lining-nums tabular-nums; letter-spacing: 0.01em; }
.legend { display: flex; flex-wrap: wrap; gap: 0.25rem 1.5rem; margin-top: 1.1rem; list-style: none; font-size: 0.95rem; color: var(--soft); }
.legend svg { width: 1.35em; height: 1.35em; vertical-align: -0.32em; margin-inline-end: 0.35em; }
.glyphs { position: absolute; }

.holds { --tone: var(--pencil); }
.arguable, .undecided { --tone: var(--amber); }
.fails, .unjudged { --tone: var(--red); }
.sign { width: 1em; height: 1em; vertical-align: -0.12em; fill: none; stroke: currentColor; stroke-width: 1.6; }
.verdict { color: var(--tone); font-weight: 600; white-space: nowrap; }

.overview { padding-bottom: 1.5rem; border-bottom: 1px solid var(--ink); margin-bottom: 2.5rem; }
.overview ul { list-style: none; margin-top: 0.5rem; columns: 24rem auto; }
.overview .bad { color: var(--red); }
.overview .doubtful { color: var(--amber); }
.lesson + .lesson { margin-top: 3.5rem; }

.findings { margin-top: 2rem; padding: 1rem 1.25rem; background: var(--sheet); border: 1px solid var(--rule); }
.findings ul { list-style: none; margin-top: 0.5rem; }
.findings li + li { margin-top: 0.75rem; }
.findings .error > b { color: var(--red); }
.findings .warning > b { color: var(--amber); }

.step { padding: 2rem 0 2.25rem; border-bottom: 1px solid var(--rule); }
.step > header { display: flex; flex-wrap: wrap; align-items: baseline; justify-content: space-between; gap: 0 1.25rem; margin-bottom: 1rem; }
.step > header .count { color: var(--soft); font-weight: 400; margin-inline-end: 0.5em; }
.beside { display: grid; grid-template-columns: minmax(0, 1fr); gap: 1.25rem 3rem; }
.long > .music { columns: 20rem 2; column-gap: 2.5rem; }
.long .system { break-inside: avoid; }
.music { min-width: 0; padding: 0.75rem 1rem; background: var(--sheet); border: 1px solid var(--rule); align-self: start; }
.system { display: block; height: auto; overflow: visible; color: var(--ink); }
.system + .system { margin-top: 0.5rem; }
.system text { stroke: none; }
.bar-number { fill: var(--soft); font-style: italic; }
.words > * + * { margin-top: 0.7rem; }
.words p, .words li { hyphens: auto; text-wrap: pretty; }
.words ul, .words ol { padding-inline-start: 1.25rem; }
.played { color: var(--soft); font-style: italic; font-size: 0.95rem; }
.question { padding-inline-start: 0.9rem; border-inline-start: 2px solid var(--rule); }
.narration .claim { text-decoration: underline dotted var(--tone); text-decoration-thickness: 2px; text-underline-offset: 0.22em; }
.narration .claim.fails { text-decoration-style: wavy; text-decoration-thickness: 1px; }
.ref { font-size: 0.72em; line-height: 0; vertical-align: 0.45em; margin-inline-start: 0.12em; text-decoration: none; color: var(--pencil); font-weight: 600; font-variant-numeric: lining-nums tabular-nums; }
.words ol.claims { list-style: none; padding: 0; margin-top: 1.1rem; border-top: 1px solid var(--rule); }
.verdict-note { display: grid; grid-template-columns: 2rem minmax(0, 1fr); padding: 0.5rem 0; border-bottom: 1px solid var(--rule); font-size: 0.95rem; break-inside: avoid; scroll-margin: 2rem; }
.verdict-note > .number { color: var(--soft); text-decoration: none; font-variant-numeric: lining-nums tabular-nums; }
.verdict-note .statement { display: flex; flex-wrap: wrap; justify-content: space-between; gap: 0 1rem; }
.verdict-note .statement b { font-weight: 600; }
.verdict-note.holds .statement b { font-weight: 400; }
.verdict-note:target { background: linear-gradient(90deg, var(--lit), transparent 70%); }
.verdict-note .why { color: var(--soft); }
.verdict-note:not(.holds) .why { color: inherit; }
.verdict-note .why code { color: var(--soft); font-size: 0.9em; }
.evidence { display: grid; grid-template-columns: max-content minmax(0, 1fr); gap: 0 0.75rem; margin-top: 0.25rem; }
.evidence dt { color: var(--soft); font-style: italic; }
.nearest { margin-top: 0.25rem; }
.nearest i, .accepted i { color: var(--soft); }

.marks { fill: none; stroke-width: 1.7; }
.marks text { font-weight: 600; stroke: none; font-variant-numeric: lining-nums tabular-nums; }
.marks tspan { fill: var(--tone); }
.marks .for { stroke: var(--pencil); color: var(--pencil); }
.marks .against { stroke: var(--red); }
.marks .aside { stroke: var(--soft); }
.marks > .asked { visibility: hidden; }

.labels { fill: var(--pencil); stroke: none; }
.label.chord { fill: var(--ink); font-weight: 600; }
.label.function { fill: var(--soft); }
.label.key { font-style: italic; }
.key-line { fill: none; stroke: var(--pencil); stroke-width: 1; }

.line { display: grid; grid-template-columns: minmax(0, 1fr); gap: 1rem 2.5rem; padding: 1.75rem 0; border-bottom: 1px solid var(--rule); }
.harmonies { width: 100%; border-collapse: collapse; font-size: 0.95rem; align-self: start; }
.harmonies th { font-weight: 400; font-style: italic; color: var(--soft); text-align: start; padding: 0 0.75rem 0.25rem 0; border-bottom: 1px solid var(--ink); white-space: nowrap; }
.harmonies td { padding: 0.4rem 0.75rem 0.4rem 0; vertical-align: top; border-bottom: 1px solid var(--rule); }
.harmonies .aside { overflow-wrap: anywhere; }
.harmonies tr { break-inside: avoid; }
.harmonies td.bar { font-variant-numeric: lining-nums tabular-nums; white-space: nowrap; }
.harmonies td.chord { font-weight: 600; white-space: nowrap; }
.stack { display: inline-flex; flex-direction: column-reverse; line-height: 1.12; }
.stack .bass { text-decoration: underline; text-decoration-thickness: 1px; text-underline-offset: 0.15em; }
.numeral { color: var(--pencil); white-space: nowrap; font-size: 1.08em; }
.numeral sup { font-size: 0.68em; line-height: 0; }
.figures { display: inline-flex; flex-direction: column; vertical-align: middle; font-size: 0.62em; line-height: 0.95; }
.passages { display: grid; grid-template-columns: repeat(auto-fit, minmax(15rem, 1fr)); gap: 1.5rem 3rem; padding-top: 2rem; }
.passages h2 { font-size: 1.05rem; }
.passages ul { list-style: none; margin-top: 0.35rem; }
.score + .score { margin-top: 4rem; }

@media (min-width: 58rem) {
  .beside:not(.long) { grid-template-columns: minmax(0, 11fr) minmax(0, 10fr); }
  .beside:not(.long) > .music { position: sticky; top: 1.25rem; max-height: calc(100vh - 2.5rem); overflow: auto; }
  .line { grid-template-columns: minmax(0, 11fr) minmax(0, 10fr); }
}
@media (max-width: 30rem) {
  .facts { grid-template-columns: minmax(0, 1fr); }
  .facts dd { margin-bottom: 0.4rem; }
  .music { padding: 0.5rem; margin-inline: -0.5rem; }
  .harmonies td, .harmonies th { padding-inline-end: 0.6rem; }
  .harmonies { font-size: 0.9rem; }
  .harmonies th { white-space: normal; }
  .harmonies .key { display: none; }
}
@media print {
  :root { color-scheme: light; --desk: #fff; --sheet: #fff; }
  @page { size: A4; margin: 16mm 15mm 18mm; }
  html { font-size: 9.5pt; }
  main { max-width: none; padding: 0; }
  .beside, .line { gap: 0.75rem 1.75rem; }
  .beside:not(.long), .line { grid-template-columns: minmax(0, 11fr) minmax(0, 10fr); }
  /* An item of a grid is not broken over pages. */
  .beside.long { display: block; }
  .beside.long > .words { margin-top: 1rem; }
  .on-screen { display: none; }
  .beside > .music { position: static; max-height: none; overflow: visible; }
  .music { border: 0; padding: 0; }
  .step { padding: 1.1rem 0 1.2rem; }
  .step > header, .head { break-after: avoid; }
  .system, .findings li { break-inside: avoid; }
  .line { break-inside: avoid; padding: 0.9rem 0; }
}
`;
