import { createHash } from 'node:crypto';
import { contradictedClaims } from '../timeline/index.js';
import type { PageData } from '../timeline/index.js';
import { escapeHtml } from './escape-html.js';
import { htmlDocument } from './html-document.js';
import type { OutputFile } from './output-file.js';
import type { PlayerBundle } from './player-bundle.js';
import { clockTime } from './time-code.js';
import { cmi5Structure } from './walkthrough-cmi5.js';
import { walkthroughData } from './walkthrough-data.js';
import { walkthroughHtml } from './walkthrough-html.js';
import type { SharedAssets } from './walkthrough-html.js';
import type { WalkthroughInput } from './walkthrough-input.js';
import { scormManifest, scormSchemas } from './walkthrough-scorm.js';
import type { PackedLesson } from './walkthrough-scorm.js';
import { zip } from './zip.js';

export type Platform = NonNullable<PageData['reportsTo']>;

export interface SiteInput {
  readonly title: string;
  /** In the order in which they are to be studied; their names differ. */
  readonly lessons: readonly [WalkthroughInput, ...WalkthroughInput[]];
  /** Learning platforms that a package is made for as well. */
  readonly platforms: readonly Platform[];
}

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
const digest = (text: string): string => createHash('sha256').update(text).digest('hex').slice(0, 12);

/** The shared files carry their content in their name, so that a browser never keeps an old one. */
const assetNames = ({ script, style }: PlayerBundle): SharedAssets => ({
  script: `program-${digest(script)}.js`,
  style: `look-${digest(style)}.css`,
});

function lessonEntry(page: string, data: PageData): string {
  const steps = data.steps.map(
    (step, index) => `<li><a href="${escapeHtml(page)}#step-${index + 1}">${escapeHtml(step.title)}</a></li>`,
  );
  const draft = contradictedClaims(data).length > 0 ? 'draft' : undefined;
  const about = [draft, data.author, `${data.steps.length} steps`, clockTime(data.timeline.seconds)];
  return [
    '<li class="lesson">',
    `<h2><a href="${escapeHtml(page)}">${escapeHtml(data.title)}</a></h2>`,
    `<p class="about">${escapeHtml(about.filter(part => part !== undefined).join(' · '))}</p>`,
    ...(data.description === undefined ? [] : [`<p>${escapeHtml(data.description)}</p>`]),
    `<ol>${steps.join('')}</ol>`,
    '</li>',
  ].join('\n');
}

/** The table of contents: every lesson with its steps, each a way straight into it. It needs no program. */
const indexPage = (title: string, style: string, entries: readonly string[]): string =>
  htmlDocument({
    title,
    policy:
      "default-src 'none'; style-src 'self'; font-src data:; img-src data:; base-uri 'none'; form-action 'none'",
    style: `<link rel="stylesheet" href="${escapeHtml(style)}">`,
    className: 'course',
    body: ['<main>', `<h1>${escapeHtml(title)}</h1>`, '<ol class="lessons">', ...entries, '</ol>', '</main>'],
  });

/** A package for a learning platform: the pages, each whole in itself, and what the platform reads about them. */
function packageFor(platform: Platform, title: string, lessons: SiteInput['lessons']): OutputFile {
  const packed = lessons.map((lesson): { readonly about: PackedLesson; readonly file: OutputFile } => {
    const data: PageData = { ...walkthroughData(lesson), reportsTo: platform };
    const page = `${lesson.name}.html`;
    const id = `${lesson.name.replace(/[^A-Za-z0-9]+/g, '-')}-${data.id}`;
    return {
      about: {
        id,
        title: data.title,
        page: encodeURIComponent(page),
        ...(data.description === undefined ? {} : { description: data.description }),
      },
      file: { name: page, bytes: encode(walkthroughHtml(lesson, data)) },
    };
  });
  const about = packed.map(one => one.about);
  const course = digest([title, ...about.map(({ id }) => id)].join('\n'));
  const [name, described]: readonly [string, readonly OutputFile[]] =
    platform === 'cmi5'
      ? [
          'course-cmi5.zip',
          [{ name: 'cmi5.xml', bytes: encode(cmi5Structure(`urn:barwise:course:${course}`, title, about)) }],
        ]
      : [
          'course-scorm-1.2.zip',
          [
            {
              name: 'imsmanifest.xml',
              bytes: encode(scormManifest(`course-${course}`, title, about)),
            },
            ...scormSchemas(),
          ],
        ];
  return { name, bytes: zip([...described, ...packed.map(({ file }) => file)]) };
}

/**
 * A course as files of one folder: a table of contents, a page and captions for each lesson, the program and the look once for all, and a
 * package for each learning platform that is asked for. Equal input gives equal bytes.
 */
export function buildSite({ title, lessons, platforms }: SiteInput): readonly OutputFile[] {
  const [{ player }] = lessons;
  const shared = assetNames(player);
  const pages = lessons.map(lesson => ({
    lesson,
    data: walkthroughData(lesson),
    page: `${lesson.name}.html`,
  }));
  return [
    {
      name: 'index.html',
      bytes: encode(
        indexPage(
          title,
          shared.style,
          pages.map(({ page, data }) => lessonEntry(encodeURIComponent(page), data)),
        ),
      ),
    },
    { name: shared.script, bytes: encode(player.script) },
    { name: shared.style, bytes: encode(player.style) },
    ...pages.flatMap(({ lesson, data, page }) => [
      { name: page, bytes: encode(walkthroughHtml(lesson, data, shared)) },
      { name: `${lesson.name}.vtt`, bytes: encode(lesson.captions) },
    ]),
    ...platforms.map(platform => packageFor(platform, title, lessons)),
  ];
}
