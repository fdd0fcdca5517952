import { expect, test } from 'vitest';
import { sourceText } from '../../src/diagnostics/index.js';
import { readLesson } from '../../src/lesson/index.js';

const lesson = `format: 1
title: T
score: a.abc
home: C major
steps:
  - title: One
    script:
      - ask: Which?
        choices: [A, B]
        answer: A
      - say: First.
      - play: 1
      - say: Second.
  - title: Two
    script:
      - say: Third.
      - ask: And now?
        choices: [A, B]
        answer: B
`;

test('says and asks of a step have ids of their own, so that each is heard with its own voice', () => {
  const { value } = readLesson(sourceText('lesson.yaml', lesson));
  const ids = value?.steps.flatMap(step =>
    step.script.flatMap(action => ('id' in action ? [action.id] : [])),
  );
  expect(ids).toEqual(['1.1', '1.2', '1.3', '2.1', '2.2']);
});
