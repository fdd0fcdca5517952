/** What other programs do to the open files is noticed. */
import { renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bench, until } from './bench.js';

describe('an open file', () => {
  it('that another program writes is reported once, with its new state', async () => {
    const { get, lesson, events } = await bench();
    await get('open', { path: lesson });
    writeFileSync(lesson, 'title: by another\n');
    await until(() => events.length > 0);
    const { stamp } = await get('open', { path: lesson });
    expect(events).toEqual([{ kind: 'changed-on-disk', path: lesson, stamp }]);
  });

  it('that another program replaces by a rename is reported as changed, not as removed', async () => {
    const { get, lesson, folder, events } = await bench();
    await get('open', { path: lesson });
    writeFileSync(join(folder, 'new'), 'title: by another\n');
    rmSync(lesson);
    renameSync(join(folder, 'new'), lesson);
    await until(() => events.length > 0);
    expect(events).toMatchObject([{ kind: 'changed-on-disk', path: lesson }]);
  });

  it('that is removed is reported', async () => {
    const { get, lesson, events } = await bench();
    await get('open', { path: lesson });
    rmSync(lesson);
    await until(() => events.length > 0);
    expect(events).toEqual([{ kind: 'removed-on-disk', path: lesson }]);
  });

  it('that is no text any more is reported once, and as changed when it is one again', async () => {
    const { get, lesson, events } = await bench();
    const { text } = await get('open', { path: lesson });
    // ISO 8859-1: an e with an acute accent is the one byte E9, which UTF-8 does not end with (RFC 3629, section 4).
    writeFileSync(lesson, Buffer.from(text.replace('title: ', 'title: Caf\u00e9 '), 'latin1'));
    await until(() => events.length > 0);
    // The regular round looks at the file meanwhile.
    await new Promise(done => setTimeout(done, 2500));
    expect(events).toEqual([
      { kind: 'unreadable-on-disk', path: lesson, why: '`mill-road.yaml` is not UTF-8 text' },
    ]);
    writeFileSync(lesson, text);
    await until(() => events.length > 1);
    expect(events[1]).toMatchObject({ kind: 'changed-on-disk', path: lesson });
  });

  it('may be a score', async () => {
    const { get, lesson, folder, events } = await bench();
    const { text } = await get('readScore', { lesson, score: 'mill-road.abc' });
    writeFileSync(join(folder, 'mill-road.abc'), `${text}% more\n`);
    await until(() => events.length > 0);
    expect(events).toMatchObject([{ kind: 'changed-on-disk', path: join(folder, 'mill-road.abc') }]);
  });

  it('that the window itself saves is not reported', async () => {
    const { get, lesson, folder, events } = await bench();
    let { stamp } = await get('open', { path: lesson });
    const other = join(folder, 'other.yaml');
    writeFileSync(other, 'title: other\n');
    await get('open', { path: other });
    for (const text of ['title: a\n', 'title: b\n', 'title: c\n'])
      stamp = (await get('save', { path: lesson, text, base: stamp })).stamp;
    // What happens to the other file afterwards is reported after whatever would have been.
    writeFileSync(other, 'title: by another\n');
    await until(() => events.length > 0);
    expect(events).toMatchObject([{ kind: 'changed-on-disk', path: other }]);
  });
});
