import abcjs from 'abcjs';
import { describe, expect, test } from 'vitest';
import { dropUnseenKeys } from '../../src/timeline/engraving-keys.js';

/** The changes of key that are left to draw, as the sharps and flats that they end with. */
function drawnChanges(music: string): readonly string[] {
  const [tune] = abcjs.parseOnly(`X:1\nM:2/4\nL:1/4\nK:F\n${music}\n`);
  if (tune === undefined) throw new Error('no tune');
  dropUnseenKeys(tune);
  return tune.lines
    .flatMap(line => line.staff ?? [])
    .flatMap(staff => staff.voices ?? [])
    .flat()
    .filter(element => element.el_type === 'key')
    .map(element =>
      ('accidentals' in element ? (element.accidentals ?? []) : []).map(({ acc }) => acc).join(' '),
    );
}

// ABC 2.1, section 3.1.14, K: keys of one signature differ in their tonic alone.
describe('a change of key is drawn where the signature changes', () => {
  test.each([
    ['F A | [K:Dm] A d |]', []],
    ['F A | [K:Dm] A d | [K:F] c F |]', []],
    ['F A | [K:G] B d |]', ['natural sharp']],
    ['F A | [K:G] B d | [K:Em] B e |]', ['natural sharp']],
    ['F A | [K:G] B d | [K:F] A c |]', ['natural sharp', 'natural flat']],
    ['F A |\nK:Dm\nA d |]', []],
  ])('%s', (music, changes) => {
    expect(drawnChanges(music)).toEqual(changes);
  });
});
