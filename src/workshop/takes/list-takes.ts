import { basename } from 'node:path';
import type { Answer, Answers, Payload, SpokenPart } from '../../bridge/index.js';
import { sourceText } from '../../diagnostics/index.js';
import { readLesson } from '../../lesson/index.js';
import type { Lesson } from '../../lesson/index.js';
import { isStale, oneLine, paragraphsOf, readLedger, silenceAfter } from '../../sound/index.js';
import type { Ledger } from '../../sound/index.js';
import { buildTimeline, chordsOfAnalysis, estimateSpeech, spokenTexts } from '../../timeline/index.js';
import type { Speech, Timeline } from '../../timeline/index.js';
import { granted, refused, refusedBySystem } from '../answer.js';
import { soundLesson } from '../bench/checked-lesson.js';
import { takesFolder } from '../bench/lesson-paths.js';
import { finishMoves, moveTakes } from './move-takes.js';
import { comeHome, planMoves } from './plan-moves.js';
import { soundFacts } from './sound-facts.js';
import { takesMadeFor, textsOf } from './stray-takes.js';
import { takeStore } from './take-store.js';

/** Everything that is read aloud in a lesson with its recordings, and when it is heard with the takes as they are. */
export async function listTakes({ path, text }: Payload<'takes'>): Promise<Answer<Answers['takes']>> {
  const folder = takesFolder(path);
  const { value: lesson } = readLesson(sourceText(path, text));
  if (lesson === undefined)
    return refused('the lesson cannot be read, so its texts are not known', 'mend the errors in its text');
  try {
    await finishMoves(folder);
    const parts = await partsOf(lesson, folder);
    const timeline = await timelineOf(path, text, parts, lesson.narrator.pace);
    const starts = new Map(
      timeline?.events.flatMap(event => (event.kind === 'speech' ? [[event.say, event.start] as const] : [])),
    );
    return granted({
      folder,
      steps: lesson.steps.map(({ title }) => title),
      parts: parts.map(part => {
        const start = starts.get(part.id);
        return start === undefined ? part : { ...part, start };
      }),
      strays: comeHome(textsOf(parts), await takesMadeFor(folder)),
      ...(timeline === undefined ? {} : { seconds: timeline.seconds }),
    });
  } catch (error) {
    return refusedBySystem(error, 'the takes cannot be read');
  }
}

/** Takes whose words stand elsewhere now go there. */
export async function followWords({
  path,
  text,
}: Payload<'moveTakes'>): Promise<Answer<Answers['moveTakes']>> {
  const folder = takesFolder(path);
  const { value: lesson } = readLesson(sourceText(path, text));
  if (lesson === undefined) return refused('the lesson cannot be read, so its texts are not known');
  try {
    await finishMoves(folder);
    const texts = textsOf(await partsOf(lesson, folder));
    const takes = await takesMadeFor(folder);
    const moves = planMoves(texts, takes);
    if (moves.length > 0) await moveTakes(folder, moves);
    return granted({ moved: comeHome(texts, takes) });
  } catch (error) {
    return refusedBySystem(error, 'the takes were not moved', 'what was moved so far is moved on next time');
  }
}

async function partsOf(lesson: Lesson, folder: string): Promise<readonly SpokenPart[]> {
  const ledger = await readLedger(folder);
  const { pace } = lesson.narrator;
  const parts: SpokenPart[] = [];
  for (const { id, text, step, span } of spokenTexts(lesson)) {
    const place = { step, from: span.start, to: span.end };
    const whole = await partOf(folder, ledger, { ...place, id, words: text }, pace);
    const paragraphs = paragraphsOf(text);
    const inner: SpokenPart[] = [];
    if (paragraphs.length > 1)
      for (const [index, { words }] of paragraphs.entries()) {
        const paragraph = index + 1;
        const own = { ...place, id: `${id}-${String(paragraph)}`, paragraph, words };
        inner.push(await partOf(folder, ledger, own, pace));
      }
    parts.push({ ...whole, seconds: secondsOf(whole, inner, pace) }, ...inner);
  }
  return parts;
}

const isSpoken = ({ take }: SpokenPart): boolean => take !== undefined && take.trouble === undefined;

/** As a build speaks it: the take of the whole, else those of paragraphs with the voice for the others, else the voice. */
function secondsOf(whole: SpokenPart, paragraphs: readonly SpokenPart[], pace: number): number {
  if (isSpoken(whole) || !paragraphs.some(isSpoken)) return whole.seconds;
  const pauses = (paragraphs.length - 1) * ((silenceAfter.paragraph * 150) / pace);
  return paragraphs.reduce((sum, { seconds }) => sum + seconds, pauses);
}

type Place = Pick<SpokenPart, 'id' | 'step' | 'from' | 'to' | 'words' | 'paragraph'>;

async function partOf(folder: string, ledger: Ledger, place: Place, pace: number): Promise<SpokenPart> {
  const { recordings, current, canUndo } = await takeStore(folder, place.id).look();
  const stored = [...(current?.recording === 0 ? [{ number: 0, file: current.file }] : []), ...recordings];
  const part: SpokenPart = {
    ...place,
    seconds: estimateSpeech(place.words, pace).seconds,
    canUndo,
    recordings: await Promise.all(
      stored.map(async ({ number, file, words }: (typeof recordings)[number]) => {
        const { seconds } = await soundFacts(file);
        return {
          number,
          stale: words !== undefined && oneLine(words) !== oneLine(place.words),
          ...(words === undefined ? {} : { words }),
          ...(seconds === undefined ? {} : { seconds }),
        };
      }),
    ),
  };
  if (current === undefined) return part;
  const { hash, seconds, spokenSeconds, trouble } = await soundFacts(current.file);
  const entry = ledger.get(basename(current.file));
  const isByHand = entry?.sound === hash && entry.byHand === true;
  return {
    ...part,
    seconds: (isByHand ? seconds : spokenSeconds) ?? part.seconds,
    take: {
      recording: current.recording,
      stale: isStale(entry, hash, place.words),
      ...(current.cut === undefined ? {} : { cut: current.cut }),
      ...(trouble === undefined ? {} : { trouble }),
    },
  };
}

/** The schedule of the walkthrough with texts as long as the parts say; `undefined` where the lesson has errors. */
async function timelineOf(
  path: string,
  text: string,
  parts: readonly SpokenPart[],
  pace: number,
): Promise<Timeline | undefined> {
  const checked = await soundLesson(path, text);
  if (!checked.ok) return undefined;
  const { lesson, analysis, versions } = checked;
  const analyses = [analysis, ...versions.values()];
  const speech = new Map<string, Speech>(
    parts
      .filter(({ paragraph }) => paragraph === undefined)
      .map(({ id, words, seconds }) => [id, { ...estimateSpeech(words, pace), seconds }]),
  );
  return buildTimeline({
    lesson,
    score: analysis.score,
    versions: new Map([...versions].map(([name, { score }]) => [name, score])),
    chordsIn: chordsOfAnalysis(of => analyses.find(({ score }) => score === of)),
    speech,
  }).value;
}
