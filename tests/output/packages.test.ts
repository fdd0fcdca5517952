import { JSDOM } from 'jsdom';
import { beforeAll, describe, expect, test } from 'vitest';
import { validateXML } from 'xmllint-wasm';
import { buildSite } from '../../src/output/walkthrough-site.js';
import { practiceLesson } from '../browser/practice-lesson.js';
import { unpacked } from './unpacked.js';

const player = { script: '0', style: '' };
/** 219 characters, with every sign that XML takes for its own. */
const longTitle = `Back <again> & "over" 𝄪 ${'♯ and on '.repeat(22)}`.trim();
let scorm: ReadonlyMap<string, Buffer>;
let cmi5: ReadonlyMap<string, Buffer>;

beforeAll(async () => {
  const lesson = await practiceLesson(player);
  const other = await practiceLesson(player, { title: longTitle });
  const files = buildSite({
    title: 'Crossing the river',
    lessons: [
      { ...lesson, name: 'way-out' },
      { ...other, name: 'way back' },
    ],
    platforms: ['SCORM 1.2', 'cmi5'],
  });
  const archive = (name: string): ReadonlyMap<string, Buffer> =>
    unpacked(files.find(file => file.name === name)?.bytes ?? new Uint8Array());
  scorm = archive('course-scorm-1.2.zip');
  cmi5 = archive('course-cmi5.zip');
});

const textOf = (files: ReadonlyMap<string, Buffer>, name: string): string =>
  files.get(name)?.toString('utf8') ?? '';

describe('a SCORM 1.2 package', () => {
  const schemas = ['adlcp_rootv1p2.xsd', 'ims_xml.xsd', 'imscp_rootv1p1p2.xsd', 'imsmd_rootv1p2p1.xsd'];

  /** What the schemas that the package carries, those published by IMS and ADL, find wrong with a manifest. */
  async function faults(manifest: string): Promise<readonly string[]> {
    const file = (name: string) => ({ fileName: name, contents: textOf(scorm, name) });
    const [first = '', ...rest] = schemas;
    const { errors } = await validateXML({
      xml: [{ fileName: 'imsmanifest.xml', contents: manifest }],
      schema: [file(first)],
      preload: rest.map(file),
    });
    return errors.map(({ message }) => message);
  }

  test('holds the manifest, the four schemas and the pages, without folders', () => {
    expect([...scorm.keys()]).toEqual(['imsmanifest.xml', ...schemas, 'way-out.html', 'way back.html']);
  });

  test('its manifest is valid by the published schemas', async () => {
    const manifest = textOf(scorm, 'imsmanifest.xml');
    expect(manifest).toContain('Back &lt;again&gt; &amp; ');
    expect(await faults(manifest)).toEqual([]);
  });

  // That these schemas find a fault where there is one.
  test.each([
    ['identifier="course"', 'identifier="1 course"', 'xs:ID'],
    ['adlcp:scormtype="sco"', 'adlcp:scormtype="page"', 'enumeration'],
    ['<title>Crossing', `<title>${'x'.repeat(200)}`, 'maxLength'],
    ['<resources>', '<resource>', ''],
  ])('%s written as %s is found', async (right, wrong, said) => {
    const manifest = textOf(scorm, 'imsmanifest.xml');
    expect(manifest).toContain(right);
    const found = await faults(manifest.replace(right, wrong));
    expect(found.length).toBeGreaterThan(0);
    expect(found.join('\n')).toContain(said);
  });

  // SCORM 1.2 Content Aggregation Model, section 2.3.
  test('every item leads to a page of the package', () => {
    const { document } = new JSDOM(textOf(scorm, 'imsmanifest.xml'), { contentType: 'text/xml' }).window;
    const resources = new Map(
      [...document.querySelectorAll('resource')].map(one => [
        one.getAttribute('identifier'),
        decodeURIComponent(one.getAttribute('href') ?? ''),
      ]),
    );
    const pages = [...document.querySelectorAll('item')].map(item =>
      resources.get(item.getAttribute('identifierref')),
    );
    expect(pages).toEqual(['way-out.html', 'way back.html']);
    for (const page of pages) expect(scorm.has(page ?? '')).toBe(true);
  });
});

/**
 * The published schema of a course structure is in no package of the registry, so this says what it says of the elements that are written here
 * (cmi5, Quartz 1st edition, section 13.2; 13.1 for what it means), and section 14.1 of the package.
 */
describe('a cmi5 package', () => {
  const namespace = 'https://w3id.org/xapi/profiles/cmi5/v1/CourseStructure.xsd';
  const structure = (): Document =>
    new JSDOM(textOf(cmi5, 'cmi5.xml'), { contentType: 'text/xml' }).window.document;
  const children = (element: Element | null): readonly string[] =>
    [...(element?.children ?? [])].map(child => child.localName);
  const attributes = (element: Element): readonly string[] => [...element.attributes].map(({ name }) => name);

  test('holds the structure at its root, and the pages that it points to', () => {
    expect([...cmi5.keys()]).toEqual(['cmi5.xml', 'way-out.html', 'way back.html']);
    const urls = [...structure().querySelectorAll('url')].map(url => url.textContent);
    // Media inside the package are named by relative URLs (section 14.1, RFC 3986 for what a URL may hold).
    expect(urls).toEqual(['way-out.html', 'way%20back.html']);
  });

  test('has the elements of the schema in their order, each with what it must have', () => {
    const root = structure().documentElement;
    expect([root.namespaceURI, root.localName, root.attributes.length]).toEqual([
      namespace,
      'courseStructure',
      1,
    ]);
    expect(children(root)).toEqual(['course', 'au', 'au']);
    const [course, ...units] = root.children;
    expect(children(course ?? null)).toEqual(['title', 'description']);
    expect(course === undefined ? [] : attributes(course)).toEqual(['id']);
    for (const unit of units) {
      expect(children(unit)).toEqual(['title', 'description', 'url']);
      expect(attributes(unit)).toEqual(['id', 'moveOn', 'launchMethod']);
      expect(['NotApplicable', 'Passed', 'Completed', 'CompletedAndPassed', 'CompletedOrPassed']).toContain(
        unit.getAttribute('moveOn'),
      );
      expect(['AnyWindow', 'OwnWindow']).toContain(unit.getAttribute('launchMethod'));
    }
    for (const text of root.querySelectorAll('title, description')) {
      expect(children(text)).toEqual(['langstring']);
      // BCP 47.
      expect(text.firstElementChild?.getAttribute('lang')).toBe('en');
      expect(text.textContent.trim()).not.toBe('');
    }
    expect(units[1]?.querySelector('title')?.textContent.trim()).toBe(longTitle);
  });

  test('names course and units by IRIs of their own', () => {
    const ids = [...structure().querySelectorAll('[id]')].map(element => element.getAttribute('id') ?? '');
    expect(new Set(ids).size).toBe(3);
    for (const id of ids) expect(new URL(id).href).toBe(id);
  });
});
