import type { Reporter } from './reporter.js';

/** What the platform hands over in the address of the page (cmi5, Quartz 1st edition, section 8.1). */
export interface Cmi5Launch {
  readonly endpoint: string;
  readonly fetch: string;
  readonly actor: object;
  readonly registration: string;
  readonly activityId: string;
}

/** Reads the launch parameters; `undefined` where the page was opened by itself. */
export function readLaunch(address: string): Cmi5Launch | undefined {
  const parameters = new URL(address).searchParams;
  const value = (name: string): string => parameters.get(name) ?? '';
  let actor: unknown;
  try {
    actor = JSON.parse(value('actor'));
  } catch {
    return undefined;
  }
  const launch = {
    endpoint: value('endpoint').replace(/\/?$/, '/'),
    fetch: value('fetch'),
    registration: value('registration'),
    activityId: value('activityId'),
  };
  if (typeof actor !== 'object' || actor === null || Object.values(launch).includes('')) return undefined;
  return { ...launch, actor };
}

/** ISO 8601 duration with hundredths (xAPI 1.0.3, section 4.6). */
const duration = (seconds: number): string => `PT${seconds.toFixed(2)}S`;

const verbs = {
  initialized: 'http://adlnet.gov/expapi/verbs/initialized',
  answered: 'http://adlnet.gov/expapi/verbs/answered',
  completed: 'http://adlnet.gov/expapi/verbs/completed',
  terminated: 'http://adlnet.gov/expapi/verbs/terminated',
} as const;
type Verb = keyof typeof verbs;

const categories = {
  cmi5: 'https://w3id.org/xapi/cmi5/context/categories/cmi5',
  moveOn: 'https://w3id.org/xapi/cmi5/context/categories/moveon',
} as const;

/** A random UUID (RFC 9562, version 4); `crypto.randomUUID` is missing where the page is not served safely. */
function uuid(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x40;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = [...bytes].map(byte => byte.toString(16).padStart(2, '0')).join('');
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-');
}

interface LaunchData {
  readonly contextTemplate?: {
    readonly contextActivities?: Readonly<Record<string, readonly unknown[]>>;
    readonly extensions?: object;
  };
  readonly launchMode?: 'Normal' | 'Browse' | 'Review';
}

/**
 * Reports to a cmi5 platform by xAPI statements: initialized, answered, completed, terminated, each after the one before. `now` reads
 * seconds. What the platform refuses is lost; the lesson goes on.
 */
export function cmi5Reporter(launch: Cmi5Launch, now: () => number): Reporter {
  const begun = now();
  const told = new Map<string, string>();
  let complete = false;
  let ended = false;
  let authorization = '';
  let data: LaunchData = {};

  const request = (path: string, init: RequestInit = {}): Promise<Response> =>
    fetch(launch.endpoint + path, {
      ...init,
      headers: {
        Authorization: authorization,
        'X-Experience-API-Version': '1.0.3',
        'Content-Type': 'application/json',
      },
    });

  const statement = (verb: Verb, parts: { object?: object; result?: object } = {}): object => {
    const { contextActivities = {}, ...template } = data.contextTemplate ?? {};
    // Statements that cmi5 itself defines carry its category; answers are allowed statements and do not (section 9.6.2.1).
    const own = verb === 'answered' ? [] : [{ id: categories.cmi5 }];
    const moveOn = verb === 'completed' ? [{ id: categories.moveOn }] : [];
    return {
      id: uuid(),
      timestamp: new Date().toISOString(),
      actor: launch.actor,
      verb: { id: verbs[verb], display: { en: verb } },
      object: parts.object ?? { objectType: 'Activity', id: launch.activityId },
      ...(parts.result === undefined ? {} : { result: parts.result }),
      context: {
        ...template,
        registration: launch.registration,
        contextActivities: {
          ...contextActivities,
          category: [...(contextActivities['category'] ?? []), ...own, ...moveOn],
        },
      },
    };
  };

  const begin = async (): Promise<void> => {
    // The token is given once only (section 8.2.1).
    const answer = (await (await fetch(launch.fetch, { method: 'POST' })).json()) as Record<string, unknown>;
    authorization = `Basic ${String(answer['auth-token'] ?? '')}`;
    const agent = encodeURIComponent(JSON.stringify(launch.actor));
    const state = await request(
      `activities/state?stateId=LMS.LaunchData&activityId=${encodeURIComponent(launch.activityId)}&registration=${launch.registration}&agent=${agent}`,
    );
    if (state.ok) data = (await state.json()) as LaunchData;
    // The platform wants it asked for, whether or not there is anything (section 11.0).
    await request(`agents/profile?profileId=cmi5LearnerPreferences&agent=${agent}`).catch(() => undefined);
    await send(statement('initialized'));
  };

  const send = async (one: object, keepalive = false): Promise<void> => {
    await request('statements', { method: 'POST', body: JSON.stringify(one), keepalive });
  };
  let last: Promise<void> = begin().catch(() => undefined);
  const after = (work: () => Promise<void>): void => {
    last = last.then(work).catch(() => undefined);
  };

  return {
    report: ({ answers, complete: nowComplete }) => {
      for (const { id, question, given, right } of answers) {
        const answer = `${right} ${given}`;
        if (told.get(id) === answer) continue;
        told.set(id, answer);
        after(() =>
          // In browsing and reviewing nothing but the frame is reported (section 10.2.2).
          data.launchMode === 'Browse' || data.launchMode === 'Review'
            ? Promise.resolve()
            : send(
                statement('answered', {
                  object: {
                    objectType: 'Activity',
                    id: `${launch.activityId}#${encodeURIComponent(id)}`,
                    definition: {
                      type: 'http://adlnet.gov/expapi/activities/cmi.interaction',
                      interactionType: 'fill-in',
                      description: { en: question },
                    },
                  },
                  result: { response: given, success: right },
                }),
              ),
        );
      }
      if (!nowComplete || complete) return;
      complete = true;
      after(() =>
        data.launchMode === 'Browse' || data.launchMode === 'Review'
          ? Promise.resolve()
          : send(
              statement('completed', {
                result: {
                  completion: true,
                  duration: duration(now() - begun),
                },
              }),
            ),
      );
    },
    end: () => {
      if (ended) return;
      ended = true;
      // The page is going: this one goes out at once and outlives it.
      if (authorization !== '')
        void send(statement('terminated', { result: { duration: duration(now() - begun) } }), true).catch(
          () => undefined,
        );
    },
  };
}
