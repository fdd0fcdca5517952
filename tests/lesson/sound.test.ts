/** `sound`, `pacing` and `loop` in a lesson, from its text to its model; the format is this project's own. */
import { describe, expect, it } from 'vitest';
import { placeOf, sourceText } from '../../src/diagnostics/index.js';
import { readLesson } from '../../src/lesson/index.js';

const head = 'format: 1\ntitle: T\nscore: a.abc\nhome: C major\n';
const steps = 'steps:\n  - title: S\n    script:\n      - play: { bars: 1-2, loop: 4 }\n      - play: 3\n';
const read = (lines: string) => readLesson(sourceText('lesson.yaml', `${head}${lines}${steps}`));

describe('the sound of a lesson', () => {
  it('is an instrument, instruments of single voices, and the pedal', () => {
    const { value, diagnostics } = read(
      'sound:\n  instrument: strings\n  voices: { T: cello, Left hand: viola }\n  pedal: true\n',
    );
    expect(diagnostics).toEqual([]);
    expect(value?.sound).toMatchObject({ instrument: 'strings', pedal: true });
    expect(
      value?.sound?.voices.map(({ voice, instrument }) => {
        const { line, column } = placeOf(value.source, voice.span.start);
        return `${String(line)}:${String(column)} ${voice.value} ${instrument}`;
      }),
    ).toEqual(['7:13 T cello', '7:23 Left hand viola']);
  });

  it('is the piano without pedal where only a voice has its own, and absent where nothing is said', () => {
    expect(read('sound: { voices: { T: flute } }\n').value?.sound).toMatchObject({
      instrument: 'piano',
      pedal: false,
    });
    expect(read('').value).not.toHaveProperty('sound');
  });

  it('names the instrument that was meant', () => {
    const [finding] = read('sound: { voices: { T: celo } }\n').diagnostics;
    expect(finding).toMatchObject({ code: 'L0104', help: 'did you mean `cello`?' });
  });
});

describe('the pacing of a lesson', () => {
  it('holds what is said and nothing else', () => {
    expect(read('pacing: { longest-talk: 40, thinking: 8 }\n').value?.pacing).toEqual({
      'longest-talk': 40,
      thinking: 8,
    });
    expect(read('').value).not.toHaveProperty('pacing');
  });
});

describe('loop', () => {
  it('stands with its play', () => {
    const script = read('').value?.steps[0]?.script ?? [];
    expect(script.map(action => (action.kind === 'play' ? action.loop : undefined))).toEqual([4, undefined]);
  });
});
