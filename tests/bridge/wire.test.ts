import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromWire, readPayload, toWire } from '../../src/bridge/index.js';
import { fromBase64, toBase64 } from '../../src/bridge/base64.js';

describe('base64', () => {
  // RFC 4648, section 10 (test vectors).
  it.each([
    ['', ''],
    ['f', 'Zg=='],
    ['fo', 'Zm8='],
    ['foo', 'Zm9v'],
    ['foob', 'Zm9vYg=='],
    ['fooba', 'Zm9vYmE='],
    ['foobar', 'Zm9vYmFy'],
  ])('of "%s" is "%s"', (text, encoded) => {
    expect(toBase64(Buffer.from(text))).toBe(encoded);
    expect(Buffer.from(fromBase64(encoded) ?? []).toString()).toBe(text);
  });

  it('is what Node makes of any bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 20_000 }), bytes => {
        expect(toBase64(bytes)).toBe(Buffer.from(bytes).toString('base64'));
        expect(fromBase64(Buffer.from(bytes).toString('base64'))).toEqual(bytes);
      }),
    );
  });

  // RFC 4648, section 3.3: signs outside the alphabet are refused.
  it.each(['Zg', 'Zg=', 'Z!==', 'Zm9v\n', 'Zé==', '====', '=m9v'])('"%s" is refused', text => {
    expect(fromBase64(text)).toBeUndefined();
  });
});

describe('the wire', () => {
  it('carries bytes wherever they stand, also those of Node', () => {
    const sent = { path: 'a', wav: Buffer.from([1, 2, 255]), list: [new Uint8Array([0])] };
    expect(fromWire(toWire(sent))).toEqual({
      path: 'a',
      wav: new Uint8Array([1, 2, 255]),
      list: [new Uint8Array([0])],
    });
  });

  it('leaves what only looks like bytes to the check of the payload', () => {
    expect(fromWire('{"wav":{"base64":"?"}}')).toEqual({ wav: { base64: '?' } });
  });
});

describe('a payload', () => {
  it('is taken as the table says', () => {
    const sent = { path: '/a.yaml', text: '', base: 'a'.repeat(64) };
    expect(readPayload('save', sent)).toEqual({ ok: true, payload: sent });
  });

  it.each([
    ['save', { path: '/a.yaml' }],
    ['save', { path: '/a.yaml', text: '', base: 'no hash' }],
    ['save', { path: '/a.yaml', text: '', more: 1 }],
    ['save', null],
    ['saveTake', { path: '/a', id: '../1.1', words: '', pcm: new Uint8Array(), sampleRate: 48_000 }],
    ['saveTake', { path: '/a', id: '1.1', words: '', pcm: [1, 2], sampleRate: 48_000 }],
    ['saveTake', { path: '/a', id: '1.1', words: '', pcm: new Uint8Array(3), sampleRate: 48_000 }],
    ['saveTake', { path: '/a', id: '1.1', words: '', pcm: new Uint8Array(2), sampleRate: 0 }],
    ['useTake', { path: '/a', id: '1.1', recording: 1, cut: { from: 2, to: 1 } }],
    ['useTake', { path: '/a', id: '1.1', recording: 0 }],
    ['choose', { what: 'program' }],
  ] as const)('of `%s` is refused as %j', (name, sent) => {
    expect(readPayload(name, sent)).toMatchObject({
      ok: false,
      why: expect.stringContaining('✖') as unknown,
    });
  });
});
