/** Work that is not saved outlives the window and its host. */
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bench } from './bench.js';

describe('unsaved work', () => {
  it('comes back with another host, with the state that it grew from', async () => {
    const { get, lesson, again } = await bench();
    const { text, stamp } = await get('open', { path: lesson });
    await get('journal', { path: lesson, text: `${text}# more\n`, base: stamp });
    const after = await again();
    expect((await after.get('begin', {})).unsaved).toEqual([
      { path: lesson, title: 'The way home by the mill road' },
    ]);
    expect(await after.get('open', { path: lesson })).toEqual({
      path: lesson,
      text,
      stamp,
      unsaved: { text: `${text}# more\n`, base: stamp, baseText: text },
    });
  });

  it('comes back where the file was changed or removed meanwhile', async () => {
    const { get, lesson, again } = await bench();
    const { text, stamp } = await get('open', { path: lesson });
    await get('journal', { path: lesson, text: 'title: min\n', base: stamp });
    writeFileSync(lesson, 'title: by another\n');
    await get('journal', { path: lesson, text: 'title: mine\n', base: stamp });
    expect(await (await again()).get('open', { path: lesson })).toMatchObject({
      text: 'title: by another\n',
      unsaved: { text: 'title: mine\n', base: stamp, baseText: text },
    });
    rmSync(lesson);
    expect(await (await again()).get('open', { path: lesson })).toEqual({
      path: lesson,
      text: '',
      unsaved: { text: 'title: mine\n', base: stamp, baseText: text },
    });
  });

  it('of a lesson that was never saved comes back', async () => {
    const { get, folder, again } = await bench();
    const drafted = await get('draft', { score: join(folder, 'mill-road.abc') });
    expect(drafted.path).toBe(join(folder, 'mill-road-2.yaml'));
    expect(drafted.stamp).toBeUndefined();
    await get('journal', { path: drafted.path, text: drafted.text });
    expect(await (await again()).get('open', { path: drafted.path })).toEqual({
      path: drafted.path,
      text: '',
      unsaved: { text: drafted.text },
    });
  });

  it('is forgotten once it is saved, or when the user does not want it', async () => {
    const { get, lesson } = await bench();
    const { stamp } = await get('open', { path: lesson });
    await get('journal', { path: lesson, text: 'title: a\n', base: stamp });
    const saved = await get('save', { path: lesson, text: 'title: a\n', base: stamp });
    expect((await get('open', { path: lesson })).unsaved).toBeUndefined();
    await get('journal', { path: lesson, text: 'title: b\n', base: saved.stamp });
    await get('forget', { path: lesson });
    expect((await get('open', { path: lesson })).unsaved).toBeUndefined();
    expect((await get('begin', {})).unsaved).toEqual([]);
  });

  it('that is the same as the file is none', async () => {
    const { get, lesson } = await bench();
    await get('journal', { path: lesson, text: readFileSync(lesson, 'utf8') });
    expect((await get('open', { path: lesson })).unsaved).toBeUndefined();
  });
});

describe('recent lessons', () => {
  it('are those that were opened, newest first, as long as they are there', async () => {
    const { get, lesson, folder } = await bench();
    const other = join(folder, 'other.yaml');
    writeFileSync(other, "title: 'Another one'\n");
    for (const path of [lesson, other]) await get('open', { path });
    expect((await get('begin', {})).recent).toEqual([
      { path: other, title: 'Another one' },
      { path: lesson, title: 'The way home by the mill road' },
    ]);
    rmSync(other);
    expect((await get('begin', {})).recent).toHaveLength(1);
  });
});
