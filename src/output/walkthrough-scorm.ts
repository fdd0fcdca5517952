import { readdirSync, readFileSync } from 'node:fs';
import { escapeHtml } from './escape-html.js';
import type { OutputFile } from './output-file.js';

/** One lesson of a package: where its page lies and what it is called. */
export interface PackedLesson {
  /** Tells the lessons of the package apart; letters, digits and hyphens. */
  readonly id: string;
  readonly title: string;
  readonly description?: string;
  readonly page: string;
}

/** A title has at most 200 characters (IMS Content Packaging 1.1.2, titleType). */
const short = (title: string): string => [...title].slice(0, 200).join('');

/** The published schemas, copied letter by letter; they stand beside this file, and beside the bundle that it ends up in. */
const schemaFolder = 'scorm-1.2/';

/**
 * The schemas that the manifest is read by. A package holds them beside its manifest, so that a platform can validate it offline (ADL SCORM 1.2
 * Content Aggregation Model, section 2.3; ADL's own conformance test rejects a package without them).
 */
export function scormSchemas(): readonly OutputFile[] {
  const folder = new URL(schemaFolder, import.meta.url);
  return readdirSync(folder)
    .sort()
    .map(name => ({ name, bytes: readFileSync(new URL(name, folder)) }));
}

/**
 * The manifest of a SCORM 1.2 package (ADL SCORM 1.2 Content Aggregation Model, section 2.3; IMS Content Packaging 1.1.2): one item a lesson, each
 * page a sharable content object. `id` names the course.
 */
export function scormManifest(id: string, title: string, lessons: readonly PackedLesson[]): string {
  const text = escapeHtml;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<manifest identifier="${text(id)}" version="1.0" xmlns="http://www.imsproject.org/xsd/imscp_rootv1p1p2" xmlns:adlcp="http://www.adlnet.org/xsd/adlcp_rootv1p2" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" xsi:schemaLocation="http://www.imsproject.org/xsd/imscp_rootv1p1p2 imscp_rootv1p1p2.xsd http://www.adlnet.org/xsd/adlcp_rootv1p2 adlcp_rootv1p2.xsd">`,
    '  <metadata>',
    '    <schema>ADL SCORM</schema>',
    '    <schemaversion>1.2</schemaversion>',
    '  </metadata>',
    '  <organizations default="course">',
    '    <organization identifier="course">',
    `      <title>${text(short(title))}</title>`,
    ...lessons.flatMap(lesson => [
      `      <item identifier="item-${lesson.id}" identifierref="page-${lesson.id}" isvisible="true">`,
      `        <title>${text(short(lesson.title))}</title>`,
      '      </item>',
    ]),
    '    </organization>',
    '  </organizations>',
    '  <resources>',
    ...lessons.flatMap(({ id: lesson, page }) => [
      `    <resource identifier="page-${lesson}" type="webcontent" adlcp:scormtype="sco" href="${text(page)}">`,
      `      <file href="${text(page)}"/>`,
      '    </resource>',
    ]),
    '  </resources>',
    '</manifest>',
    '',
  ].join('\n');
}
