import { describe, expect, test } from 'vitest';
import { captionAt, readCaptions } from '../../src/player/captions.js';
import { clockTime, spokenTime } from '../../src/player/durations.js';
import { defaultSettings, readSettings } from '../../src/player/settings.js';

describe('WebVTT captions', () => {
  // Examples after the WebVTT recommendation (W3C, 4 April 2019), sections 1.1 to 1.4: notes, identifiers, settings, tags, entities.
  const captions = readCaptions(
    [
      'WEBVTT - with a title',
      'NOTE a comment\nof two lines',
      'STYLE\n::cue { color: red }',
      '1\n00:11.000 --> 00:13.000 align:start\nWe are in New York City',
      '00:13.000 --> 00:16.500\n<v Roger Bingham>We are <i>actually</i> at\nthe Lucern Hotel',
      '01:00:00.250 --> 01:00:01.000\nAT&amp;T &lt;b&gt;',
    ].join('\n\n'),
  );

  test('are read with their times and plain text', () => {
    expect(captions).toEqual([
      { start: 11, end: 13, text: 'We are in New York City' },
      { start: 13, end: 16.5, text: 'We are actually at\nthe Lucern Hotel' },
      { start: 3600.25, end: 3601, text: 'AT&T <b>' },
    ]);
  });

  test('are shown from their start until their end', () => {
    expect(captionAt(captions, 10.9)).toBeUndefined();
    expect(captionAt(captions, 11)?.text).toBe('We are in New York City');
    expect(captionAt(captions, 13)?.text).toBe('We are actually at\nthe Lucern Hotel');
    expect(captionAt(captions, 16.5)).toBeUndefined();
  });
});

describe('lengths of time', () => {
  test.each([
    [0, '0:00', '0 seconds'],
    [1, '0:01', '1 second'],
    // A second counts once it is over, as on a clock.
    [59.6, '0:59', '59 seconds'],
    [187, '3:07', '3 minutes 7 seconds'],
    [-2, '0:00', '0 seconds'],
  ])('%d', (seconds, shown, spoken) => {
    expect(clockTime(seconds)).toBe(shown);
    expect(spokenTime(seconds)).toBe(spoken);
  });
});

describe('settings that were kept', () => {
  test('come back as they were', () => {
    const kept = { ...defaultSettings, captions: true, theme: 'dark', music: 0.4 } as const;
    expect(readSettings(JSON.stringify(kept))).toEqual(kept);
  });

  test.each([null, '', 'null', '[]', '3', '{"theme":"pink","music":7,"keys":"yes","captions":1}'])(
    '%s is as at first',
    text => {
      expect(readSettings(text)).toEqual(defaultSettings);
    },
  );
});
