import { describe, expect, it } from 'vitest';
import { yamlPlace } from '../../src/studio/yaml-place.js';

describe('a place in an unfinished YAML text', () => {
  // YAML 1.2.2, chapters 7 (flow styles) and 8 (block styles): indentation, compact collections, block scalars.
  it.each([
    ['', [], 'key', ''],
    ['ti', [], 'key', 'ti'],
    ['title: ', ['title'], 'value', ''],
    ['steps:\n  - ', ['steps', '-'], 'key', ''],
    ['steps:\n- bars: 1', ['steps', '-', 'bars'], 'value', '1'],
    ['steps:\n  - title: One\n    sh', ['steps', '-'], 'key', 'sh'],
    [
      'steps:\n  - title: One\n    script:\n      - play: ',
      ['steps', '-', 'script', '-', 'play'],
      'value',
      '',
    ],
    [
      'steps:\n  - script:\n      - play: { bars: 1-3, as: bl',
      ['steps', '-', 'script', '-', 'play', 'as'],
      'value',
      'bl',
    ],
    ['steps:\n  - script:\n      - play: { bars: 1-3, a', ['steps', '-', 'script', '-', 'play'], 'key', 'a'],
    ['steps:\n  - show: [chords, num', ['steps', '-', 'show', '-'], 'value', 'num'],
    ['steps:\n  - show:\n      - ', ['steps', '-', 'show', '-'], 'key', ''],
    ['steps:\n  - claims:\n    - bar 3 is V', ['steps', '-', 'claims', '-'], 'key', 'bar 3 is V'],
    [
      'steps:\n  - claims:\n      - { claim: bar 3, accept: "why, so", ',
      ['steps', '-', 'claims', '-'],
      'key',
      '',
    ],
    ['a: { b: [1, { c: 2 }], ', ['a'], 'key', ''],
    ['a: { b: "x, {y", c: ', ['a', 'c'], 'value', ''],
    [
      'steps:\n  - script:\n      - say: |\n          Hear: this\n\n          and [that]{bar ',
      ['steps', '-', 'script', '-', 'say'],
      'block text',
      'and [that]{bar ',
    ],
    [
      'steps:\n  - script:\n      - say: >-\n          One.\n      - wait: 1',
      ['steps', '-', 'script', '-', 'wait'],
      'value',
      '1',
    ],
    ['steps:\n  - say: Look [here]{bar 3 is ', ['steps', '-', 'say'], 'value', 'Look [here]{bar 3 is '],
    ['narrator:\n  # how fast\n\n  pace: 1', ['narrator', 'pace'], 'value', '1'],
  ] as const)('at the end of %j', (before, path, what, written) => {
    expect(yamlPlace(before)).toEqual({ path, what, written });
  });
});
