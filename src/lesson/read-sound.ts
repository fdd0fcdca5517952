import { asMapping, readFields } from './fields.js';
import type { Reading } from './fields.js';
import type { LessonSound, Pacing } from './model.js';
import { instrument, pacingShape, soundShape } from './schema.js';
import type { Mapping } from './tree.js';

/** What `sound` says: the instrument of the lesson, of single voices, the pedal. `undefined` where it is absent. */
export function readSound(reading: Reading, root: Mapping): LessonSound | undefined {
  const entry = root.entries.get('sound');
  const mapping =
    entry && asMapping(reading, 'sound', entry.key, entry.value, '{ instrument: strings, pedal: true }');
  if (mapping === undefined) return undefined;
  const { instrument: all, pedal } = readFields(reading, soundShape, mapping, ['voices']);
  return { instrument: all ?? 'piano', pedal: pedal ?? false, voices: readVoices(reading, mapping) };
}

function readVoices(reading: Reading, sound: Mapping): LessonSound['voices'] {
  const entry = sound.entries.get('voices');
  const mapping = entry && asMapping(reading, 'voices', entry.key, entry.value, '{ T: cello }');
  if (mapping === undefined) return [];
  const names = [...mapping.entries.keys()];
  const instruments = readFields(reading, Object.fromEntries(names.map(name => [name, instrument])), mapping);
  return [...mapping.entries].flatMap(([name, { key }]) => {
    const played = Object.hasOwn(instruments, name) ? instruments[name] : undefined;
    return played === undefined ? [] : [{ voice: { value: name, span: key }, instrument: played }];
  });
}

/** What `pacing` says; what it leaves out has its default. `undefined` where it is absent. */
export function readPacing(reading: Reading, root: Mapping): Pacing | undefined {
  const entry = root.entries.get('pacing');
  const mapping = entry && asMapping(reading, 'pacing', entry.key, entry.value, '{ longest-talk: 40 }');
  return mapping === undefined ? undefined : readFields(reading, pacingShape, mapping);
}
