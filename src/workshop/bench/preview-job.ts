import type { Answer } from '../../bridge/index.js';
import { granted, refused } from '../answer.js';
import { soundLesson } from './checked-lesson.js';
import type { JobResults, Jobs, Progress } from './jobs.js';
import { makeWalkthrough } from './walkthrough.js';

/** The student's page of a text that need not be saved. */
export async function previewJob(
  { path, text, speech }: Jobs['preview'],
  onProgress: (progress: Progress) => void,
): Promise<Answer<JobResults['preview']>> {
  const checked = await soundLesson(path, text);
  if (!checked.ok) return checked;
  const { files } = await makeWalkthrough(path, speech, checked, { speechAs: 'wav' }, doing => {
    onProgress({ doing });
  });
  const page = files.find(({ name }) => name.endsWith('.html'));
  return page === undefined ? refused('the lesson has no page') : granted({ html: page.bytes });
}
