import type { Subject } from '../claim.js';
import { map } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { section } from '../place/section.js';
import { span } from './span.js';
import type { Span } from './span.js';

/** `the second phrase`, `the trio`: a place of which is also said where it begins and ends. */
export const namedSection: Parser<Subject<Span>> = map(section, named =>
  span({ kind: 'section', section: named }),
);
