import { escapeHtml } from './escape-html.js';
import type { PackedLesson } from './walkthrough-scorm.js';

/**
 * The course structure of a cmi5 package (cmi5, Quartz 1st edition, section 13): one assignable unit a lesson, satisfied when it is completed.
 * `id` is an IRI that names the course; the same course keeps it.
 */
export function cmi5Structure(id: string, title: string, lessons: readonly PackedLesson[]): string {
  const text = (content: string): string => `<langstring lang="en">${escapeHtml(content)}</langstring>`;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<courseStructure xmlns="https://w3id.org/xapi/profiles/cmi5/v1/CourseStructure.xsd">',
    `  <course id="${escapeHtml(id)}">`,
    `    <title>${text(title)}</title>`,
    `    <description>${text(title)}</description>`,
    '  </course>',
    ...lessons.flatMap(lesson => [
      `  <au id="${escapeHtml(`${id}/${lesson.id}`)}" moveOn="Completed" launchMethod="AnyWindow">`,
      `    <title>${text(lesson.title)}</title>`,
      `    <description>${text(lesson.description ?? lesson.title)}</description>`,
      `    <url>${escapeHtml(lesson.page)}</url>`,
      '  </au>',
    ]),
    '</courseStructure>',
    '',
  ].join('\n');
}
