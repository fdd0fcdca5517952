/** Writes lesson-schema/lesson.schema.json from the schema that the lesson reader uses. */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { lessonJsonSchema } from '../src/lesson/index.js';

const target = fileURLToPath(new URL('../lesson-schema/lesson.schema.json', import.meta.url));
writeFileSync(target, `${JSON.stringify(lessonJsonSchema(), null, 2)}\n`);
console.log(`written: ${target}`);
