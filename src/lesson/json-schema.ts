import { z } from 'zod';
import { LessonSchema } from './schema.js';

/** The lesson format as JSON Schema 2020-12, for editors: completion, descriptions, examples. */
export function lessonJsonSchema(): Readonly<Record<string, unknown>> {
  return z.toJSONSchema(LessonSchema, { target: 'draft-2020-12', io: 'input' });
}
