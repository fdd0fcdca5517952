import { afterEach, describe, expect, test, vi } from 'vitest';
import { lessonPlayer } from '../../src/player/lesson-player.js';
import { silence } from '../../src/player/sound/sound.js';
import type { Timeline } from '../../src/timeline/index.js';

/** One step of ten seconds of music. */
const timeline: Timeline = {
  seconds: 10,
  steps: [{ index: 0, title: 'one', start: 0, end: 10 }],
  events: [
    {
      kind: 'passage',
      step: 0,
      action: 0,
      start: 0,
      end: 10,
      bars: { first: '1', last: '4' },
      as: 'written',
      tempo: 100,
      under: false,
    },
  ],
};

afterEach(() => {
  vi.unstubAllGlobals();
});

describe('the moment that is marked', () => {
  // Half of 1/60 s, the time that one frame of a display of 60 Hz stays.
  test.each([0.25, 0.5, 1, 1.5])(
    'at a pace of %f is that of the middle of the frame, whatever the pace',
    async music => {
      vi.stubGlobal('requestAnimationFrame', () => 1);
      let now = 100;
      const player = lessonPlayer(
        timeline,
        silence('no sound here', () => now),
        () => undefined,
      );
      player.setPace({ music, speech: 1 });
      player.send({ kind: 'play' });
      await vi.waitFor(() => {
        expect(player.progress().playing).toBeDefined();
      });
      now = 104;
      const { at, playing } = player.progress();
      expect(at).toBeCloseTo(4 * music, 9);
      expect(((playing?.at ?? 0) - at) / music).toBeCloseTo(0.008, 9);
    },
  );
});
